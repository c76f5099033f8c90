import { nearest, problem, Refusal } from '../problem.js';
import { type Command, type Given, OUT } from './command.js';
import { SHEET_FORMS } from './forms.js';
import { idleOf, isView, type View, VIEWS } from './journal-views.js';

/** What was mixed, bought and counted: written down, undone, read back. */
export const journalCommand: Command = {
  name: 'journal',
  examples: [
    {
      line: 'velamen journal add --bench mine --sheet "0ABC-…" --reading 0.46',
      says: 'a batch by the code of its sheet, with what the pen showed; it is taken off the stock',
    },
    {
      line: 'velamen journal add --bench mine --feed moss --used "1.5 g sample-base" --reading "230 ppm" --ph 6.2',
      says: 'the doses of the feed as `sheet` gives them, but for one',
    },
    { line: 'velamen journal undo 17 --bench mine', says: 'entry 17 no longer counts; nothing is ever deleted' },
    { line: 'velamen journal stock --bench mine', says: 'what is left' },
  ],
  about: [
    'journal.csv stands beside bench.yaml. It is plain text, a line an entry, and is only ever added to; a spreadsheet opens it. Stock is what the shelf says was there at its first line, or what was counted last (--counted), with all that was bought and used since; every command reckons with it.',
    'add records a batch (--sheet, --feed or --recipe, with --used, --reading, --temperature, --ph), packs (--bought, --paid), jars as they are weighed (--counted), or the pen in its standard (--standard with --reads). show, stock and cost read it back; show has --svg.',
  ],
  operands: { name: 'VIEW', choices: VIEWS, says: `${VIEWS.join(', ')}; undo takes the number of an entry`, most: 2 },
  options: [
    'sheet',
    'feed',
    'recipe',
    'used',
    'mix',
    'measured',
    'reading',
    'scale',
    'temperature',
    'compensates',
    'penFactor',
    'ph',
    'bought',
    'paid',
    'counted',
    'standard',
    'reads',
    'note',
    'on',
    'last',
    'bench',
    'full',
    'svg',
    ...OUT,
  ],
  forms: (_, [view]) => (view === 'show' ? [...SHEET_FORMS, 'svg'] : SHEET_FORMS),
  async run(given, io) {
    const view = viewOf(given);
    const { runView } = await import('./journal-run.js');
    return runView(view, given, io, idleOf(view, given.words));
  },
};

function viewOf({ operands: [view, number] }: Given): View {
  if (view !== undefined && isView(view)) {
    if (number === undefined || view === 'undo') return view;
    throw new Refusal([problem('stray-word', {}, `"${number}"`, `nothing behind ${view}`, 'Leave it out.')]);
  }
  const guess = view === undefined ? undefined : nearest(view, VIEWS, 1)[0];
  const fix =
    guess === undefined ? 'velamen journal -h tells what each does.' : `Did you mean velamen journal ${guess}?`;
  const found = view === undefined ? 'no word behind journal' : `"${view}"`;
  throw new Refusal([problem('journal-view', {}, found, VIEWS.join(', '), fix)]);
}
