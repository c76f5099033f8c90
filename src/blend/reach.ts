import { type LinearProgram, solve, type Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { amountsOf } from '../formulation/amounts.js';
import { leastEc, underEcCap } from '../formulation/ec-cap.js';
import { type Formulated, type FormulateOptions, formulate } from '../formulation/formulate.js';
import { Proof } from '../feed/proof.js';
import type { Amounts } from '../can/mix-amounts.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import type { ReachLine, ReachResult, Extent } from '../feed/results.js';
import { termsOf } from '../feed/terms.js';

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
  const whole = await feasible(request);
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
    notes:
      whole.verdict === 'infeasible'
        ? [
            'The limits cannot all be kept together, so most elements show no range: for those, the range with the caps alone decides.',
          ]
        : [],
    proof: Proof.of({ question: 'reach', whole, ends: verdicts }),
  };
}

/** Whether any mix keeps every limit; where the first linearisation of the EC cap forbids it, the one at the mix of least EC decides. */
async function feasible(request: FeedRequest): Promise<Verdict> {
  const verdict = await solve(formulate(request).program);
  if (verdict.verdict !== 'infeasible' || ecCap(request) === null || (verdict.ray.ec ?? 0) === 0) return verdict;
  const least = await leastEc(request);
  return least ? solve(formulate({ ...request, ecLinearisation: least.linearisation }).program) : verdict;
}

/** Verdicts with the legend of the last program each. */
interface Extremes {
  formulated: { low: Formulated; high: Formulated };
  low: Verdict;
  high: Verdict;
}

async function extremes(request: FeedRequest, nutrient: Nutrient, options: FormulateOptions): Promise<Extremes> {
  const terms = (side: 'cap' | 'floor') => termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), side);
  const end = async (costs: Record<string, number>, sign: 1 | -1): Promise<Ended> => {
    const run = async (at: FeedRequest): Promise<Ended> => {
      const formulated = formulate(at, { ...options, ceilingsAsRows: request.shelf.length <= 200 });
      const columns = formulated.program.columns.map((c) => ({ ...c, cost: sign * (costs[c.id] ?? 0) }));
      return { formulated, verdict: await solve({ rows: formulated.program.rows, columns }) };
    };
    const mixOf = ({ verdict, formulated }: Ended): Amounts | null =>
      verdict.verdict === 'optimal' ? amountsOf(verdict, formulated) : null;
    return (await underEcCap(request, run, mixOf)).result;
  };
  const [low, high] = [await end(terms('cap'), 1), await end(terms('floor'), -1)];
  return { formulated: { low: low.formulated, high: high.formulated }, low: low.verdict, high: high.verdict };
}

interface Ended {
  formulated: Formulated;
  verdict: Verdict;
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

function limitedBy(found: Extremes, end: 'low' | 'high'): string[] {
  const verdict = end === 'high' ? found.high : found.low;
  if (verdict.verdict === 'unbounded') return ['nothing: no cap holds it back'];
  const weights = verdict.verdict === 'optimal' ? verdict.y : verdict.verdict === 'infeasible' ? verdict.ray : {};
  const entries = [...found.formulated[end].limits.values()].map((limit) => ({
    limit,
    weight: Math.abs(weights[limit.id] ?? 0),
  }));
  const { program } = found.formulated[end];
  const most = Math.max(0, ...entries.map((e) => e.weight * scaleOf(program, e.limit.id)));
  return entries
    .filter((e) => e.limit.kind !== 'water' && most > 0 && e.weight * scaleOf(program, e.limit.id) > PRESSES * most)
    .sort((a, b) => b.weight * scaleOf(program, b.limit.id) - a.weight * scaleOf(program, a.limit.id))
    .map((e) => e.limit.text);
}

/** Multipliers are compared after multiplying by their row's size, so that mS/cm and mg/L stand side by side. */
function scaleOf(program: LinearProgram, rowId: string): number {
  const row = program.rows.find((r) => r.id === rowId)!;
  const bound = Math.max(Math.abs(row.lower ?? 0), Math.abs(row.upper ?? 0));
  return bound > 0 ? bound : Math.max(0, ...Object.values(row.terms).map(Math.abs));
}
