import { blendJson } from '../report/json/blend.js';
import { blendFeeds } from '../desk/blend.js';
import { blendSheets } from '../report/blend-several.js';
import { unfedJson, unfedSheet } from '../report/unfed.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { A_FEED, A_SHELF } from './feed-options.js';
import { drawFrontier } from './frontier.js';
import { ofSheets, SHEET_FORMS } from './forms.js';
import { blendOne } from './one.js';
import { listProgrammes } from './programmes.js';
import { typedOf, wishesOf } from './wishes.js';

/** The feed to give from what stands on the shelf, with its proof. */
export const blendCommand: Command = {
  name: 'blend',
  examples: [
    {
      line: 'velamen blend --plants phalaenopsis --medium sphagnum --shelf shelf.csv --mix "4 L"',
      says: 'moth orchids in moss, four litres, from the products in shelf.csv',
    },
    {
      line: 'velamen blend --bench examples/moss-without-ammonium',
      says: 'every feed of a bench, with its own water, rules and pen',
    },
  ],
  about: [
    'Finds the feed to give: near what the plants want, so that nine of ten cans mixed with your tools keep every limit, then for the least money and the fewest items; with a proof of each step. Where limits that hurt or that plants need cannot be kept (exit code 3) it says which conflict, what would help, and the nearest mix.',
    'Options override what the bench says about a feed; --rule and --nh4 are added to its rules.',
  ],
  options: [
    ...A_FEED,
    'mix',
    ...A_SHELF,
    'temperature',
    'near',
    'sure',
    'by',
    'atMost',
    'one',
    'bare',
    'closest',
    'prices',
    'frontier',
    'programmes',
    'svg',
    'full',
    ...OUT,
  ],
  forms: ({ frontier }) => (frontier ? [...SHEET_FORMS, 'svg'] : SHEET_FORMS),
  async run(given, io) {
    if (given.words.programmes) return listProgrammes(given);
    if (given.words.one) return blendOne(given, io);
    if (given.words.frontier) return drawFrontier(given, io);
    const { met, results, pen, unfed, warnings } = await blendFeeds(benchTexts(given, io), wishesOf(given));
    const typed = typedOf(given);
    const sheets = [...unfed.map(unfedSheet), ...blendSheets(results, pen, given.words.prices === true, typed)];
    return {
      exit: met ? 0 : 3,
      forms: ofSheets(results[0] ? blendJson(results[0], typed) : unfedJson(unfed[0]!), sheets),
      warnings,
    };
  },
};
