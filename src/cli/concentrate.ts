import { concentrateFeed } from '../desk/concentrate.js';
import { concentrateSheet } from '../report/concentrate.js';
import { concentrateJson } from '../report/json/concentrate.js';
import { benchTexts } from './bench-texts.js';
import type { Command } from './command.js';
import { FEED_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { wishesOf } from './wishes.js';

/** Stock solutions of a feed, in one bottle or two. */
export const concentrateCommand: Command = {
  name: 'concentrate',
  summary: 'stock solutions of a feed in one or two bottles',
  examples: [
    {
      line: 'velamen concentrate --bench examples/moss-without-ammonium --ratio 1:100 --jug "500 mL"',
      says: 'the feed of the bench as stock: which item in which bottle, grams per jug, doses and labels',
    },
    {
      line: 'velamen concentrate --recipe "1 g calcium-nitrate + 0.5 g magnesium-sulfate in 1 L" --dose "10 mL/L" --coldest "5 °C"',
      says: 'a recipe of your own, stored cold',
    },
  ],
  about: [
    'Shares the items between bottles so that no mineral comes out (gypsum, calcium phosphate, lime, struvite) and every salt stays dissolved at the coldest storage; one bottle where one will do. 1:100 means 10 mL of each stock in a litre of feed.',
    'A ratio that cannot hold is refused (exit code 3) with the largest that does, and what stands in its way.',
  ],
  options: {
    recipe: { value: 'RECIPE', says: 'a recipe instead of the feed of the bench: "1.2 g base + 0.5 g cal in 1 L"' },
    ratio: { value: 'RATIO', says: 'one part of each stock in so many parts of feed (default: 1:100)' },
    dose: { value: 'RATE', says: 'the same as a dose: "10 mL/L"' },
    tanks: { value: 'N', says: '1 or 2 bottles (default: as many as are needed)' },
    jug: { value: 'AMOUNT', says: 'how much of each stock to make (default: 1 L)' },
    coldest: { value: 'TEMP', says: 'the coldest it will get where the stock stands (default: 10 °C)' },
    ...FEED_OPTIONS,
    ...SHELF_OPTIONS,
  },
  async run(given, io) {
    const { met, results, warnings } = await concentrateFeed(benchTexts(given, io), wishesOf(given));
    return { exit: met ? 0 : 3, json: concentrateJson(results[0]!), sheets: results.map(concentrateSheet), warnings };
  },
};
