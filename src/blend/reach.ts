import type { Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { type Formulated, type FormulateOptions, leastOf } from '../formulation/index.js';
import { Proof } from '../feed/proof.js';
import { isOnAlkalinity, withoutHopelessAlkalinity } from '../feed/alkalinity-limit.js';
import { withoutAimed } from '../feed/grade.js';
import type { FeedRequest } from '../feed/request.js';
import type { Decides, Extent, ReachLine, ReachResult } from '../feed/results.js';
import { termsOf } from '../feed/terms.js';
import type { Limit } from '../feed/limits.js';
import { type AimsTold, nearestToAims } from './aims.js';
import { largestMiss } from './beside.js';
import { decidesOn, namedParts, partsOf } from './decides.js';
import { closestMix } from './feed-plan.js';
import { whatLifts } from './lifted.js';
import { heldOf } from './near-width.js';
import { missesFromAims } from './miss-program.js';

/** An end of a band, or an aim, counts as reached within this share, as the certificate allows. */
const KEPT = 1e-6;

/** Up to this many products, stock and label ceilings can be named among what stops an element. */
const NAMED_CEILINGS = 200;

/**
 * For every banded element the lowest and highest mg/L the shelf can give, once with all other limits kept and once with only the caps
 * kept; whether its aim can be met with all other limits kept, and what decides where it cannot; and the limits that stop it. Guaranteed
 * contents count towards the highest, worst cases towards the lowest, what labels state towards the aim.
 */
export async function reach(asked: FeedRequest, shelfName: string): Promise<ReachResult> {
  const borne = withoutHopelessAlkalinity(asked);
  const request = { ...asked, programme: withoutAimed(borne.programme, isOnAlkalinity) };
  const ceilingsAsRows = request.shelf.length <= NAMED_CEILINGS;
  const { verdict: whole, formulated } = await leastOf(request, null, { ceilingsAsRows });
  const told = [];
  for (const nutrient of Object.keys(request.programme.bands) as Nutrient[])
    told.push(await lineOf(request, nutrient, { ceilingsAsRows }));
  const within = told.flatMap(({ line }) => (line.aimReachable ? [line.element] : []));
  const aims = await nearestToAims(request, within, { ceilingsAsRows });
  const verdicts = [...told.flatMap((one) => one.verdicts), ...(aims === null ? [] : [aims.verdict])];
  const open = [whole, ...verdicts].some((v) => v.verdict === 'uncertified');
  return {
    status: open ? 'open' : whole.verdict === 'optimal' ? 'together' : 'apart',
    feed: request.header,
    shelf: shelfName,
    elements: told.map(({ line }) => line),
    ...(await missedAtOnce(asked, aims?.miss ?? null)),
    conflict: whole.verdict === 'infeasible' ? limitsOf(formulated, whole) : [],
    conflicting: whole.verdict === 'infeasible',
    alkaline: alkalineOf(asked, borne),
    proof: Proof.of({ question: 'reach', whole, ends: verdicts }),
  };
}

/** How far the nearest feed is from its aims, by the measure of the feed itself, where they cannot all be met at once. */
async function missedAtOnce(
  request: FeedRequest,
  miss: number | null,
): Promise<Pick<ReachResult, 'aimsMiss' | 'farthest'>> {
  if (miss === null || miss <= KEPT) return { aimsMiss: miss, farthest: null };
  const mix = await closestMix(request);
  const far = mix && largestMiss(request.programme, (element) => heldOf(element, mix.amounts, request));
  return { aimsMiss: far?.share ?? null, farthest: far?.element ?? null };
}

/** The limit on alkalinity that was dropped because no water here keeps it. */
function alkalineOf({ programme, waters }: FeedRequest, borne: FeedRequest): ReachResult['alkaline'] {
  const dropped = programme.rules.find((rule) => isOnAlkalinity(rule) && !borne.programme.rules.includes(rule));
  if (dropped?.kind !== 'linear') return null;
  return { limit: dropped.upper!, least: Math.min(...waters.map(({ alkalinity }) => alkalinity)) };
}

/** One element, with every verdict that its figures rest on. */
async function lineOf(
  request: FeedRequest,
  nutrient: Nutrient,
  options: FormulateOptions,
): Promise<{ line: ReachLine; verdicts: Verdict[] }> {
  const band = request.programme.bands[nutrient]!;
  const others = { ...options, without: nutrient };
  const all = await extremes(request, nutrient, others);
  const caps = await extremes(request, nutrient, { ...others, minima: false });
  // where the other limits cannot all be kept, the caps alone tell whether this element is to blame
  const torn = mgReached(all.low, 1) === null;
  const decisive = torn ? caps : all;
  const kept = torn ? { ...others, minima: false } : others;
  const near = await nearestToAims(request, [nutrient], kept);
  const [lowest, highest] = [mgReached(decisive.low, 1), mgReached(decisive.high, -1)];
  // where not even the caps can be kept, no element is to blame by itself
  const tooLow = highest !== null && highest < (band.min ?? 0) * (1 - KEPT);
  const tooHigh = lowest !== null && lowest > (band.max ?? Number.POSITIVE_INFINITY) * (1 + KEPT);
  const aimMet = near === null || near.miss === null ? null : near.miss <= KEPT;
  const lifted =
    aimMet === false ? await whatLifts(request, nutrient, isShort(request, nutrient, near!), near!, kept) : null;
  return {
    line: {
      element: nutrient,
      whole: extentOf(all),
      capsOnly: extentOf(caps),
      min: band.min ?? null,
      aim: band.aim ?? null,
      max: band.max ?? null,
      reachable: !tooLow && !tooHigh && lowest !== null,
      // an aim out of reach of the caps alone is so with the minima too; one within it says nothing about them
      aimReachable: torn && aimMet === true ? null : aimMet,
      decides: lifted?.decides ?? bandDecides(request, nutrient, decisive, { tooLow, tooHigh }),
      limitedBy: limitedBy(decisive, tooHigh && !tooLow ? 'low' : 'high'),
    },
    verdicts: [
      all.low,
      all.high,
      caps.low,
      caps.high,
      ...(near === null ? [] : [near.verdict]),
      ...(lifted?.verdicts ?? []),
    ],
  };
}

/** Verdicts with the programs that they are about. */
interface Extremes {
  formulated: { low: Formulated; high: Formulated };
  low: Verdict;
  high: Verdict;
}

async function extremes(request: FeedRequest, nutrient: Nutrient, options: FormulateOptions): Promise<Extremes> {
  const terms = (side: 'cap' | 'floor') => termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), side);
  const opposite = (of: Record<string, number>) => Object.fromEntries(Object.entries(of).map(([id, a]) => [id, -a]));
  const low = await leastOf(request, terms('cap'), options);
  const high = await leastOf(request, opposite(terms('floor')), options);
  return { formulated: { low: low.formulated, high: high.formulated }, low: low.verdict, high: high.verdict };
}

/** The mg/L reached; null when the other limits cannot be kept; Infinity for an element that nothing holds back. */
function mgReached(verdict: Verdict, sign: 1 | -1): number | null {
  if (verdict.verdict === 'unbounded') return Number.POSITIVE_INFINITY;
  if (verdict.verdict !== 'optimal') return null;
  const value = sign * verdict.objective;
  return Math.abs(value) < 1e-12 ? 0 : value;
}

/** Null when the other limits cannot be kept. */
function extentOf({ low, high }: Extremes): Extent | null {
  const [lowest, highest] = [mgReached(low, 1), mgReached(high, -1)];
  if (lowest === null) return null;
  return { lowest, highest: highest === null || !Number.isFinite(highest) ? null : highest };
}

/** What keeps an element without an aim from its band: the greatest part of the proof. */
function bandDecides(
  request: FeedRequest,
  nutrient: Nutrient,
  { formulated, low, high }: Extremes,
  { tooLow, tooHigh }: { tooLow: boolean; tooHigh: boolean },
): Decides | null {
  if (tooLow) return decidesOn(request, nutrient, true, namedParts(formulated.high, high));
  return tooHigh ? decidesOn(request, nutrient, false, namedParts(formulated.low, low)) : null;
}

/** Whether the nearest mix has too little of it. */
function isShort(request: FeedRequest, nutrient: Nutrient, { verdict }: AimsTold): boolean {
  const x = verdict.verdict === 'optimal' ? verdict.x : {};
  return missesFromAims(request, x).some((miss) => miss.nutrient === nutrient && !miss.high);
}

/** The limits that hold an element back, the strongest first; null where nothing does. */
function limitedBy({ formulated, low, high }: Extremes, end: 'low' | 'high'): Limit[] | null {
  const verdict = end === 'high' ? high : low;
  return verdict.verdict === 'unbounded' ? null : limitsOf(formulated[end], verdict);
}

const limitsOf = (formulated: Formulated, verdict: Verdict): Limit[] =>
  partsOf(formulated, verdict).flatMap(({ limit }) => (limit.kind === 'water' ? [] : [limit]));
