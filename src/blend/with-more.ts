import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Miss } from '../feed/limits.js';
import { withoutCustom } from '../feed/grade.js';
import type { FeedRequest } from '../feed/request.js';
import { cheapest } from '../formulation/index.js';
import { nearRequest } from './near-width.js';
import { missingFrom } from './near-width.js';
import { NITROGEN_WITHIN } from '../feed/near.js';

/** What could be bought. */
export interface Market {
  /** Generic salts by chemical name. */
  salts: readonly Product[];
  products: readonly Product[];
  close: (rows: readonly Product[]) => Promise<ClosedProduct[]>;
}

/** A product beside the shelf. */
export interface Added {
  id: string;
  name: string;
  kind: string | undefined;
  /** A salt by its chemical name, not a product of one maker. */
  isGeneric: boolean;
}

export interface WithMore {
  shelf: ClosedProduct[];
  added: Added[];
}

/** Of each tier so many are planned. */
const PLANNED = 3;
const PAIRED = 10;
/** Nobody feeds with these to fill a gap: they mend a pH. */
const NO_FEED = new Set(['acid', 'alkali']);

/**
 * Shelves with products more on which limits that hurt or that plants need can be kept, in tiers of which a later one asks more: one salt, two
 * salts, one product of a maker; in each the nearest to the aims first.
 */
export async function* withMore(
  request: FeedRequest,
  misses: readonly Miss[],
  market: Market,
): AsyncGenerator<WithMore[]> {
  const within = { ...request, programme: withoutCustom(request.programme), goal: 'cheapest' as const };
  const have = new Set(request.shelf.map(({ id }) => id));
  const open = (rows: readonly Product[]): Product[] =>
    rows.filter(({ id, kind }) => !have.has(id) && !NO_FEED.has(kind ?? ''));
  const salts = await market.close(open(market.salts));
  const single = await enough(
    within,
    salts.map((salt) => [salt]),
  );
  yield told(request, single, true);
  const wanted = misses.flatMap(({ limit }): Nutrient[] =>
    limit.kind === 'nutrient' && limit.end === 'least' ? [limit.nutrient] : [],
  );
  const helpful = salts
    .filter(({ composition }) => wanted.some((nutrient) => composition.content[nutrient].low > 0))
    .sort((a, b) => held(b, wanted) - held(a, wanted))
    .slice(0, PAIRED);
  const pairs = await enough(
    within,
    helpful.flatMap((one, i) => helpful.slice(i + 1).map((other) => [one, other])),
  );
  yield told(request, pairs, true);
  const products = await market.close(open(market.products));
  const retail = await enough(
    within,
    products.map((product) => [product]),
  );
  yield told(request, retail.slice(0, 2), false);
}

/** How many of the elements that are short it holds. */
const held = ({ composition }: ClosedProduct, wanted: readonly Nutrient[]): number =>
  wanted.filter((nutrient) => composition.content[nutrient].low > 0).length;

/** The additions with which a mix exists, first those with which it is near its aims, then for the least money. */
async function enough(
  within: FeedRequest,
  additions: readonly (readonly ClosedProduct[])[],
): Promise<(readonly ClosedProduct[])[]> {
  const found: { added: readonly ClosedProduct[]; isNear: boolean; cost: number }[] = [];
  for (const added of additions) {
    const more = { ...within, shelf: [...within.shelf, ...added] };
    const any = await cheapest(more);
    if (any.answer !== 'found') continue;
    const without = missingFrom(more);
    const near = await cheapest(nearRequest(more, { factor: 1, nitrogenWithin: NITROGEN_WITHIN, without }));
    const isNear = near.answer === 'found';
    found.push({ added, isNear, cost: (isNear ? near : any).optimal.objective });
  }
  return found.sort((a, b) => Number(b.isNear) - Number(a.isNear) || a.cost - b.cost).map(({ added }) => added);
}

function told({ shelf }: FeedRequest, found: (readonly ClosedProduct[])[], isGeneric: boolean): WithMore[] {
  return found.slice(0, PLANNED).map((added) => ({
    shelf: [...shelf, ...added],
    added: added.map(({ id, name, kind }) => ({ id, name, kind, isGeneric })),
  }));
}
