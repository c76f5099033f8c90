import { concentrateJson } from '../report/json/concentrate.js';
import { concentrateFeed } from '../desk/concentrate.js';
import { concentrateSheets } from '../report/concentrate.js';
import { benchTexts } from './bench-texts.js';
import { type Command, OUT } from './command.js';
import { A_FEED, A_SHELF } from './feed-options.js';
import { ofSheets } from './forms.js';
import { typedOf, wishesOf } from './wishes.js';

/** Stock solutions of a feed, in one bottle or two. */
export const concentrateCommand: Command = {
  name: 'concentrate',
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
    'A ratio that cannot hold is refused (exit code 3) with the strongest that does, as a command, and what stands in its way. Where none is asked for it is 1:100, or the strongest that holds.',
  ],
  options: ['recipe', 'one', 'ratio', 'dose', 'tanks', 'jug', 'coldest', ...A_FEED, 'mix', ...A_SHELF, ...OUT],
  async run(given, io) {
    const { met, results, warnings } = await concentrateFeed(benchTexts(given, io), wishesOf(given));
    const typed = typedOf(given);
    return {
      exit: met ? 0 : 3,
      forms: ofSheets(concentrateJson(results[0]!, typed), concentrateSheets(results, typed)),
      warnings,
    };
  },
};
