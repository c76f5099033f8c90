import { type ReachAnswer, reachOf } from '../desk/reach.js';
import { reachAllJson, reachJson } from '../report/json/reach.js';
import { reachAllSheet } from '../report/reach-all.js';
import { reachAgainstSheet, reachSheet } from '../report/reach.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { A_FEED, A_SHELF } from './feed-options.js';
import { type Forms, ofSheets } from './forms.js';
import { wishesOf } from './wishes.js';

/** How far each element can be moved on this shelf, and what decides. */
export const reachCommand: Command = {
  name: 'reach',
  examples: [
    {
      line: 'velamen reach --bench examples/what-the-shelf-reaches --feed winter',
      says: 'the lowest and highest of each element, whether its aim is in reach, and what decides',
    },
    {
      line: 'velamen reach --bench mine --feed moss --against neighbours',
      says: 'two shelves side by side for the same feed',
    },
  ],
  about: [
    'For each element with a band: the lowest and highest mg/L that the shelf can give while every other limit holds, whether its aim can be met then, and the one product or limit that decides where it cannot; --full tells every limit that counts. Exit code 3 means that an element lies out of reach, or that not all limits can be kept at once.',
  ],
  options: [...A_FEED, 'mix', ...A_SHELF, 'all', 'against', 'full', ...OUT],
  async run(given, io) {
    const answer = await reachOf(benchTexts(given, io), wishesOf(given));
    const { met, warnings } = answer;
    return { exit: met ? 0 : 3, warnings, forms: formsOf(answer, given.words.all === true) };
  },
};

/** Several feeds are led by one overview. */
function formsOf({ results, against, water }: ReachAnswer, all: boolean): Forms {
  const [first] = results;
  if (against)
    return ofSheets({ ...reachJson(first!), against: reachJson(against) }, [reachAgainstSheet(first!, against)]);
  const sheets = results.map((result) => reachSheet(result, water));
  const lead = results.length > 1 ? [reachAllSheet(results)] : [];
  return ofSheets(all ? reachAllJson(results) : reachJson(first!), [...lead, ...sheets]);
}
