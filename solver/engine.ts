import type { Table } from './table.js';

/**
 * What an engine says. Nothing in it is believed before the certificate has checked it; arrays are by position, in the
 * table's order. `y` and an infeasibility `ray` are per row: > 0 uses the lower end, < 0 the upper end.
 */
export type Claim =
  | { claim: 'optimal'; x: number[]; y: number[] }
  | { claim: 'infeasible'; ray: number[] }
  | { claim: 'unbounded'; x: number[]; ray: number[] }
  | { claim: 'integer'; x: number[]; bound: number; ended: boolean }
  | { claim: 'integer-infeasible' }
  | { claim: 'none'; why: string };

/** How long an engine may search for integers. */
export interface EngineLimits {
  timeLimitSeconds?: number;
}

/** A way to solve tables. Engines that do not take integers are never handed a table with integer columns. */
export interface Engine {
  name: string;
  integers: boolean;
  solve(table: Table, limits: EngineLimits): Claim | Promise<Claim>;
}
