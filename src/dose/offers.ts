import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import { scaleBy } from '../units/index.js';
import { usualPen } from './by-pen.js';
import { bulkDensityOf } from './density.js';
import { finerTool } from './finer-tool.js';
import type { DoseOffer } from './findings.js';
import { largestCan, spoonToWeigh } from './notes.js';
import { dosesOf, isMeasured, type Short, withBatch } from './offered.js';
import { ordered } from './ordered.js';
import { plannerByPen } from './plan-by-pen.js';
import { planKept } from './plan-once.js';
import type { PlanOptions } from './plan-types.js';
import { stockOfAll, stockOfItems } from './stock-offers.js';

/** More ways out than this nobody reads. */
const MOST_OFFERS = 4;

/**
 * What would make the doses measurable, in the order in which it asks little of a grower, each planned again before it is offered: the pen,
 * ten level spoons weighed, the double amount of which half is used, a stock bottle of one item, a bigger batch, a finer tool.
 */
export async function offersFor(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
): Promise<DoseOffer[]> {
  const short: Short = { request, amounts, kit, options };
  const half = await aBatch(short, [2]);
  const ways = [
    () => aPen(short),
    () => tenSpoons(short),
    async () => half,
    async () => (await stockOfItems(short)) ?? stockOfAll(short),
    async () => (half ? null : aBatch(short, BIGGER)),
    () => finerTool(short),
  ];
  const offers: DoseOffer[] = [];
  for (const way of ways) {
    const offer = offers.length < MOST_OFFERS ? await way() : null;
    if (offer) offers.push(offer);
  }
  return offers;
}

/** Times the batch; twelve at most: more would stand too long. */
const BIGGER = [3, 4, 5, 6, 7, 8, 9, 10, 11, 12];

async function aBatch(
  { request, amounts, kit, options }: Short,
  multiples: readonly number[],
): Promise<DoseOffer | null> {
  const batch = request.header.batchLitres!;
  const can = largestCan(kit.cans);
  for (const times of multiples) {
    if (can && batch * times * 1000 > can.millilitres * 1.001) return null;
    const plan = await planKept(withBatch(request, scaleBy(batch, times)), amounts, kit, options);
    if (plan && isMeasured(plan))
      return { kind: 'batch', litres: batch * times, instead: batch, doses: dosesOf(ordered(plan, amounts)) };
  }
  return null;
}

/** A pen that shows mS/cm, where the doses are not by a pen already. */
async function aPen({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  if (options.pen) return null;
  const plan = await plannerByPen(request, amounts, kit, { pen: usualPen(null) }, options)(request);
  return plan && isMeasured(plan) ? { kind: 'pen', doses: dosesOf(ordered(plan, amounts)) } : null;
}

/** Between these powders lie, g/mL (from memory): what spoons of an unknown one could weigh. */
const DENSITIES = [0.7, 0.95, 1.2];

/** Powders of unknown bulk density, if whatever they weigh makes the doses measurable. */
async function tenSpoons({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  const known = options.known ?? request.market ?? [];
  const unknown = request.shelf.filter(
    (product, i) => amounts.products[i]! > 0 && product.form === 'powder' && bulkDensityOf(product, known) === null,
  );
  const spoon = spoonToWeigh(
    [...kit.spoons].sort((a, b) => b.millilitres - a.millilitres),
    ({ millilitres }) => millilitres,
  );
  if (unknown.length === 0 || !spoon) return null;
  for (const bulkDensity of DENSITIES) {
    const shelf = request.shelf.map((product) => (unknown.includes(product) ? product.with({ bulkDensity }) : product));
    const plan = await planKept({ ...request, shelf }, amounts, kit, options);
    if (plan === null || !isMeasured(plan)) return null;
  }
  return { kind: 'ten spoons', products: unknown.map(({ id }) => id), spoon: spoon.label };
}
