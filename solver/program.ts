/** A column (decision variable). `lower` defaults to 0, `upper` to no bound. */
export interface Column {
  id: string;
  cost: number;
  lower?: number;
  upper?: number;
  integer?: boolean;
}

/** A row: lower ≤ Σ terms[columnId] · x ≤ upper. An absent end is open. */
export interface Row {
  id: string;
  lower?: number;
  upper?: number;
  terms: Record<string, number>;
}

/** Minimise Σ cost · x over the rows and the column bounds. Ids are opaque. */
export interface LinearProgram {
  columns: Column[];
  rows: Row[];
}

/** The name of an engine that produced a claim. */
export type EngineName = 'javascript-lp-solver' | 'highs' | (string & {});

/** A certified answer. Multipliers: y[row] ≥ 0 presses on a lower end, ≤ 0 on an upper end. */
export interface Optimal {
  verdict: 'optimal';
  /** Σ cost · x of the answer. */
  objective: number;
  /** No feasible point costs less than this, as far as doubles tell: within its sum's last places it is `objective`. */
  bound: number;
  x: Record<string, number>;
  y: Record<string, number>;
  /** Largest violation of a row, relative to the end that is missed (for an end of 0 to Σ |a · x|), ≤ 1e-6. */
  violation: number;
  /** (objective − bound) / max(|objective|, |bound|, Σ |cost · x|), ≤ 1e-6. */
  gap: number;
  engine: EngineName;
  /**
   * What the bound rests on. `multipliers`: on `y`, by arithmetic. For whole numbers `y` is empty, and it rests on
   * `cases`: arithmetic in each of the cases that branching, or the remainders of a row, leave; or, where those would be too many, on the engine's
   * exhausted `search`, its word for it.
   */
  boundBy: 'multipliers' | 'cases' | 'search';
}

/**
 * No point keeps every row: Σ ray · row proves it (Farkas), checked by arithmetic. Signs as for multipliers: > 0 uses
 * the row's lower end, < 0 its upper end.
 */
export interface Infeasible {
  verdict: 'infeasible';
  ray: Record<string, number>;
  engine: EngineName;
  /** Where only whole numbers do not fit: `ray` is empty, and each case that branching leaves has a ray of its own. */
  cases?: WholeCase[];
  /** Where no whole numbers fit by divisibility: `ray` is empty. */
  divisor?: Divisor;
}

/**
 * Σ weights · row has whole-number columns alone, each entry a multiple of `by`, and no multiple of `by` between its
 * ends. Checked in whole numbers of any length (hence text), on the program's numbers as decimals have them.
 */
export interface Divisor {
  weights: Record<string, string>;
  by: string;
}

/** Column bounds beyond those of the program (a column is ≤ n here, ≥ n + 1 elsewhere), and the ray that holds there. */
export interface WholeCase {
  bounds: Record<string, { lower?: number; upper?: number }>;
  ray: Record<string, number>;
}

/** Cost falls for ever along `ray` (per column) from the feasible point `x`, checked by arithmetic. */
export interface Unbounded {
  verdict: 'unbounded';
  x: Record<string, number>;
  ray: Record<string, number>;
  engine: EngineName;
}

/**
 * No engine's claim survived the certificate: `claim` is what the last engine said, `why` lists each refusal. Also a
 * search for integers that a limit cut short: `best` is its best answer so far, which does keep every row.
 */
export interface Uncertified {
  verdict: 'uncertified';
  claim: string;
  why: string;
  /** A limit of work or time ran out: more of it might settle the question. Absent where engines ended and were refused. */
  unfinished?: true;
  best?: Best;
}

/** An answer that keeps every row; nothing costs less than `bound`, and how far above it the answer is, `gap` says. */
export interface Best {
  objective: number;
  bound: number;
  x: Record<string, number>;
  violation: number;
  gap: number;
  engine: EngineName;
}

/** What a program came to; each but `uncertified` has been checked by arithmetic on the program as it was given. */
export type Verdict = Optimal | Infeasible | Unbounded | Uncertified;
