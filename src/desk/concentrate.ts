import { atDoor } from '../door.js';
import type { Recipe } from '../advice/recipe.js';
import { partsOf, watersOf } from '../can/part.js';
import { litres, millilitres } from '../units/index.js';
import type { Catalog } from '../catalog/catalog.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import type { FeedRequest } from '../feed/request.js';
import { problem } from '../problem.js';
import { concentrate } from '../stock/concentrate.js';
import type { ConcentrateRequest } from '../stock/concentrate-request.js';
import type { ConcentrateResult } from '../stock/concentrate-result.js';
import type { Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { dosedRecipe, recipeReadBy } from './dosed-recipe.js';
import { dosesOfFeed } from './doses.js';
import { askedOfMix, feedRequests, oneFeedOnly } from './feed-requests.js';
import { type FeedWishes, feedWishes } from './feed-wishes.js';
import { notFed, oneOf, refuseSeveralMixes } from './one.js';
import { DESCRIBING_A_FEED, type OpenBench, opened } from './opened.js';
import { shippedCatalog } from './shipped-catalog.js';
import { dashed } from './options/option.js';
import { scaleOf } from './options/pen.js';
import { made, type Wishes } from './wishes.js';

/**
 * Stock solutions of each feed that is meant, or of `recipe`, in one bottle or two so that nothing precipitates at the coldest storage:
 * grams per jug, mL of each stock per litre of feed. `met` is false where the ratio cannot hold; the result then says the largest that does.
 * With `one` it is the one mix of the bench, or the fewest, and how much of its stock each feed takes.
 * @throws Refusal with every problem of bench, shelf and wishes
 */
export async function concentrateFeed(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answers<ConcentrateResult>> {
  const collected = collecting(files, wishes);
  const own = wishes.recipe !== undefined;
  const open = await opened(files, wishes, catalog, collected, { feed: !own, shelf: !own });
  const stock = stockWishes(wishes, collected);
  if (own) refuseBesideRecipe(wishes, collected);
  const readBy = recipeReadBy(open, catalog, scaleOf(open.bench?.pen));
  const recipe = await dosedRecipe(collected.wish(wishes, 'recipe', readBy), open, collected);
  const which = feedWishes(wishes, collected);
  const requests = own ? [] : feedRequests(open, collected, wishes.one ? askedOfMix(wishes, collected) : undefined);
  if (!wishes.one) oneFeedOnly(wishes, requests, collected);
  const warnings = collected.settle();
  const shared = wishes.one ? await ofOneMix(requests, open, which) : null;
  const asked = recipe
    ? [ofRecipe(recipe, open)]
    : (shared?.feeds ?? (await Promise.all(requests.map((r) => ofFeed(r, open)))));
  if (shared) refuseSeveralMixes(wishes, shared.feeds.length);
  const scaleStepGrams = open.kit.scaleStepGrams ?? null;
  const syringeMillilitres = open.kit.syringeMillilitres ?? null;
  const results = asked.map((feed) =>
    concentrate({ ...feed, ...stock, scaleStepGrams, syringeMillilitres }, solutionChemistry, catalog.solubility),
  );
  const met = results.length > 0 && results.every((result) => result.status === 'made') && !shared?.without.length;
  return { met, results, warnings: [...warnings, ...notFed(shared?.without ?? [])] };
}

/** What describes a feed or the shelf to blend it from has no say beside a recipe. */
function refuseBesideRecipe(wishes: Wishes, collected: Collected): void {
  for (const option of made(wishes, ['feed', 'one', ...DESCRIBING_A_FEED, 'mix', 'currency', 'with', 'without']).map(
    dashed,
  ))
    collected.add(
      problem(
        'beside-recipe',
        { field: option },
        atDoor({ typed: `${option} beside --recipe`, page: `${option} beside a recipe` }),
        'one or the other',
        atDoor({
          typed: `Leave ${option} out, or leave --recipe out to concentrate a feed.`,
          page: `Leave ${option} out.`,
        }),
      ),
    );
}

type StockWishes = Pick<ConcentrateRequest, 'ratio' | 'tanks' | 'jugMillilitres' | 'coldestCelsius'>;
type Feed = Omit<ConcentrateRequest, keyof StockWishes | 'scaleStepGrams' | 'syringeMillilitres'>;

function stockWishes(wishes: Wishes, collected: Collected): StockWishes {
  if (wishes.ratio !== undefined && wishes.dose !== undefined)
    collected.add(
      problem(
        'two-ratios',
        { field: '--dose' },
        atDoor({ typed: '--ratio and --dose', page: 'a ratio and a dose' }),
        'one of the two',
        'Leave one out.',
      ),
    );
  const dose = collected.wish(wishes, 'dose');
  const ratio = wishes.dose === undefined ? collected.wish(wishes, 'ratio') : dose;
  return {
    ratio: ratio ?? null,
    tanks: collected.wish(wishes, 'tanks') ?? null,
    jugMillilitres: collected.wish(wishes, 'jug') ?? millilitres(1000),
    coldestCelsius: collected.wish(wishes, 'coldest') ?? 10,
  };
}

/** A recipe as a feed; several waters in equal shares, as where it is assessed. */
function ofRecipe(recipe: Recipe, { waters }: OpenBench): Feed {
  const amounts = new Map<string, { product: Recipe['lines'][number]['product']; perLitre: number }>();
  for (const { product, amount } of recipe.lines) {
    const before = amounts.get(product.id)?.perLitre ?? 0;
    amounts.set(product.id, { product, perLitre: before + amount / recipe.volumeLitres });
  }
  const share = 1 / waters.length;
  return {
    feed: null,
    recipe: recipe.text,
    items: [...amounts.values()],
    waters: waters.map((water) => ({ water, share })),
    weeklyLitres: null,
    remark: waters.length > 1 ? 'equal shares' : null,
  };
}

/** The fewest mixes that feed the bench, each to be kept as stock; feeds are so much of a mix, and so of its stock. */
async function ofOneMix(
  requests: readonly FeedRequest[],
  open: OpenBench,
  which: FeedWishes,
): Promise<{ feeds: Feed[]; without: string[] }> {
  const { mixes, without } = await oneOf(requests, open, which);
  const weeklyOf = (name: string): number => open.feeds.find((spec) => spec.name === name)?.weeklyLitres ?? 0;
  if (mixes.length === 0) return { feeds: requests.map(withoutFeed), without: [] };
  const feeds = mixes.map(({ plan, cans }): Feed => {
    const { header, waters } = cans[0]!.sharing.request;
    const shares = cans.map(({ sharing: { request, parts } }) => ({ feed: request.header.name, parts }));
    const weekly = shares.reduce((sum, { feed, parts }) => sum + weeklyOf(feed) * parts.share, 0);
    return {
      feed: { ...header, name: shares.map(({ feed }) => feed).join(' + '), batchLitres: plan.batchLitres },
      recipe: null,
      items: partsOf(plan.amounts, plan.request.shelf),
      waters: watersOf(plan.amounts, waters),
      weeklyLitres: weekly > 0 ? litres(weekly) : null,
      remark: null,
      shares,
    };
  });
  return { feeds, without };
}

const withoutFeed = ({ header, waters: [water] }: FeedRequest): Feed => ({
  feed: header,
  recipe: null,
  items: [],
  waters: [{ water: water!, share: 1 }],
  weeklyLitres: null,
  remark: REMARKS.cannot,
});

const REMARKS = { made: null, cannot: 'no feed', open: 'not proved' } as const;

/** The feed as `blend` gives it; where there is none, a feed without items. */
async function ofFeed(request: FeedRequest, open: OpenBench): Promise<Feed> {
  const { result } = await dosesOfFeed(request, open, { bare: false }, { offers: false });
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
    weeklyLitres: open.feeds.find((spec) => spec.name === request.header.name)?.weeklyLitres ?? null,
    remark: REMARKS[result.status],
  };
}
