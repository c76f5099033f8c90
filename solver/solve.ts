import { type Certified, certify } from './certificate.js';
import { dual } from './dual.js';
import { ask, type Claim, type Engine, type EngineLimits } from './engine.js';
import { highs, highsProof } from './highs.js';
import { solveIntegers } from './integers.js';
import type { LinearProgram, Verdict } from './program.js';
import { type Scaled, SCALINGS } from './scale.js';
import { simplex } from './simplex.js';
import { type Table, tabulate } from './table.js';
import type { Finding, Judge } from './verdict.js';
import { verdict } from './verdict.js';

/** How to solve. `engines` are tried in order until a claim survives the certificate. */
export interface SolveOptions {
  engines?: readonly Engine[];
  /**
   * The dual simplex method before the other engines: for programs whose costs want a finite end of every column and whose rows a start at
   * those ends misses, hundreds of pivots of the first engine's first phase. It needs no such phase, and a ceiling is no row to it.
   */
  dualFirst?: boolean;
  /**
   * For programs with integer columns: nodes of branch and bound, by default 20,000. When they run out, the verdict is
   * `uncertified` and `unfinished`, with the `best` answer so far, the same on a busy machine as on an idle one.
   */
  mostNodes?: number;
  /** The same for pivots over all nodes, for large programs with few nodes; no limit by default. */
  mostPivots?: number;
  /** Seconds, or a clock that tells how many are left, where someone waits; a search has 60 at most without. Same verdict when they run out. */
  timeLimitSeconds?: number | (() => number);
  /** For programs with integer columns: most relaxations asked for a proof by cases; 0 takes the search's word. */
  mostCases?: number;
}

const ENGINES: readonly Engine[] = [simplex, highs, highsProof];
/** Seconds for programs of a hundred columns. */
const MOST_NODES = 20_000;
/** A better-kept answer than this is not looked for: what rounding leaves of an engine's answer is a thousandth of it. */
const NEAT = 1e-9;

/**
 * Minimises Σ cost · x. Every verdict has been checked by arithmetic on the program as given, or says that it has not.
 * An optimum's gap is judged against max(|objective|, |bound|, Σ |cost · x|) and nothing larger, so that no dear column
 * which the answer leaves alone can hide a gap; a violation against the end that is missed.
 * Throws a ProgramError that lists every fault of a faulty program. Records in the verdict have no prototype, so that
 * any id is safe; every id is present.
 */
export async function solve(program: LinearProgram, options: SolveOptions = {}): Promise<Verdict> {
  const table = tabulate(program);
  const { engines: named = ENGINES, dualFirst = false } = options;
  const engines = dualFirst ? [dual, ...named] : named;
  const limits = (): EngineLimits => limitsOf(options);
  const judge: Judge = (t) => solveLinear(t, engines, limits);
  const finding = table.integer.some(Boolean)
    ? await solveIntegers(table, engines, limits, judge, options.mostCases)
    : await judge(table);
  return verdict(program, finding);
}

function limitsOf({ mostNodes = MOST_NODES, mostPivots, timeLimitSeconds: seconds }: SolveOptions): EngineLimits {
  const left = typeof seconds === 'function' ? Math.max(0, seconds()) : seconds;
  return {
    mostNodes,
    ...(mostPivots === undefined ? {} : { mostPivots }),
    ...(left === undefined ? {} : { timeLimitSeconds: left }),
  };
}

/**
 * Engine after engine, each in every scaling, until the certificate accepts what one says. An answer that misses a row
 * by more than rounding waits: rows that all but conflict have such answers, and a proof that they conflict goes first.
 */
async function solveLinear(table: Table, engines: readonly Engine[], limits: () => EngineLimits): Promise<Finding> {
  const scaled: Scaled[] = [];
  const refusals = new Set<string>();
  let last: Claim = { claim: 'none', why: 'no engine' };
  let spent = false;
  let untidy: Finding | undefined;
  for (const engine of engines) {
    for (const [at, scaling] of SCALINGS.entries()) {
      const { timeLimitSeconds } = limits();
      if (timeLimitSeconds === 0) {
        return untidy ?? { verdict: 'uncertified', claim: 'none', why: 'time ran out', unfinished: true };
      }
      scaled[at] ??= scaling(table);
      const { table: own, unscale } = scaled[at];
      last = await ask(engine, own, timeLimitSeconds === undefined ? {} : { timeLimitSeconds });
      const certified = certify(table, unscale(last));
      if (certified.verdict === 'infeasible') return { ...certified, engine: engine.name };
      if (certified.verdict === 'refused') refusals.add(`${engine.name}: ${certified.why}`);
      else {
        const finding = told(certified, engine.name);
        if (certified.violation <= NEAT) return finding;
        untidy ??= finding;
      }
      if (last.claim !== 'none' || !last.spent) continue;
      spent = true;
      break;
    }
  }
  if (untidy) return untidy;
  return {
    verdict: 'uncertified',
    claim: last.claim,
    why: [...refusals].join('; '),
    ...(spent ? { unfinished: true } : {}),
  };
}

function told(certified: Extract<Certified, { violation: number }>, engine: string): Finding {
  if (certified.verdict === 'optimal') return { ...certified, engine, boundBy: 'multipliers' };
  const { violation: _, ...found } = certified;
  return { ...found, engine };
}
