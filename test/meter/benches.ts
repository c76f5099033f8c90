import { litres } from '../../src/units/index.js';
import { planDoses } from '../../src/dose/plan.js';
import { amountsOfMix } from '../../src/dose/wanted.js';
import type { DosePlan } from '../../src/dose/plan-types.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { findWater } from '../../src/catalog/catalog.js';
import type { Kit } from '../../src/catalog/bench-types.js';
import { blend } from '../../src/blend/blend.js';
import { planFeed } from '../../src/blend/feed-plan.js';
import { USUALLY_SURE } from '../../src/blend/given.js';
import { closeShelf } from '../../src/label/close.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Batch } from '../../src/meter/batch.js';
import { batchOfPlan } from '../../src/meter/from-plan.js';
import { unwrap } from '../../src/problem.js';
import { feedOf } from '../desk/benches.js';
import { kitOf } from '../dose/kits.js';

/** A feed as planned, and as a batch to be made. */
export interface Bench {
  batch: Batch;
  request: FeedRequest;
}

/** What to measure with (default the usual kit), how much to make (default 4 L), whether as the feed that is given unasked. */
export interface Planning {
  kit?: Kit;
  litres?: number;
  given?: boolean;
}

/** So many random benches, the bare mix measured out unless told otherwise; draws that cannot be blended or measured are passed over. */
export async function benches(count: number, uniform: () => number, planning: Planning = {}): Promise<Bench[]> {
  const found: Bench[] = [];
  while (found.length < count) {
    const bench = await randomBench((n) => Math.floor(uniform() * n), planning);
    if (bench) found.push({ batch: batchOfPlan(bench.plan), request: bench.plan.request });
  }
  return found;
}

/** A usual kit (common practice, no source): a 0.01 g scale and a 1 mL syringe. */
export const SCALE_KIT = kitOf({ spoons: [], scaleStepGrams: 0.01, syringeMillilitres: 1 });

const PLANTS = [
  ['phalaenopsis', 'bark'],
  ['phalaenopsis', 'sphagnum'],
  ['cattleya', 'bark'],
  ['pleurothallid', 'sphagnum'],
  ['dendrobium', 'bark'],
] as const;

/** One or two of each: calcium, main part, potassium and phosphorus, magnesium, trace elements. */
const SHELVES = [
  ['calcium-nitrate', 'sample-calcium', 'calcium-ammonium-nitrate', 'sample-calcium-magnesium'],
  ['sample-base', 'potassium-nitrate', 'sample-balanced', 'sample-bloom', 'sample-total-nitrogen'],
  ['monopotassium-phosphate', 'sample-phosphate-potash', 'dipotassium-phosphate', 'potassium-sulfate'],
  ['magnesium-sulfate', 'magnesium-nitrate', 'sample-magnesium'],
  ['sample-trace-powder', 'sample-trace-liquid', 'iron-edta'],
] as const;

/** A random feed of salts and products of the shipped catalog, planned for hands; null where the draw cannot be blended or measured. */
export async function randomBench(
  pick: (count: number) => number,
  planning: Planning = { given: true },
): Promise<{ plan: DosePlan; request: FeedRequest } | null> {
  const catalog = shippedCatalog();
  const [plants, medium] = PLANTS[pick(PLANTS.length)]!;
  const strength = [60, 80, 100][pick(3)]!;
  const all = new Map([...catalog.salts, ...catalog.products].map((p) => [p.id, p]));
  const ids = new Set(
    SHELVES.flatMap((group) => Array.from({ length: 1 + pick(2) }, () => group[pick(group.length)]!)),
  );
  const shelf = await closeShelf([...ids].map((id) => all.get(id)!));
  const waters = [unwrap(findWater(catalog, pick(3) === 0 ? 'reverse-osmosis' : 'rain'))];
  const spec = { plants, medium, percent: strength, batchLitres: litres(planning.litres ?? 4) };
  const request: FeedRequest = {
    ...feedOf(spec, { shelf, waters }),
    goal: pick(2) === 0 ? 'cheapest' : 'closest',
  };
  const kit = planning.kit ?? SCALE_KIT;
  if (planning.given) {
    const hands = { kit, sure: USUALLY_SURE, known: [] };
    const planned = await planFeed(request, { ...hands, want: 'near', factor: 1, offers: false });
    const isSure = 'plan' in planned && planned.plan.status === 'kept' && planned.share >= USUALLY_SURE;
    return isSure ? { plan: planned.plan, request } : null;
  }
  const mixed = await blend(request, { prices: false });
  if (mixed.status !== 'made') return null;
  const plan = await planDoses(request, amountsOfMix(mixed, request), kit, { offers: false });
  return plan.status === 'kept' ? { plan, request } : null;
}
