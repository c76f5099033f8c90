import { type LinearProgram, solve, type Verdict } from '../../solver/index.js';
import { dice } from '../solver/dice.js';
import { toNumber } from './dyadic.js';
import { type Exact, exact } from './exact.js';
import type { Family } from './families/family.js';
import { faultAgainst, faultOf, said, verdictFault } from './judge.js';
import { plainHighs } from './plain-highs.js';

/** What came of one program. */
export interface Finding {
  family: string;
  number: number;
  verdict: Verdict['verdict'] | 'threw' | 'hung';
  /** What the exact simplex says; `unknown` where whole numbers took too many nodes, and HiGHS judges alone. */
  truth: string;
  engine?: string;
  /** What is wrong with the verdict, or why there is none. */
  fault?: string;
  why?: string;
  /** Right only by what the contract lets rows be missed: exactly nothing fits, or the optimum is another. */
  byTolerance?: true;
  /** Of the processor: on a busy machine the clock also counts what others do. */
  milliseconds: number;
  /** What is wrong with HiGHS as it comes. */
  plainFault?: string;
}

/** The program of a family under a number: the same on every machine, whatever families stand beside it. */
export function programOf(family: Family, number: number): LinearProgram {
  let hash = 0x811c9dc5;
  for (const character of `${family.name} ${number}`) hash = Math.imul(hash ^ character.codePointAt(0)!, 0x01000193);
  return family.make(dice(hash));
}

export async function examine(family: Family, number: number): Promise<Finding> {
  const program = programOf(family, number);
  const { verdict, milliseconds } = await timed(program);
  const [truth, theirs] = [exact(program), await plainHighs(program)];
  const found = { family: family.name, number, truth: truth.status, milliseconds };
  const plainFault = verdictFault(program, truth, theirs);
  const plain = plainFault === undefined ? {} : { plainFault };
  if (typeof verdict === 'string') return { ...found, ...plain, verdict: 'threw', fault: verdict };
  const fault =
    truth.status === 'unknown'
      ? faultAgainst(program, said(program, verdict), theirs)
      : faultOf(program, truth, said(program, verdict));
  return {
    ...found,
    ...plain,
    verdict: verdict.verdict,
    ...(verdict.verdict === 'uncertified' ? { why: verdict.why } : { engine: verdict.engine }),
    ...(fault === undefined ? (isByTolerance(truth, verdict) ? { byTolerance: true } : {}) : { fault }),
  };
}

function isByTolerance(truth: Exact, verdict: Verdict): boolean {
  if (verdict.verdict !== 'optimal' || truth.status === 'unknown') return false;
  if (truth.status !== 'optimal') return true;
  const optimum = toNumber(truth.objective);
  return Math.abs(verdict.objective - optimum) > 1e-6 * Math.max(Math.abs(optimum), Math.abs(verdict.objective));
}

async function timed(program: LinearProgram): Promise<{ verdict: Verdict | string; milliseconds: number }> {
  const start = process.cpuUsage();
  const verdict = await solve(program).catch((error: unknown) => `threw ${error}`);
  const { user, system } = process.cpuUsage(start);
  return { verdict, milliseconds: (user + system) / 1000 };
}
