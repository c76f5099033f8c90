import { type BottleOf, bottlesFor, bottlesIn } from '../dose/bottles.js';
import type { DoseOffer } from '../dose/findings.js';
import { largestCan } from '../dose/notes.js';
import { dosesOf, isUnmeasured, withBatch } from '../dose/offered.js';
import { offersFor } from '../dose/offers.js';
import type { TrialPlan } from '../dose/plan-types.js';
import { offerOfBottles } from '../dose/stock-offers.js';
import { NITROGEN_WITHIN } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { grams, scaleBy } from '../units/index.js';
import { isMeasured } from './best-hands.js';
import type { FeedAsked, FeedPlan } from './feed-plan.js';
import type { WayOut } from './given-types.js';
import { planCounted } from './iron-counted.js';

/** A feed by a way out, with what was chosen. */
interface Way {
  planned: FeedPlan;
  way: WayOut['way'];
}

/** A way that was found, and how it is planned for other hands. */
interface Found extends Way {
  again: (asked: FeedAsked) => Promise<Way | null>;
}

/**
 * Below this share of cans a kit that can put every dose down cannot make the feed all the same, as everywhere that a change is told; a way has
 * to make many more, or some more and as many as are wanted (judgement).
 */
const TOO_FEW = 0.85;
const MANY_MORE = 0.2;
const SOME_MORE = 0.05;
/** Finer steps come to other doses, so that the finest scale is no bound to the last can. */
const UNCERTAIN = 0.05;

/** More bottles beside one can are a chemist's shelf, and only for who cannot do without. */
export const FEW = 3;
/** So far off is a dose that no limit forgives. */
const HOPELESS = 0.3;
export const WEEKS = 52;
/** Times the batch where nothing else does, if it is used up in so many weeks (common practice, no source). */
export const LARGER = [3, 4];
export const FRESH_WEEKS = 2;
export const FINE = grams(0.001);

/**
 * Where the kit alone cannot make a feed: the best of the ways that stand open with what is on the bench. Double the amount where a week
 * uses it up and no can that is known is too small; a bottle of each item that is too little, as few bottles as will do; double the amount although half
 * of it stands; where none of them helps, three or four times as much where that is soon used up. The first that is sure enough, else the surest; none
 * where the kit does, or where the finest scale would not do. Ways are compared with nitrogen as near its aim as usual, or as the kit alone has
 * it, and with the iron that holds there; the one taken is planned like any other feed.
 * @param asked the hands, which have to be a grower's own
 */
export async function wayOutOf(
  kit: FeedPlan,
  request: FeedRequest,
  asked: FeedAsked & { litresPerYear?: number | null },
): Promise<Way | null> {
  const measured = isMeasured(kit);
  if (measured && kit.share >= TOO_FEW) return null;
  const least = measured ? Math.min(kit.share + MANY_MORE, Math.max(kit.wanted, kit.share + SOME_MORE)) : 0;
  const helps = ({ planned }: Way): boolean => isMeasured(planned) && planned.share >= least;
  const sought = { ...asked, nitrogen: asked.nitrogen ?? [NITROGEN_WITHIN, kit.near.asked.nitrogenWithin] };
  const fine = await weighedFine(kit.request, sought);
  if (fine && isMeasured(fine) && fine.share < least - UNCERTAIN) return null;
  const found: Found[] = [];
  const can = largestCan(asked.kit.cans);
  const perWeek = (asked.litresPerYear ?? 0) / WEEKS;
  const batch = request.header.batchLitres!;
  const larger = (times: number) => () =>
    can === null || times * batch * 1000 <= can.millilitres * 1.001
      ? enlarged(kit.request, sought, times)
      : Promise.resolve(null);
  const double = larger(2);
  const bottles = () => bottled([fine, kit], kit.request, sought);
  const usual = perWeek >= 2 * batch ? [double, bottles] : [bottles, double];
  const last = LARGER.filter((times) => perWeek * FRESH_WEEKS >= times * batch).map(larger);
  for (const [i, way] of [...usual, ...last].entries()) {
    if (i === usual.length && found.length > 0) break;
    const one = await way();
    if (one === null || !helps(one)) continue;
    if (isSure(one.planned)) return one;
    found.push(one);
  }
  const best = found.reduce<Found | null>((a, b) => (a && a.planned.share >= b.planned.share ? a : b), null);
  const freely = best && (await best.again(asked));
  return freely && helps(freely) && freely.planned.share >= best.planned.share ? freely : best;
}

/** What the kit alone comes to. */
export function withoutWay({ plan, share }: Pick<FeedPlan, 'share'> & { plan: TrialPlan }): WayOut['without'] {
  const nameOf = (id: string): string => plan.request.shelf.find((product) => product.id === id)?.name || id;
  const without = plan.notes.flatMap((note) => (isUnmeasured(note) ? [note.product] : []));
  const little = plan.status === 'kept' ? [] : plan.leftOut.map(({ product: { id } }) => id);
  return {
    unmeasured: [...new Set([...without, ...little])].map(nameOf),
    weigh: plan.notes.flatMap((note) =>
      note.kind === 'bulk density missing' ? [{ product: note.product, spoon: note.spoon }] : [],
    ),
    misses: plan.status === 'kept' ? [] : plan.violations,
    share,
  };
}

/** All that would do, but for what was chosen. */
export async function otherWays(
  { measuring: { amounts, within } }: FeedPlan,
  asked: FeedAsked,
  chosen: DoseOffer['kind'] | null,
): Promise<DoseOffer[]> {
  const offers = await offersFor(within, amounts, asked.kit, asked);
  return offers.filter(({ kind }) => kind !== chosen);
}

/** A pen that stood in for the kit. */
export const byPenOffer = ({ plan }: { plan: TrialPlan }): WayOut['way'] => ({ kind: 'pen', doses: dosesOf(plan) });

async function enlarged(request: FeedRequest, asked: FeedAsked, times: number): Promise<Found | null> {
  const instead = request.header.batchLitres!;
  const litres = scaleBy(instead, times);
  const planned = await planCounted(withBatch(request, litres), asked);
  if (!('plan' in planned)) return null;
  const way = { kind: 'batch' as const, litres, instead, doses: dosesOf(planned.plan) };
  return { planned, way, again: (other) => enlarged(request, other, times) };
}

/** The feed by a scale to the milligram: as surely as out of a bottle. */
async function weighedFine(request: FeedRequest, asked: FeedAsked): Promise<FeedPlan | null> {
  const { scaleErrorGrams: _, ...kit } = asked.kit;
  const fine = await planCounted(request, { ...asked, kit: { ...kit, scaleStepGrams: FINE } });
  return 'plan' in fine ? fine : null;
}

/**
 * A feed with as few bottles as enough cans ask for, else with those that most cans keep: bottles for the first of these mixes that has any
 * that do. The finest hands' mix holds more that is worth a bottle; the kit's own nothing too little for one.
 */
async function bottled(
  [fine, kit]: readonly [FeedPlan | null, FeedPlan],
  request: FeedRequest,
  asked: FeedAsked,
): Promise<Found | null> {
  if (fine === null) return null;
  return (await withBottles(request, asked, fine)) ?? withBottles(request, asked, kit);
}

async function withBottles(
  request: FeedRequest,
  asked: FeedAsked,
  { measuring: { within, amounts }, custom }: FeedPlan,
): Promise<Found | null> {
  const bottles = bottlesFor({ request: within, amounts, kit: asked.kit, options: asked });
  const needed = bottles.filter(({ off }) => off > HOPELESS).length;
  let best: Found | null = null;
  for (const count of countsFrom(Math.max(1, needed), bottles.length)) {
    const one = await withThese(bottles.slice(0, count), request, asked);
    if (one === null) continue;
    if (best === null || isBetter(one.planned, best.planned)) best = one;
    if (isSure(best.planned) && best.planned.custom.length <= custom.length) break;
  }
  return best;
}

async function withThese(bottles: readonly BottleOf[], request: FeedRequest, asked: FeedAsked): Promise<Found | null> {
  const some = new Map(bottles.map(({ product, levels }) => [product.id, levels]));
  const planned = await planCounted(request, { ...asked, bottles: some });
  if (!('plan' in planned) || !isMeasured(planned) || bottlesIn(planned.plan).length === 0) return null;
  return {
    planned,
    way: offerOfBottles(planned.plan),
    again: (other) => withThese(bottles, request, other),
  };
}

/** As many bottles as are needed at least, and one more while they stay few; where more are needed, as many. */
export const countsFrom = (needed: number, all: number): number[] =>
  needed >= FEW ? [Math.min(needed, all)].filter((count) => count > 0) : range(needed, Math.min(FEW, all));

const range = (from: number, to: number): number[] =>
  Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);

const isSure = ({ share, wanted }: FeedPlan): boolean => share >= wanted;

/** Sure before not; of sure ones with fewer conventions missed, of others more cans. */
function isBetter(other: FeedPlan, best: FeedPlan): boolean {
  if (isSure(other) !== isSure(best)) return isSure(other);
  return isSure(best) ? other.custom.length < best.custom.length : other.share > best.share;
}
