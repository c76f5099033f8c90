import type { Row, Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { type Formulated, type FormulateOptions, leastOf } from '../formulation/index.js';
import { Proof } from '../feed/proof.js';
import type { FeedRequest } from '../feed/request.js';
import type { ReachLine, ReachResult, Extent } from '../feed/results.js';
import { termsOf } from '../feed/terms.js';
import type { Limit } from '../feed/limits.js';

/** An end of a band counts as reached within this share, as the certificate allows. */
const KEPT = 1e-6;

/** A multiplier below this share of the largest does not limit anything. */
const PRESSES = 1e-7;

/**
 * For every banded element the lowest and highest mg/L the shelf can give, once with all other limits kept and once with
 * only the caps kept, and the limits that stop it. Guaranteed contents count towards the highest, worst cases towards the
 * lowest.
 */
export async function reach(request: FeedRequest, shelfName: string): Promise<ReachResult> {
  const banded = Object.keys(request.programme.bands) as Nutrient[];
  const elements: ReachLine[] = [];
  const { verdict: whole } = await leastOf(request, null);
  const verdicts: Verdict[] = [];
  for (const nutrient of banded) {
    const band = request.programme.bands[nutrient]!;
    const all = await extremes(request, nutrient, { without: nutrient });
    const caps = await extremes(request, nutrient, { without: nutrient, minima: false });
    verdicts.push(all.low, all.high, caps.low, caps.high);
    // where the other limits cannot all be kept, the caps alone tell whether this element is to blame
    const decisive = mgReached(all.low, 1) === null ? caps : all;
    const tooLow = (mgReached(decisive.high, -1) ?? 0) < (band.min ?? 0) * (1 - KEPT);
    const tooHigh = (mgReached(decisive.low, 1) ?? 0) > (band.max ?? Number.POSITIVE_INFINITY) * (1 + KEPT);
    const reachable = !tooLow && !tooHigh && mgReached(decisive.low, 1) !== null;
    elements.push({
      element: nutrient,
      whole: extentOf(all),
      capsOnly: extentOf(caps),
      min: band.min ?? null,
      aim: band.aim ?? null,
      max: band.max ?? null,
      reachable,
      limitedBy: limitedBy(decisive, tooHigh && !tooLow ? 'low' : 'high'),
    });
  }
  const open = [whole, ...verdicts].some((v) => v.verdict === 'uncertified');
  return {
    status: open ? 'open' : whole.verdict === 'optimal' ? 'together' : 'apart',
    feed: request.header,
    shelf: shelfName,
    elements,
    conflicting: whole.verdict === 'infeasible',
    proof: Proof.of({ question: 'reach', whole, ends: verdicts }),
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
  const program = { ...options, ceilingsAsRows: request.shelf.length <= 200 };
  const low = await leastOf(request, terms('cap'), program);
  const high = await leastOf(request, opposite(terms('floor')), program);
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

/** The limits that hold an element back, the strongest first; null where nothing does. */
function limitedBy(found: Extremes, end: 'low' | 'high'): Limit[] | null {
  const verdict = end === 'high' ? found.high : found.low;
  if (verdict.verdict === 'unbounded') return null;
  const weights = verdict.verdict === 'optimal' ? verdict.y : verdict.verdict === 'infeasible' ? verdict.ray : {};
  // multipliers are compared after multiplying by their row's size, so that mS/cm and mg/L stand side by side
  const entries = found.formulated[end].limited.map(({ limit, row }) => ({
    limit,
    weight: Math.abs(weights[row.id] ?? 0) * sizeOf(row),
  }));
  const most = Math.max(0, ...entries.map(({ weight }) => weight));
  return entries
    .filter(({ limit, weight }) => limit.kind !== 'water' && most > 0 && weight > PRESSES * most)
    .sort((a, b) => b.weight - a.weight)
    .map(({ limit }) => limit);
}

function sizeOf(row: Row): number {
  const bound = Math.max(Math.abs(row.lower ?? 0), Math.abs(row.upper ?? 0));
  return bound > 0 ? bound : Math.max(0, ...Object.values(row.terms).map(Math.abs));
}
