import { type ReachAnswer, reachOf } from '../desk/reach.js';
import { reachAllJson, reachJson } from '../report/json/reach.js';
import { reachAllSheet } from '../report/reach-all.js';
import { reachAgainstSheet, reachSheet } from '../report/reach.js';
import { benchTexts } from './bench-texts.js';
import type { Command, Outcome } from './command.js';
import { FEED_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { wishesOf } from './wishes.js';

/** How far each element can be moved on this shelf, and what holds it back. */
export const reachCommand: Command = {
  name: 'reach',
  summary: 'what the shelf can and cannot reach, element by element',
  examples: [
    {
      line: 'velamen reach --bench examples/what-the-shelf-reaches --feed winter',
      says: 'the lowest and highest of each element, and what holds it back',
    },
    {
      line: 'velamen reach --bench mine --feed moss --against neighbours',
      says: 'two shelves side by side for the same feed',
    },
  ],
  about: [
    'For each element with a band: the lowest and highest mg/L that the shelf can give while every other limit holds. Exit code 3 means that an element lies out of reach, or that not all limits can be kept at once.',
  ],
  options: {
    ...FEED_OPTIONS,
    ...SHELF_OPTIONS,
    all: { says: 'every feed of the bench, with an overview first; with --json one object for all of them' },
    against: { value: 'DIR', says: 'another bench, or a shelf file, to set beside this one for the same feed' },
  },
  async run(given, io) {
    const answer = await reachOf(benchTexts(given, io), wishesOf(given));
    const { met, warnings } = answer;
    return { exit: met ? 0 : 3, warnings, ...(given.flag('all') ? overview(answer) : oneByOne(answer)) };
  },
};

type Shown = Pick<Extract<Outcome, { json: object }>, 'json' | 'sheets'>;

function oneByOne({ results, against, water }: ReachAnswer): Shown {
  const [first] = results;
  return against
    ? { json: { ...reachJson(first!), against: reachJson(against) }, sheets: [reachAgainstSheet(first!, against)] }
    : { json: reachJson(first!), sheets: results.map((result) => reachSheet(result, water)) };
}

function overview({ results, water }: ReachAnswer): Shown {
  return {
    json: reachAllJson(results),
    sheets: [reachAllSheet(results), ...results.map((result) => reachSheet(result, water))],
  };
}
