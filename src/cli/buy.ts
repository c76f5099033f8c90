import { buyFor, substitutesFor } from '../desk/buy.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { buySheet } from '../report/buy.js';
import { buyJson, substitutesJson } from '../report/json/buy.js';
import { substitutesSheet } from '../report/substitutes.js';
import { benchTexts } from './bench-texts.js';
import type { Command } from './command.js';
import { FEED_OPTIONS } from './feed-options.js';
import { progress } from './progress.js';
import { wishesOf } from './wishes.js';

/** Which whole packs to buy so that every feed can be mixed, with the proof that no purchase costs less. */
export const buyCommand: Command = {
  name: 'buy',
  summary: 'what to buy so that every feed can be mixed, with its proof',
  examples: [
    {
      line: 'velamen buy --bench examples/what-to-buy',
      says: 'the cheapest packs for all feeds of a bench for half a year, and the next four ways',
    },
    {
      line: 'velamen buy --bench examples/what-to-buy --year --at-most 2 --ban urea',
      says: 'for a year, with at most two new products, none of them urea',
    },
    {
      line: 'velamen buy --bench examples/moss-without-ammonium --instead-of fernhollow-part-c',
      says: 'what could stand in for a product, and how much of it',
    },
  ],
  about: [
    'Takes what is on hand first and chooses whole packs for all feeds together, over the weeks to come, for the least money (packs, and water where it has a price). Rules, caps and label ceilings hold as in blend. The next ways to buy each do without a part of every way before them.',
    'A product of the shelf without on_hand counts as enough; 0 counts as used up. More of what stands on the shelf is no new product. Where no purchase does (exit code 3) it says which feed fails, and why.',
  ],
  options: {
    ...Object.fromEntries(Object.entries(FEED_OPTIONS).filter(([name]) => name !== 'mix')),
    weekly: { value: 'AMOUNT', says: 'how much of each feed is used in a week: "10 L" (default: as the bench says)' },
    weeks: { value: 'N', says: 'weeks to buy for (default: 26)' },
    months: { value: 'N', says: 'months to buy for, a twelfth of 52 weeks each' },
    year: { says: 'buy for a year of 52 weeks' },
    market: { value: 'FILE', says: 'what is for sale, in the columns of shelf.csv (default: the catalog)' },
    'at-most': { value: 'K', says: 'buy at most this many products that are not on the shelf' },
    budget: { value: 'MONEY', says: 'spend at most this on packs' },
    ban: { value: 'ID', says: 'do not buy this product', repeatable: true },
    need: { value: 'ID', says: 'buy at least one pack of this product', repeatable: true },
    seconds: { value: 'N', says: 'stop searching after this many seconds (default: 20)' },
    'instead-of': { value: 'ID', says: 'what could stand in for this product of the shelf' },
  },
  async run(given, io) {
    const line = progress(given, io);
    const asked = [benchTexts(given, io), wishesOf(given), shippedCatalog()] as const;
    const search = { now: () => io.now().getTime(), onStep: line.step };
    if (given.text('instead-of') !== undefined) {
      const { met, result, warnings } = await substitutesFor(...asked, search).finally(line.done);
      return { exit: met ? 0 : 3, json: substitutesJson(result), sheets: [substitutesSheet(result)], warnings };
    }
    const { met, result, warnings } = await buyFor(...asked, search).finally(line.done);
    return { exit: met ? 0 : 3, json: buyJson(result), sheets: [buySheet(result)], warnings };
  },
};
