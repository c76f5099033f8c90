import { type Command, OUT } from './command.js';
import { SHEET_FORMS } from './forms.js';
import { idleOf, viewOf, VIEWS } from './journal-views.js';

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
    {
      line: 'velamen journal add --bench mine --pot window-3 --feed moss --reading 0.6 --holds "0.5 L"',
      says: 'what ran out of a pot; velamen journal pot says whether to flush it, with how much, and when to go on',
    },
    { line: 'velamen journal stock --bench mine', says: 'what is left' },
  ],
  about: [
    'journal.csv stands beside bench.yaml. It is plain text, a line an entry, and is only ever added to; a spreadsheet opens it. Stock is what the shelf says was there at its first line, or what was counted last (--counted), with all that was bought and used since; every command reckons with it.',
    'add records a batch (--sheet, --feed or --recipe, with --used, --reading, --temperature, --ph), packs (--bought, --paid), jars as they are weighed (--counted), the pen in its standard (--standard with --reads), or what runs out of a pot (--pot, --reading). show, stock, cost and pot read it back; show has --svg. Three good batches of a feed narrow the readings of its later sheets and of meter; show tells a drift of the pen from one of the jars.',
  ],
  operands: {
    name: 'VIEW',
    choices: VIEWS,
    says: `${VIEWS.join(', ')}; undo takes the number of an entry, pot the name of one`,
    most: 2,
  },
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
    'pot',
    'holds',
    'fed',
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
