import { atDoor } from '../door.js';
import { withBulkDensity } from '../dose/density.js';
import type { Recipe } from '../advice/recipe.js';
import type { FeedRequest } from '../feed/request.js';
import { type Batch, batchOfPlan, batchOfRecipe, type MeterNote } from '../meter/index.js';
import type { DosePlan } from '../dose/plan.js';
import { type Problem, problem, Refusal } from '../problem.js';
import { dosesOfFeed } from './doses.js';
import type { FeedWishes } from './feed-wishes.js';
import type { OpenBench } from './opened.js';
import { productsKnown } from './recipe-products.js';

/** What was to go into the can that is read, and what may mend it. */
export interface Planned {
  batch: Batch;
  request: FeedRequest;
  notes: MeterNote[];
}

/** The doses that `sheet` prints for the same options. */
export async function planOfSheet(request: FeedRequest, open: OpenBench, which: FeedWishes): Promise<Planned> {
  const { result, plan } = await dosesOfFeed(request, open, which, { offers: false });
  if (plan === null || plan.items.length === 0) throw new Refusal([noPlan(plan)]);
  const notes: MeterNote[] = result.status === 'made' ? [] : [{ kind: 'nearest plan' }];
  // a remedy is told by the spoon where the doses are
  const shelf = plan.request.shelf.map((product) => withBulkDensity(product, productsKnown(open.catalog)));
  return { batch: batchOfPlan(plan), request: { ...plan.request, shelf }, notes };
}

/** Against bare water no reading of a feed can be judged. */
const noPlan = (plan: DosePlan | null): Problem =>
  problem(
    'no-plan',
    { field: '--feed' },
    plan === null ? 'no feed, and no nearest one' : 'doses that come to bare water',
    'a feed that can be mixed',
    atDoor({
      typed: `\`velamen ${plan === null ? 'blend' : 'sheet'}\` says why; name what was mixed with --recipe.`,
      page: `${plan === null ? 'Feed' : 'Sink'} says why.`,
    }),
  );

/** A recipe as the plan; it is rescued with its own products and the shelf. */
export function planOfRecipe(recipe: Recipe, request: FeedRequest, { shelf: onHand, waters }: OpenBench): Planned {
  const named = [...new Set(recipe.lines.map((line) => line.product))];
  // a product of the recipe may be that of the shelf with the catalog's bulk density
  const others = onHand.products.filter(({ id }) => named.every((product) => product.id !== id));
  const shelf = [...named, ...others];
  const share = 1 / waters.length;
  const batch = batchOfRecipe(
    recipe.lines,
    recipe.volumeLitres,
    waters.map((water) => ({ water, share })),
  );
  return {
    batch,
    request: { ...request, shelf },
    notes: waters.length > 1 ? [{ kind: 'equal waters' }] : [],
  };
}
