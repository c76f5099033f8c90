import { bottlesFor, bottlesIn } from '../../dose/bottles.js';
import { largestCan } from '../../dose/notes.js';
import { dosesOf, isMeasured } from '../../dose/offered.js';
import { offerOfBottles } from '../../dose/stock-offers.js';
import { scaleBy } from '../../units/index.js';
import type { WayOut } from '../given-types.js';
import type { Hands } from '../handed.js';
import { byPenOffer, countsFrom, FEW, FINE, LARGER, withoutWay } from '../way-out.js';
import { roundedWithin } from './shared-doses.js';
import { type NotShared, serves, type SharedPlan, sharedOf, sparse, type Tried, tryShared } from './shared-plan.js';
import type { Sharing } from './shared-request.js';

/** Nitrogen may be held as loosely as this where too few cans of a shared mix keep the limits (as the parts themselves may be off). */
const NITROGEN = 0.1;

/**
 * One mix for several feeds by what stands on the bench: by the kit for as much as the strongest takes; where too few cans would keep the
 * limits so, with nitrogen held less tightly, by a pen that is named, for more at a time, and by stock bottles of one item.
 * @param litres of the mix that are used up while it is fresh: more is not mixed at a time
 */
export async function sharedOnBench(
  group: readonly Sharing[],
  alone: readonly number[],
  hands: Hands,
  litres: number,
): Promise<SharedPlan | NotShared> {
  const { pen, ...kit } = hands;
  const first = await tryShared(group, alone, kit);
  if ('shares' in first) return first;
  const does = (tried: Tried, by: Hands): boolean => isMeasured(tried.plan) && serves(tried, alone, by);
  if (does(first, kit)) return sharedOf(group, first, null);
  const looser = group.map((one) => ({
    ...one,
    own: { ...one.own, nitrogenWithin: Math.max(one.own.nitrogenWithin, NITROGEN) },
  }));
  const told = (mixed: readonly Sharing[], tried: Tried, way: WayOut['way'] | null): SharedPlan =>
    sharedOf(
      mixed,
      tried,
      way && {
        way,
        byPen: tried.plan.byPen !== undefined,
        without: withoutWay({ ...first, share: worst(first) }),
        others: [],
      },
    );
  for (const held of [group, looser]) {
    for (const by of pen ? [kit, hands] : [kit]) {
      if (held === group && by === kit) continue;
      const tried = await tryShared(held, alone, by);
      if ('shares' in tried || !does(tried, by)) continue;
      return told(held, tried, tried.plan.byPen ? byPenOffer(tried) : null);
    }
  }
  const more = await largerBatch(group, alone, kit, litres);
  if (more)
    return told(more.group, more.tried, {
      kind: 'batch',
      litres: more.litres,
      instead: batchOf(group),
      doses: dosesOf(more.tried.plan),
    });
  for (const by of pen ? [kit, hands] : [kit]) {
    const bottled = await withBottles(group, alone, by);
    if (bottled) return told(group, bottled, offerOfBottles(bottled.plan));
  }
  return serves(first, alone, kit) ? sharedOf(group, first, null) : sparse(group, first, alone, kit);
}

const worst = ({ cans: { cans } }: Tried): number => Math.min(...cans.map(({ sure }) => sure));

const batchOf = ([strongest]: readonly Sharing[]): NonNullable<Sharing['mixed']> =>
  strongest!.request.header.batchLitres!;

/** The fewest times what the strongest feed takes that does, as long as it is used up fresh and fits the largest can. */
async function largerBatch(group: readonly Sharing[], alone: readonly number[], hands: Hands, litres: number) {
  const batch = batchOf(group);
  const can = largestCan(hands.kit.cans);
  const most = Math.min(litres, can === null ? Number.POSITIVE_INFINITY : can.millilitres / 1000);
  for (const times of [2, ...LARGER]) {
    if (times * batch > most * 1.001) return null;
    const mixed = scaleBy(batch, times);
    const [strongest, ...others] = group as [Sharing, ...Sharing[]];
    const larger = [{ ...strongest, mixed }, ...others];
    const tried = await tryShared(larger, alone, hands);
    if ('shares' in tried) return null;
    if (isMeasured(tried.plan) && serves(tried, alone, hands)) return { group: larger, tried, litres: mixed };
  }
  return null;
}

/** As few bottles as do, for what hands would mix that weigh to a milligram; null where none of them do. */
async function withBottles(group: readonly Sharing[], alone: readonly number[], hands: Hands): Promise<Tried | null> {
  const { scaleErrorGrams: _, ...kit } = hands.kit;
  const { pen: __, ...byMeasure } = hands;
  const fine = await tryShared(group, alone, { ...byMeasure, kit: { ...kit, scaleStepGrams: FINE } });
  if ('shares' in fine || !serves(fine, alone, hands)) return null;
  const { amounts, stretch, limits } = { ...fine, amounts: fine.plan.amounts };
  const request = roundedWithin(group, stretch, limits);
  const bottles = bottlesFor({ request, amounts, kit: hands.kit, options: hands });
  for (const count of countsFrom(1, Math.min(FEW, bottles.length))) {
    const some = new Map(bottles.slice(0, count).map(({ product, levels }) => [product.id, levels]));
    const tried = await tryShared(group, alone, { ...hands, bottles: some });
    if ('shares' in tried || !isMeasured(tried.plan) || bottlesIn(tried.plan).length === 0) continue;
    if (serves(tried, alone, hands)) return tried;
  }
  return null;
}
