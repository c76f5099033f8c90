import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import { isOrganic } from '../can/organic.js';
import { partsOf, watersOf } from '../can/part.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import { leastSteered, measureByPen, stepsByPen } from './by-pen.js';
import type { CanByPen, ItemByPen, PenInHand, SteeredStep, SteeringPen, StepByPen } from './by-pen-types.js';
import type { Measure } from './measure.js';
import { orderForPen } from './pen-order.js';
import { planKept } from './plan-once.js';
import type { PlannedItem, PlanOptions, TrialPlan } from './plan-types.js';
import { PenProof } from './proof.js';
import { toolsOf } from './tools.js';

/** Doses by the pen within limits; null where the pen steers nothing, or no such doses keep them. */
export type PlanByPen = (limits: FeedRequest) => Promise<TrialPlan | null>;

/**
 * Doses by the pen: what it can steer is had to the last digit, and goes in until the can shows a figure; the rest goes by measures of the
 * kit, chosen together with it. What goes in first, and what the pen can steer, is the same whatever limits the doses are held to.
 * @param request without its limits: the shelf, the waters, the can
 */
export function plannerByPen(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  { pen, waterMSPerCm }: PenInHand,
  options: PlanOptions = {},
): PlanByPen {
  const litres = request.header.batchLitres!;
  const can = (items: readonly ItemByPen[]): CanByPen => ({
    items,
    waters: watersOf(amounts, request.waters),
    litres,
    pen,
    tools: toolsOf(kit),
    known: options.known ?? request.market ?? [],
    ...(waterMSPerCm === undefined ? {} : { waterMSPerCm }),
    ...(request.temperatureC === undefined ? {} : { temperatureC: request.temperatureC }),
  });
  const wanted = partsOf(amounts, request.shelf).map(({ product, perLitre }) => ({
    product,
    amount: perLitre * litres,
  }));
  const order = orderForPen(can(wanted)).items;
  const place = new Map(order.map(({ product }, i) => [product.id, i]));
  const first = steeredOf(stepsByPen(can(order)));
  return async (limits) => {
    let steered = first;
    for (let tries = 0; steered.length > 0 && tries <= wanted.length; tries += 1) {
      const own = steered.map((step) => [step.product.id, levelsOf(step, pen)] as const);
      const open = new Map([...(options.steered ?? []), ...own]);
      const plan = await planKept(limits, amounts, kit, { ...options, steered: open });
      if (plan === null) return null;
      const items = plan.items
        .map(({ product, chosen }): ItemByPen => {
          const { amount } = chosen;
          return chosen.tool === 'pen' ? { product, amount } : { product, amount, measure: chosen };
        })
        .sort((a, b) => place.get(a.product.id)! - place.get(b.product.id)!);
      const steps = stepsByPen(can(items));
      const lost = steps.filter((step) => step.by === 'measure' && step.measure === null);
      if (lost.length === 0)
        return keptOf(plan, steps, { pen, ...(waterMSPerCm === undefined ? {} : { waterMSPerCm }) });
      // after the others it is too little to tell: by measure, and all chosen again
      steered = steered.filter(({ product }) => lost.every((step) => step.product.id !== product.id));
    }
    return null;
  };
}

const steeredOf = (steps: readonly StepByPen[]): SteeredStep[] => steps.filter((step) => step.by === 'pen');

/** What a whole digit of the pen is in a dose: the levels that a steered item can have, up to so many times what is wanted. */
const MOST_TIMES = 3;
/** More levels than this tell no better. */
const MOST_LEVELS = 400;

function levelsOf(step: SteeredStep, { digit, scale, ...pen }: SteeringPen): Measure[] {
  const { wanted, before, after, amount } = step;
  const perUnit = amount / (after - before);
  const by = Math.max((perUnit * digit) / (scale ?? 1), (MOST_TIMES * wanted) / MOST_LEVELS);
  const least = perUnit * leastSteered({ digit, scale, ...pen }, before);
  const first = Math.ceil((least - wanted) / by);
  const count = Math.floor((MOST_TIMES * wanted - wanted) / by) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => {
    const level = wanted + (first + i) * by;
    return { tool: 'pen' as const, words: 'by the pen', amount: level, actions: 1, sd: (step.sd * level) / amount };
  });
}

/**
 * The plan with the readings to reach in the place of levels; amounts follow the readings, which are whole digits. Null where they do not keep
 * the limits.
 */
function keptOf(plan: TrialPlan, steps: readonly StepByPen[], byPen: PenInHand): TrialPlan | null {
  const { request, batchLitres } = plan;
  const items = steps.map((step): PlannedItem => {
    const item = plan.items.find(({ product }) => product.id === step.product.id)!;
    return { ...item, chosen: measureOf(step, byPen.pen) };
  });
  const amountOf = new Map(items.map(({ product, chosen }) => [product.id, chosen.amount / batchLitres]));
  const amounts = { ...plan.amounts, products: request.shelf.map(({ id }) => amountOf.get(id) ?? 0) };
  const mix = readOut(amounts, request, partsOf(amounts, request.shelf));
  if (missesOf(mix).length > 0) return null;
  return {
    ...plan,
    status: 'kept',
    items,
    amounts,
    mix,
    actions: items.reduce((sum, { chosen }) => sum + chosen.actions, 0),
    proof: PenProof.of(),
    byPen: { ...byPen, steps: [...steps] },
  };
}

/** What went by measure moves every reading after it: its parts have the name that those of steered items know it by. */
function measureOf(step: StepByPen, pen: SteeringPen): Measure {
  if (step.by === 'pen') return measureByPen(step, pen);
  const measure = step.measure!;
  return { ...measure, parts: [{ factor: `measured ${step.product.id}`, by: measure.sd }] };
}

/** The least of a product that the pen can steer as the first of a can, g or mL for the batch; null where it never can. */
export function leastByPen(
  product: ClosedProduct,
  { shelf: _, waters, ...request }: Pick<FeedRequest, 'shelf' | 'waters' | 'header'>,
  { pen, waterMSPerCm }: PenInHand,
  known: readonly PowderKnown[],
): number | null {
  if (isOrganic(product)) return null;
  const share = 1 / waters.length;
  const litres = request.header.batchLitres!;
  const [step] = stepsByPen({
    items: [{ product, amount: ONE * litres }],
    waters: waters.map((water) => ({ water, share })),
    litres,
    pen,
    tools: [],
    known,
    ...(waterMSPerCm === undefined ? {} : { waterMSPerCm }),
  });
  if (step?.by !== 'pen') return null;
  return (step.amount / (step.after - step.before)) * leastSteered(pen, step.before);
}

/** g/L or mL/L that any salt shows at. */
const ONE = 1;
