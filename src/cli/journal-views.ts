import { dashed } from '../desk/options/option.js';
import type { OptionKey, Words } from '../desk/options/table.js';
import { nearest, type Problem, problem, Refusal } from '../problem.js';
import type { Given } from './command.js';

/** What `journal` can be asked for. */
export const VIEWS = ['add', 'undo', 'show', 'stock', 'cost', 'pot'] as const;
export type View = (typeof VIEWS)[number];

const isView = (word: string): word is View => (VIEWS as readonly string[]).includes(word);

/** Options that only some of the views read; the others have a say in all. */
const ONLY: Readonly<Partial<Record<OptionKey, readonly View[]>>> = {
  ...Object.fromEntries(
    (
      [
        'sheet',
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
        'holds',
        'fed',
      ] as const
    ).map((key) => [key, ['add']]),
  ),
  note: ['add', 'undo'],
  on: ['add', 'undo'],
  feed: ['add', 'show', 'cost'],
  last: ['show'],
  pot: ['add', 'pot'],
};

/** Options that have no say in what is asked for. */
export function idleOf(view: View, words: Words): Problem[] {
  return (Object.keys(words) as OptionKey[])
    .filter((key) => ONLY[key] !== undefined && !ONLY[key].includes(view))
    .map((key) =>
      problem(
        'beside-job',
        { field: dashed(key) },
        `${dashed(key)} with journal ${view}`,
        'options that have a say in it',
        `Leave ${dashed(key)} out.`,
      ),
    );
}

/** The view that was asked for. @throws Refusal where it is none, or a word stands behind it in vain */
export function viewOf({ operands: [view, number] }: Given): View {
  if (view !== undefined && isView(view)) {
    if (number === undefined || view === 'undo' || view === 'pot') return view;
    throw new Refusal([problem('stray-word', {}, `"${number}"`, `nothing behind ${view}`, 'Leave it out.')]);
  }
  const guess = view === undefined ? undefined : nearest(view, VIEWS, 1)[0];
  const fix =
    guess === undefined ? 'velamen journal -h tells what each does.' : `Did you mean velamen journal ${guess}?`;
  const found = view === undefined ? 'no word behind journal' : `"${view}"`;
  throw new Refusal([problem('journal-view', {}, found, VIEWS.join(', '), fix)]);
}
