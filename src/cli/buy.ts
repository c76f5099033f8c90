import { buyOneJson } from '../report/json/buy-one.js';
import { buyJson, substitutesJson } from '../report/json/buy.js';
import { buyFor, buyOneFor, substitutesFor } from '../desk/buy.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { buyOneSheet } from '../report/buy-one.js';
import { buySheet } from '../report/buy.js';
import { substitutesSheet } from '../report/substitutes.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { A_FEED } from './feed-options.js';
import { ofSheets } from './forms.js';
import { progress } from './progress.js';
import { wishesOf } from './wishes.js';

/** Which whole packs to buy so that every feed can be mixed, with the proof that no purchase costs less. */
export const buyCommand: Command = {
  name: 'buy',
  examples: [
    {
      line: 'velamen buy --bench examples/what-to-buy',
      says: 'what to buy for all feeds of a bench for half a year: the cheapest, the fewest jars, the nearest to the aims',
    },
    {
      line: 'velamen buy --bench examples/what-to-buy --year --at-most 2 --ban urea',
      says: 'for a year, with at most two new products, none of them urea',
    },
    {
      line: 'velamen buy --bench examples/what-to-buy --one',
      says: 'what to buy so that one mix, diluted, feeds all',
    },
    {
      line: 'velamen buy --bench examples/moss-without-ammonium --instead-of sample-calcium',
      says: 'what could stand in for a product, and how much of it',
    },
  ],
  about: [
    'Takes what is on hand first and chooses whole packs for all feeds together, over the weeks to come, so that each can be given near its aims as in blend: for the least money (packs, and water where it has a price); with the fewest new products; and as near to the aims as twice the least money brings them.',
    'A product of the shelf without on_hand counts as enough; 0 counts as used up. More of what stands on the shelf is no new product. Where no purchase does (exit code 3) it says which feed fails, and why.',
    'The work of a search is counted in steps, not in seconds. Where that is not enough the first line says "Not finished" (JSON: status unfinished, exit code 0), with the best so far or none; never that nothing does.',
  ],
  options: [
    ...A_FEED,
    'near',
    'sure',
    'weekly',
    'weeks',
    'months',
    'year',
    'market',
    'atMost',
    'budget',
    'ban',
    'need',
    'effort',
    'seconds',
    'one',
    'insteadOf',
    'full',
    ...OUT,
  ],
  async run(given, io) {
    const line = progress(given, io);
    const asked = [benchTexts(given, io), wishesOf(given), shippedCatalog()] as const;
    const search = { now: () => io.now().getTime(), onStep: line.step };
    if (given.words.insteadOf !== undefined) {
      const { met, result, warnings } = await substitutesFor(...asked, search).finally(line.done);
      return { exit: met ? 0 : 3, forms: ofSheets(substitutesJson(result), [substitutesSheet(result)]), warnings };
    }
    if (given.words.one) {
      const { met, result, warnings } = await buyOneFor(...asked, search).finally(line.done);
      return { exit: met ? 0 : 3, forms: ofSheets(buyOneJson(result), [buyOneSheet(result)]), warnings };
    }
    const beside = given.words.full === true || given.outputs.print !== 'txt' || given.outputs.files.length > 0;
    const { met, result, warnings } = await buyFor(...asked, { ...search, beside }).finally(line.done);
    return { exit: met ? 0 : 3, forms: ofSheets(buyJson(result), [buySheet(result)]), warnings };
  },
};
