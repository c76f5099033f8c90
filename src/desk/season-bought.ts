import type { Catalog } from '../catalog/catalog.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { purchase } from '../purchase/purchase.js';
import { litres } from '../units/index.js';
import type { MonthPlan } from '../year/plan-months.js';
import { WEEKS_OF_SEASON, weeksFrom } from '../year/weeks.js';
import type { FeedWishes } from './feed-wishes.js';
import { closeMarket, type Market } from './market.js';
import type { OpenBench } from './opened.js';
import { productsKnown } from './recipe-products.js';
import { type Stage, stageKey } from './season-mixes.js';

/** What is bought before a year begins: packs of each product, and the shelf with them on it. Null where no purchase was found. */
export interface Bought {
  packs: ReadonlyMap<string, number>;
  /** With the packs on it, to make the doses from. */
  shelf: ClosedProduct[];
  /** As it stands, with what is new on it and none of it left. */
  before: ClosedProduct[];
}

/** The cheapest packs, as `buy` finds them, with which every feed of the year can be mixed in each phase and strength that it has. */
export async function boughtFirst(
  stages: readonly Stage[],
  plans: ReadonlyMap<string, readonly MonthPlan[]>,
  from: string,
  open: OpenBench,
  market: Market,
  catalog: Catalog,
  which: Pick<FeedWishes, 'factor' | 'sure'>,
): Promise<Bought | null> {
  const fed = stages.filter(({ request }) => request !== undefined);
  if (fed.length === 0) return null;
  const { closed } = await closeMarket(market);
  const result = await purchase(
    {
      feeds: fed.map((stage) => ({
        request: named(stage),
        weeklyLitres: litres(litresOf(stage, plans, from) / WEEKS_OF_SEASON),
      })),
      weeks: WEEKS_OF_SEASON,
      shelf: open.shelf.products,
      market: closed,
      marketName: market.name,
      currency: open.currency,
      isPriced: market.isPriced,
      ...(which.factor === undefined ? {} : { factor: which.factor }),
      hands: {
        kit: open.kit,
        known: productsKnown(catalog),
        solubility: catalog.solubility,
        ...(which.sure === undefined ? {} : { sure: which.sure }),
      },
    },
    { ways: ['cheapest'], beside: false },
  );
  if (result.status !== 'made') return null;
  const [{ packs }] = result.options;
  const counts = new Map(packs.map(({ id, count }) => [id, count]));
  const onShelf = open.shelf.products;
  const added = closed
    .filter(({ id }) => counts.has(id) && onShelf.every((product) => product.id !== id))
    .map((product) => product.with({ onHand: 0, ...(market.isPriced ? {} : { price: undefined }) }));
  const before = [
    ...onShelf.map((product) => {
      const bought = packs.find(({ id }) => id === product.id);
      const price = market.isPriced ? bought?.price : product.price;
      return bought === undefined ? product : product.with({ pack: bought.pack, price });
    }),
    ...added,
  ];
  const shelf = before.map((product) => {
    const count = counts.get(product.id);
    const { onHand, pack } = product;
    return count === undefined || onHand === undefined ? product : product.with({ onHand: onHand + count * pack! });
  });
  return { packs: counts, shelf, before };
}

/** A feed in a phase and strength, told from itself in another. */
const named = ({ spec, request }: Stage) => ({
  ...request!,
  header: { ...request!.header, name: `${spec.name}, ${spec.phase}` },
});

/** Litres of a stage in the weeks of the year. */
function litresOf({ key }: Stage, plans: ReadonlyMap<string, readonly MonthPlan[]>, from: string): number {
  return [...plans].reduce((sum, [name, months]) => {
    const weekly = weeksFrom(from).map(({ month }) => {
      const plan = months[month - 1]!;
      return plan.kind === 'fed' && stageKey(name, plan.phase, plan.strength) === key ? plan.weeklyLitres : 0;
    });
    return sum + weekly.reduce((a: number, b) => a + b, 0);
  }, 0);
}
