import { byCases } from './cases.js';
import { feasible, TOLERANCE } from './certificate.js';
import { byDivisor } from './divisor.js';
import { doubted, isDoubtful } from './doubt.js';
import { ask, type Claim, type Engine, type EngineLimits } from './engine.js';
import { byRemainders, type Remaindered } from './remainders.js';
import { INTEGER_SCALINGS } from './scale.js';
import { costOf, relaxed, type Table } from './table.js';
import type { Finding, Judge } from './verdict.js';
import { gapOf, judged, LONGEST_SECONDS, type Refusal, settle } from './whole.js';

/**
 * Integer columns: the relaxation first, because its proofs hold for whole numbers too; then divisibility, which a
 * search would chase for ever where columns have no bounds; then, where numbers are too large for an engine's
 * tolerances, the remainders of a single row; then an engine's search, whose answer is made whole and checked against the rows. What the search says beyond that, that nothing costs less or that
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
  const remainders = root.verdict === 'optimal' && isDoubtful(table, root.x) ? byRemainders(table, root.x) : undefined;
  if (remainders) {
    const found = exact(table, remainders);
    if (found) return found;
  }
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
          ? await nothing(still, judge, engine.name, limits, mostCases)
          : claim.claim === 'integer'
            ? await something(table, claim, root, judge, engine, limits, mostCases)
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

/** The cheapest way to a row's remainder is the optimum, if it keeps all bounds. */
function exact(table: Table, { x, bound }: Remaindered): Finding | undefined {
  const isWithin = x.every(
    (value, j) => Number.isSafeInteger(value) && value >= table.lower[j]! && value <= table.upper[j]!,
  );
  const answer = isWithin ? feasible(table, x) : { why: 'a column leaves its bounds' };
  if ('why' in answer) return undefined;
  const { objective, paid } = costOf(table, x);
  const gap = gapOf(objective, Math.min(bound, objective), paid);
  return gap <= TOLERANCE
    ? {
        verdict: 'optimal',
        objective,
        bound: Math.min(bound, objective),
        ...answer,
        y: [],
        gap,
        engine: 'arithmetic',
        boundBy: 'cases',
      }
    : undefined;
}

/** The claim that no whole numbers fit. */
async function nothing(
  still: Table,
  judge: Judge,
  engine: string,
  limits: () => EngineLimits,
  mostCases?: number,
): Promise<Finding | Refusal> {
  const proof = await byCases(still, Number.POSITIVE_INFINITY, judge, limits, mostCases);
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
  engine: Engine,
  limits: () => EngineLimits,
  mostCases?: number,
): Promise<Finding | Refusal> {
  const answer = await settle(table, claim.x, judge);
  if ('why' in answer) return answer;
  if (root.verdict === 'unbounded') return { ...root, x: answer.x, engine: engine.name };
  if (root.verdict !== 'optimal') return { why: 'the relaxation has no optimum' };
  const finding = judged(table, answer, Math.max(root.bound, claim.bound), engine.name, claim.ended);
  if (!('verdict' in finding) || (finding.verdict !== 'optimal' && !claim.ended)) return finding;
  const { objective, paid } = costOf(table, answer.x);
  const proof = await byCases(table, objective, judge, limits, mostCases);
  if (proof === 'disproved') return { why: 'whole numbers that cost less were found' };
  const believed = () =>
    finding.verdict === 'optimal' ? doubted(table, finding, root.bound, engine, limits, judge) : finding;
  if (proof === 'too many') return believed();
  const bound = Math.min(proof.bound, objective);
  const gap = gapOf(objective, bound, paid);
  return gap <= TOLERANCE
    ? { verdict: 'optimal', objective, bound, ...answer, y: [], gap, engine: engine.name, boundBy: 'cases' }
    : believed();
}

function whole(table: Table, x: readonly number[]): boolean {
  return x.every((value, j) => !table.integer[j] || Number.isInteger(value));
}
