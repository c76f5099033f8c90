import { concentrateJson } from '../report/json/concentrate.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import { concentrate } from '../stock/concentrate.js';
import type { ConcentrateRequest } from '../stock/concentrate-request.js';
import { blend } from '../blend/blend.js';
import { closeRecipe, parseRecipe, type Recipe } from '../advice/recipe.js';
import type { FeedRequest } from '../feed/request.js';
import { type Problem, problem } from '../problem.js';
import { concentrateSheet } from '../report/concentrate.js';
import { Collected } from './collect.js';
import type { Command, Given } from './command.js';
import { FEED_WORDS, type FeedInputs, feedInputs, feedRequests } from './feed-input.js';
import { FEED_OPTIONS, SHELF_OPTIONS } from './feed-options.js';
import { recipeProducts } from './recipe-input.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { parseDose, parseRatio, parseTanks } from '../desk/options/stock.js';
import { parseStorage } from '../desk/options/temperature.js';
import { parseJug } from '../desk/options/volume.js';
import { oneFeedForJson } from './one-feed.js';

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
    const catalog = shippedCatalog();
    const collected = new Collected();
    const words = given.text('recipe');
    const own = words !== undefined;
    const inputs = await feedInputs(given, io, catalog, collected, { feed: !own, shelf: !own });
    const stock = stockOptions(given, collected);
    if (own) collected.add(...notBesideRecipe(given));
    const recipe = own
      ? collected.take(
          parseRecipe(words, recipeProducts(inputs, catalog), inputs.bench?.kit ?? {}, { field: '--recipe' }),
        )
      : undefined;
    const requests = own ? [] : feedRequests(inputs, catalog, collected);
    oneFeedForJson(given.flag('json'), requests, collected);
    const warnings = collected.settle();
    const asked = recipe
      ? [ofRecipe(await closeRecipe(recipe), inputs)]
      : await Promise.all(requests.map((r) => ofFeed(r, inputs)));
    const results = asked.map((feed) =>
      concentrate(
        { ...feed, ...stock!, scaleStepGrams: inputs.bench?.kit.scaleStepGrams ?? null },
        solutionChemistry,
        catalog.solubility,
      ),
    );
    return {
      exit: results.every((result) => result.status === 'made') ? 0 : 3,
      json: concentrateJson(results[0]!),
      sheets: results.map(concentrateSheet),
      warnings,
    };
  },
};

/** What describes a feed or the shelf to blend it from has no say beside a recipe. */
function notBesideRecipe(given: Given): Problem[] {
  const idle = ['feed', ...FEED_WORDS, 'volume', 'currency', 'with', 'without'].filter((name) =>
    given.named().includes(name),
  );
  return idle.map((name) =>
    problem(
      'beside-recipe',
      { field: `--${name}` },
      `--${name} beside --recipe`,
      'one or the other',
      `Leave --${name} out, or leave --recipe out to concentrate a feed.`,
    ),
  );
}

type StockOptions = Pick<ConcentrateRequest, 'ratio' | 'tanks' | 'jugMillilitres' | 'coldestCelsius'>;
type Feed = Omit<ConcentrateRequest, keyof StockOptions | 'scaleStepGrams'>;

function stockOptions(given: Given, collected: Collected): StockOptions {
  const ratio = given.text('ratio');
  const dose = given.text('dose');
  if (ratio !== undefined && dose !== undefined) {
    collected.add(problem('two-ratios', { field: '--dose' }, '--ratio and --dose', 'one of the two', 'Leave one out.'));
  }
  const jug = given.text('jug');
  const coldest = given.text('coldest');
  const tanks = given.text('tanks');
  return {
    ratio:
      (dose === undefined
        ? collected.take(parseRatio(ratio ?? '1:100', { field: '--ratio' }))
        : collected.take(parseDose(dose, { field: '--dose' }))) ?? 100,
    tanks: tanks === undefined ? null : (collected.take(parseTanks(tanks, { field: '--tanks' })) ?? null),
    jugMillilitres: collected.take(parseJug(jug ?? '1 L', { field: '--jug' })) ?? 1000,
    coldestCelsius: collected.take(parseStorage(coldest ?? '10 °C', { field: '--coldest' })) ?? 10,
  };
}

/** A recipe as a feed; several waters in equal shares, as in `assess`. */
function ofRecipe(recipe: Recipe, inputs: FeedInputs): Feed {
  const amounts = new Map<string, { product: Recipe['lines'][number]['product']; perLitre: number }>();
  for (const { product, amount } of recipe.lines) {
    const before = amounts.get(product.id)?.perLitre ?? 0;
    amounts.set(product.id, { product, perLitre: before + amount / recipe.volumeLitres });
  }
  const share = 1 / inputs.waters.length;
  return {
    feed: null,
    recipe: recipe.text,
    items: [...amounts.values()],
    waters: inputs.waters.map((water) => ({ water, share })),
    weeklyLitres: null,
    remark: inputs.waters.length > 1 ? 'equal shares' : null,
  };
}

const REMARKS = { made: null, cannot: 'no feed', open: 'not proved' } as const;

/** The cheapest blend of a feed; where there is none, a feed without items. */
async function ofFeed(request: FeedRequest, inputs: FeedInputs): Promise<Feed> {
  const result = await blend(request);
  const { items, waters } =
    result.status === 'made' ? result : { items: [], waters: [{ id: request.waters[0]!.id, share: 1 }] };
  const products = items.map((item) => ({
    product: request.shelf.find((product) => product.id === item.id)!,
    perLitre: item.gramsPerLitre ?? item.millilitresPerLitre ?? 0,
  }));
  return {
    feed: result.feed,
    recipe: null,
    items: products,
    waters: waters.flatMap(({ id, share }) => {
      const water = request.waters.find((w) => w.id === id);
      return water ? [{ water, share }] : [];
    }),
    weeklyLitres: inputs.specs.find((spec) => spec.name === request.header.name)?.weeklyLitres ?? null,
    remark: REMARKS[result.status],
  };
}
