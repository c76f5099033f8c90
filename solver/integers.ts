import { feasible, TOLERANCE } from './certificate.js';
import { ask, type Claim, type Engine, type EngineLimits } from './engine.js';
import { scale } from './scale.js';
import { relaxed, type Table } from './table.js';
import type { Finding, Judge } from './verdict.js';

/** An integer off by this much was meant to be whole: engines round no better. What is used is the whole number. */
const WHOLE = 1e-6;

interface Answer {
  x: number[];
  violation: number;
}

/**
 * Integer columns: the relaxation first, because its proofs hold for integers too; then an engine's search, whose
 * answer is made whole and checked against the rows. That nothing costs less than `bound` is then the engine's word
 * (`boundBy: 'search'`); no engine hands out a proof of it.
 */
export async function solveIntegers(
  table: Table,
  engines: readonly Engine[],
  limits: EngineLimits,
  judge: Judge,
): Promise<Finding> {
  const root = await judge(relaxed(table));
  if (root.verdict === 'infeasible' || root.verdict === 'uncertified') return root;
  if (root.verdict === 'optimal' && whole(table, root.x)) return root;
  const scaled = scale(root.verdict === 'unbounded' ? { ...table, cost: table.cost.map(() => 0) } : table);
  const refusals: string[] = [];
  let last: Claim['claim'] = 'none';
  for (const engine of engines.filter((e) => e.integers)) {
    const claim = scaled.unscale(await ask(engine, scaled.table, limits));
    last = claim.claim;
    if (claim.claim !== 'integer') {
      refusals.push(
        `${engine.name}: ${claim.claim === 'none' ? claim.why : 'its search found nothing; no arithmetic proves that'}`,
      );
      continue;
    }
    const answer = await settle(table, claim.x, judge);
    if ('x' in answer && root.verdict === 'unbounded') return { ...root, x: answer.x, engine: engine.name };
    const finding =
      'x' in answer && root.verdict === 'optimal'
        ? judged(table, answer, Math.max(root.bound, claim.bound), engine.name)
        : answer;
    if ('verdict' in finding) return finding;
    refusals.push(`${engine.name}: ${'why' in finding ? finding.why : 'no answer'}`);
  }
  return { verdict: 'uncertified', claim: last, why: refusals.join('; ') || 'no engine takes integers' };
}

/** Rounds the integers to whole numbers, lets the other columns follow, and checks the rows. */
async function settle(table: Table, claimed: readonly number[], judge: Judge): Promise<Answer | { why: string }> {
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

function judged(table: Table, { x, violation }: Answer, claimed: number, engine: string): Finding | { why: string } {
  const objective = table.cost.reduce((sum, c, j) => sum + c * x[j]!, 0);
  const size = Math.max(Math.abs(objective), Math.abs(claimed));
  if (claimed - objective > TOLERANCE * size)
    return { why: `said that nothing costs less than ${claimed}, its answer costs ${objective}` };
  const bound = Math.min(claimed, objective);
  const gap = objective === bound ? 0 : (objective - bound) / size;
  const best = { objective, bound, x, violation, gap, engine };
  if (gap <= TOLERANCE) return { verdict: 'optimal', ...best, y: [], boundBy: 'search' };
  return {
    verdict: 'uncertified',
    claim: 'integer',
    why: `${engine}: the search did not end; the answer may not be the best`,
    best,
  };
}

function whole(table: Table, x: readonly number[]): boolean {
  return x.every((value, j) => !table.integer[j] || Number.isInteger(value));
}
