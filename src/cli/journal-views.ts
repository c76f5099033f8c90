import { dashed } from '../desk/options/option.js';
import type { OptionKey, Words } from '../desk/options/table.js';
import { type Problem, problem } from '../problem.js';

/** What `journal` can be asked for. */
export const VIEWS = ['add', 'undo', 'show', 'stock', 'cost'] as const;
export type View = (typeof VIEWS)[number];

export const isView = (word: string): word is View => (VIEWS as readonly string[]).includes(word);

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
      ] as const
    ).map((key) => [key, ['add']]),
  ),
  note: ['add', 'undo'],
  on: ['add', 'undo'],
  feed: ['add', 'show', 'cost'],
  last: ['show'],
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
