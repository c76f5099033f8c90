import { byCases } from './cases.js';
import { feasible, TOLERANCE } from './certificate.js';
import { byDivisor } from './divisor.js';
import { ask, type Claim, type Engine, type EngineLimits } from './engine.js';
import { INTEGER_SCALINGS } from './scale.js';
import { costOf, relaxed, type Table } from './table.js';
import type { Finding, Judge } from './verdict.js';

/** An integer off by this much was meant to be whole: engines round no better. What is used is the whole number. */
const WHOLE = 1e-6;

/** Beside nodes and pivots, for a search that counts neither while it turns over huge whole numbers. */
const LONGEST_SECONDS = 60;

interface Refusal {
  why: string;
  /** Another scaling would say the same. */
  final?: boolean;
}

interface Answer {
  x: number[];
  violation: number;
}

/**
 * Integer columns: the relaxation first, because its proofs hold for whole numbers too; then divisibility, which a
 * search would chase for ever where columns have no bounds; then an engine's search, whose
 * answer is made whole and checked against the rows. What the search says beyond that, that nothing costs less or that
 * nothing fits, is proved by cases where those are few enough.
 */
export async function solveIntegers(
  table: Table,
  engines: readonly Engine[],
  limits: () => EngineLimits,
  judge: Judge,
  mostCases?: number,
): Promise<Finding> {
  const root = await judge(relaxed(table));
  if (root.verdict === 'infeasible' || root.verdict === 'uncertified') return root;
  if (root.verdict === 'optimal' && whole(table, root.x)) return root;
  const divisor = byDivisor(table);
  if (divisor) return { verdict: 'infeasible', ray: [], engine: 'arithmetic', divisor };
  const still = { ...table, cost: table.cost.map(() => 0) };
  const refusals = new Set<string>();
  let last: Claim['claim'] = 'none';
  let spent = false;
  const asked = root.verdict === 'unbounded' ? still : table;
  for (const engine of engines.filter((e) => e.integers)) {
    for (const scaling of INTEGER_SCALINGS) {
      const scaled = scaling(asked);
      const claim = scaled.unscale(await ask(engine, scaled.table, { timeLimitSeconds: LONGEST_SECONDS, ...limits() }));
      last = claim.claim;
      const finding =
        claim.claim === 'integer-infeasible'
          ? await nothing(still, judge, engine.name, mostCases)
          : claim.claim === 'integer'
            ? await something(table, claim, root, judge, engine.name, mostCases)
            : claim.claim === 'none'
              ? { why: claim.why, final: claim.spent ?? false }
              : { why: 'whole numbers were not in what it said' };
      if ('verdict' in finding) return finding;
      refusals.add(`${engine.name}: ${finding.why}`);
      spent ||= claim.claim === 'none' && (claim.spent ?? false);
      if (finding.final) break;
    }
  }
  return {
    verdict: 'uncertified',
    claim: last,
    why: [...refusals].join('; ') || 'no engine takes integers',
    ...(spent ? { unfinished: true } : {}),
  };
}

/** The claim that no whole numbers fit. */
async function nothing(still: Table, judge: Judge, engine: string, mostCases?: number): Promise<Finding | Refusal> {
  const proof = await byCases(still, Number.POSITIVE_INFINITY, judge, mostCases);
  if (proof === 'disproved') return { why: 'said that no whole numbers fit, yet some do' };
  if (proof === 'too many')
    return { why: 'its search found nothing; to prove that would take too many cases', final: true };
  return { verdict: 'infeasible', ray: [], engine, cases: proof.cases };
}

/** The claim of an answer. */
async function something(
  table: Table,
  claim: Extract<Claim, { claim: 'integer' }>,
  root: Finding,
  judge: Judge,
  engine: string,
  mostCases?: number,
): Promise<Finding | Refusal> {
  const answer = await settle(table, claim.x, judge);
  if ('why' in answer) return answer;
  if (root.verdict === 'unbounded') return { ...root, x: answer.x, engine };
  if (root.verdict !== 'optimal') return { why: 'the relaxation has no optimum' };
  const finding = judged(table, answer, Math.max(root.bound, claim.bound), engine, claim.ended);
  if (!('verdict' in finding) || (finding.verdict !== 'optimal' && !claim.ended)) return finding;
  const { objective, paid } = costOf(table, answer.x);
  const proof = await byCases(table, objective, judge, mostCases);
  if (proof === 'disproved') return { why: 'whole numbers that cost less were found' };
  if (proof === 'too many') return finding;
  const bound = Math.min(proof.bound, objective);
  const gap = gapOf(objective, bound, paid);
  return gap <= TOLERANCE
    ? { verdict: 'optimal', objective, bound, ...answer, y: [], gap, engine, boundBy: 'cases' }
    : finding;
}

/** Rounds the integers to whole numbers, lets the other columns follow, and checks the rows. */
async function settle(table: Table, claimed: readonly number[], judge: Judge): Promise<Answer | Refusal> {
  if (claimed.length !== table.cost.length) return { why: 'not one number for each column' };
  const fixed = claimed.map((value, j) => (table.integer[j] ? Math.round(value) : undefined));
  if (claimed.some((value, j) => table.integer[j] && !(Math.abs(value - fixed[j]!) <= WHOLE)))
    return { why: 'an integer is not whole' };
  if (fixed.some((value, j) => value !== undefined && (value < table.lower[j]! || value > table.upper[j]!))) {
    return { why: 'an integer lies outside its bounds' };
  }
  const direct = feasible(
    table,
    claimed.map((value, j) => fixed[j] ?? value),
  );
  if (table.integer.every(Boolean)) return direct;
  const rest = await judge({
    ...relaxed(table),
    lower: table.lower.map((lower, j) => fixed[j] ?? lower),
    upper: table.upper.map((upper, j) => fixed[j] ?? upper),
  });
  return rest.verdict === 'optimal' ? { x: rest.x, violation: rest.violation } : direct;
}

function judged(
  table: Table,
  { x, violation }: Answer,
  claimed: number,
  engine: string,
  ended: boolean,
): Finding | Refusal {
  const { objective, paid } = costOf(table, x);
  if (claimed - objective > TOLERANCE * Math.max(Math.abs(objective), Math.abs(claimed), paid))
    return { why: `said that nothing costs less than ${claimed}, its answer costs ${objective}` };
  const bound = Math.min(claimed, objective);
  const gap = gapOf(objective, bound, paid);
  const best = { objective, bound, x, violation, gap, engine };
  if (gap <= TOLERANCE) return { verdict: 'optimal', ...best, y: [], boundBy: 'search' };
  return {
    verdict: 'uncertified',
    claim: 'integer',
    why: `${engine}: ${ended ? 'its bound lies below its answer' : 'the search did not end'}; the answer may not be the best`,
    ...(ended ? {} : { unfinished: true }),
    best,
  };
}

function gapOf(objective: number, bound: number, paid: number): number {
  return objective === bound ? 0 : (objective - bound) / Math.max(Math.abs(objective), Math.abs(bound), paid);
}

function whole(table: Table, x: readonly number[]): boolean {
  return x.every((value, j) => !table.integer[j] || Number.isInteger(value));
}
