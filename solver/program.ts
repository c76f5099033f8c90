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
  /** No feasible point costs less than this. */
  bound: number;
  x: Record<string, number>;
  y: Record<string, number>;
  /** Largest relative violation of a row or bound, ≤ 1e-6. */
  violation: number;
  /** (objective − bound) relative to their size, ≤ 1e-6. */
  gap: number;
  engine: EngineName;
}

/** No point keeps every row: Σ ray · row proves it (Farkas), checked by arithmetic. */
export interface Infeasible {
  verdict: 'infeasible';
  ray: Record<string, number>;
  engine: EngineName;
}

/** Cost falls for ever along `ray` (per column), checked by arithmetic. */
export interface Unbounded {
  verdict: 'unbounded';
  ray: Record<string, number>;
  engine: EngineName;
}

/** No engine's claim survived the certificate. */
export interface Uncertified {
  verdict: 'uncertified';
  claim: string;
  why: string;
}

export type Verdict = Optimal | Infeasible | Unbounded | Uncertified;
