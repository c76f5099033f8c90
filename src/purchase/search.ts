import { type LinearProgram, type Row, solve, type Verdict } from '../../solver/index.js';
import type { PurchaseFound, Stop } from '../feed/proof.js';
import { boughtColumn, type Joint, packColumn } from './program.js';
import { ENGINES } from './settle.js';
import type { PurchaseOptions } from './types.js';

/** Packs of each candidate, with what is proved about them. */
export interface Found extends Omit<PurchaseFound, 'found'> {
  counts: number[];
}

/**
 * What a search ends with. `none`: nothing fits; `byArithmetic` is false where only the search's word stands for it. A search that was not
 * finished without finding anything has `stopped`, and says nothing of whether something fits.
 */
export type Search =
  | { found: Found }
  | { found: null; none: true; byArithmetic: boolean; why: string; engine: string }
  | { found: null; none: false; stopped: Stop };

/** What makes a search differ from the plain one. */
export interface SearchOptions extends PurchaseOptions {
  rows?: readonly Row[];
  /** Cost of a pack column and of having bought any; money by default. */
  count?: 'money' | 'products';
  /** False: the search's word will do, which is quicker. */
  byCases?: boolean;
}

/** The work of one search: some ten seconds where thirty feeds share a hundred products; two feeds take a hundredth of it. */
const PIVOTS = 50_000;
const NODES = 20_000;
/** Rows and columns of all the relaxations together that a proof by cases may ask for. */
const CASES = 100_000;

const mostCases = ({ columns, rows }: LinearProgram): number => Math.floor(CASES / (columns.length + rows.length));

/** The least purchase within the program and further rows. */
export async function search(joint: Joint, options: SearchOptions = {}): Promise<Search> {
  if (isOver(options)) return { found: null, none: false, stopped: { by: 'time' } };
  const program = {
    columns: options.count === 'products' ? counting(joint) : joint.program.columns,
    rows: [...joint.program.rows, ...(options.rows ?? [])],
  };
  const limits = {
    mostPivots: PIVOTS * (options.effort ?? 1),
    mostNodes: NODES * (options.effort ?? 1),
    mostCases: options.byCases === false ? 0 : mostCases(program),
    ...(options.secondsLeft === undefined ? {} : { timeLimitSeconds: options.secondsLeft }),
  };
  const first = await solve(program, { engines: ENGINES, ...limits });
  const verdict = isLost(first) && !isOver(options) ? await solve(plain(program, joint.helping), limits) : first;
  switch (verdict.verdict) {
    case 'optimal':
      return { found: { ...verdict, counts: countsOf(joint, verdict.x) } };
    case 'infeasible':
      return { found: null, none: true, byArithmetic: true, why: '', engine: verdict.engine };
    case 'uncertified':
      if (verdict.best) return { found: { ...verdict.best, counts: countsOf(joint, verdict.best.x), boundBy: null } };
      return verdict.claim === 'integer-infeasible'
        ? { found: null, none: true, byArithmetic: false, why: verdict.why, engine: 'highs' }
        : {
            found: null,
            none: false,
            stopped: verdict.unfinished ? stopAt(options) : { by: 'rounding', why: verdict.why },
          };
    case 'unbounded':
      throw new Error('modelling fault: a purchase cannot earn money');
  }
}

/** True where there were seconds, and they are gone. */
export const isOver = ({ secondsLeft }: PurchaseOptions): boolean => secondsLeft !== undefined && secondsLeft() <= 0;

/** What ended a search that was not finished. */
export const stopAt = ({ secondsLeft }: PurchaseOptions): Stop =>
  secondsLeft !== undefined && secondsLeft() <= ABOUT_NOW ? { by: 'time' } : { by: 'work' };

/** An engine's own clock may stop it this many seconds early. */
const ABOUT_NOW = 0.05;

/** What was found, as a proof takes it. */
export function answerOf({ objective, bound, gap, violation, engine, boundBy }: Found): PurchaseFound {
  return { found: true, objective, bound, gap, violation, engine, boundBy };
}

/** Neither an answer nor the search's word that there is none. */
function isLost(verdict: Verdict): boolean {
  return (
    verdict.verdict === 'uncertified' && !verdict.best && !verdict.unfinished && verdict.claim !== 'integer-infeasible'
  );
}

/** Without the rows that only help: where rounding trips an engine, it may be over them. */
function plain({ columns, rows }: LinearProgram, helping: ReadonlySet<Row>): LinearProgram {
  return { columns, rows: rows.filter((row) => !helping.has(row)) };
}

function counting(joint: Joint): Joint['program']['columns'] {
  const bought = new Set(joint.pool.flatMap((_, i) => (joint.most[i]! > 0 ? [boughtColumn(joint, i)] : [])));
  return joint.program.columns.map((column) => ({ ...column, cost: bought.has(column.id) ? 1 : 0 }));
}

function countsOf(joint: Joint, x: Readonly<Record<string, number>>): number[] {
  return joint.pool.map((_, i) => (joint.most[i]! > 0 ? Math.round(x[packColumn(i)]!) : 0));
}
