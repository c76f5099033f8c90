import { type Problem, problemLine } from '../problem.js';
import { type Missing, missingSays } from './labels.js';
import { paragraph, section, type Sheet } from './sheet.js';

/** What `check` answers where nothing is wrong. */
export interface CheckResult {
  status: 'sound' | 'doubtful';
  /** The name of the file; null where there is none. */
  bench: string | null;
  shelf: string;
  products: readonly string[];
  feeds: readonly string[];
  /** What can be read and may yet be a slip, or was not told. */
  doubts: readonly Problem[];
  /** What the shelf does not say, each kind once. */
  missing: readonly Missing[];
}

/** Every doubt about a bench. */
export function checkSheet({ bench, shelf, products, feeds, doubts, missing }: CheckResult): Sheet {
  const count = doubts.length + missing.length;
  const found = count === 0 ? 'nothing is doubtful' : `${count} ${count === 1 ? 'doubt' : 'doubts'}`;
  const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
  return {
    title: `${[bench, shelf].filter((name) => name !== null).join(' and ')}: nothing is wrong; ${found}`,
    blocks: [
      paragraph(`${counted(products.length, 'product')}, ${counted(feeds.length, 'feed')}.`),
      ...section('Doubts', doubts.map(problemLine)),
      ...section('What the shelf does not say', missing.map(missingSays)),
    ],
  };
}
