import { assessJson } from '../report/json/assess.js';
import { isAdvice, parseAdvice } from '../advice/parse.js';
import { assess } from '../advice/assess.js';
import { closeRecipe, parseRecipe } from '../advice/recipe.js';
import { problem, warning } from '../problem.js';
import { assessSheet } from '../report/assess.js';
import { adviceOutcome } from './advice.js';
import { Collected } from './collect.js';
import type { Command } from './command.js';
import { feedInputs, feedRequests, temperature } from './feed-input.js';
import { FEED_OPTIONS, METER_OPTIONS } from './feed-options.js';
import { recipeProducts } from './recipe-input.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { unjudged } from './unjudged.js';

/** What a given recipe delivers. */
export const assessCommand: Command = {
  name: 'assess',
  summary: 'what a recipe delivers, or what others’ advice comes to',
  examples: [
    {
      line: 'velamen assess "1/4 tsp cal-part + 1.2 g base + 3 mL kelp in 1 US gal" --shelf shelf.csv',
      says: 'mg/L of every element, nitrogen by form, EC and cost',
    },
    {
      line: 'velamen assess "1 g fernhollow-base-a + 1 g fernhollow-part-c in 4 L" --bench examples/moss-without-ammonium --feed moss',
      says: 'the same, judged by what the feed asks for (exit code 3 where it misses)',
    },
    {
      line: 'velamen assess "1/4 tsp per US gal of 13-4-15" --bench examples/what-the-shelf-reaches --feed cattleyas',
      says: 'what others advise, and the same strength with your own feed',
    },
  ],
  about: [
    'Advice instead of a recipe: "half strength 20-10-20 at 1 tsp/US gal", "125 ppm N", "400 µS", "200 ppm on a 500 pen", "EC 0.4 above the water", "max EC 0.8", "13.5 oz/US gal of 20-20-20 in a 1:100 injector". What it leaves open is answered with a range, never with a guess; exit code 3 where your own feed may not be that strong.',
    'Products are named by their id on the shelf, or by an id of the catalog. With --feed, or with --plants and --medium, the recipe is judged.',
  ],
  operands: {
    name: 'RECIPE',
    says: 'amounts joined by +, then "in" and a volume; or advice in words; all in one pair of quotes',
    most: 1,
  },
  options: {
    ...Object.fromEntries(Object.entries(FEED_OPTIONS).filter(([name]) => name !== 'volume')),
    ...METER_OPTIONS,
  },
  async run(given, io) {
    const catalog = shippedCatalog();
    const collected = new Collected();
    const inputs = await feedInputs(given, io, catalog, collected, { feed: false, shelf: false });
    const judged = inputs.specs.length === 1;
    if (inputs.specs.length > 1) {
      const names = inputs.specs.map((spec) => spec.name).join(', ');
      collected.add(
        warning(
          'not-judged',
          { field: '--feed' },
          `${inputs.specs.length} feeds`,
          'one feed to judge the recipe by',
          `Name one with --feed: ${names}.`,
        ),
      );
    }
    const words = given.operands[0];
    if (words === undefined)
      collected.add(
        problem('no-recipe', {}, 'no recipe', 'a recipe in quotes', 'For example "1.2 g base + 3 mL kelp in 4 L".'),
      );
    const products = recipeProducts(inputs, catalog);
    const read =
      words === undefined ? undefined : parseRecipe(words, products, inputs.bench?.kit ?? {}, { field: 'recipe' });
    const celsius = temperature(given, collected);
    if (words !== undefined && !read?.ok && isAdvice(words, products)) {
      const advice = collected.take(parseAdvice(words, { field: 'advice' }));
      return adviceOutcome(advice, inputs, catalog, given, collected);
    }
    const recipe = read && collected.take(read);
    const [request] = judged ? feedRequests(inputs, catalog, collected) : [unjudged(inputs)];
    const warnings = collected.settle();
    const closed = await closeRecipe(recipe!);
    const shelf = [...new Set(closed.lines.map((line) => line.product))];
    const result = await assess(closed, { ...request!, ...celsius, shelf }, judged);
    return {
      exit: result.status === 'outside' ? 3 : 0,
      json: assessJson(result),
      sheets: [assessSheet(result, inputs.pen)],
      warnings,
    };
  },
};
