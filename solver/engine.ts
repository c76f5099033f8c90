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
  /** `spent`: its budget ran out; other scaling would hardly help. */
  | { claim: 'none'; why: string; spent?: boolean };

/** How long an engine may search for integers: nodes of branch and bound, pivots over all of them; and a clock, for linear programs too. */
export interface EngineLimits {
  mostNodes?: number;
  mostPivots?: number;
  timeLimitSeconds?: number;
}

/** A way to solve tables. Engines that do not take integers are never handed a table with integer columns. */
export interface Engine {
  name: string;
  integers: boolean;
  solve(table: Table, limits: EngineLimits): Claim | Promise<Claim>;
}

/** Thrown by an engine whose budget of work ran out. */
export class Spent extends Error {}

/** Asks an engine. Whatever it throws or mumbles becomes the claim of having none. */
export async function ask(engine: Engine, table: Table, limits: EngineLimits): Promise<Claim> {
  try {
    const claim: unknown = await engine.solve(table, limits);
    return wellFormed(claim) ? claim : { claim: 'none', why: 'what it said is no claim' };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { claim: 'none', why, ...(error instanceof Spent ? { spent: true } : {}) };
  }
}

function wellFormed(claim: unknown): claim is Claim {
  if (typeof claim !== 'object' || claim === null || !('claim' in claim)) return false;
  const numbers = (key: string) => {
    const values = (claim as Record<string, unknown>)[key];
    return Array.isArray(values) && values.every((value) => typeof value === 'number');
  };
  switch (claim.claim) {
    case 'optimal':
      return numbers('x') && numbers('y');
    case 'infeasible':
      return numbers('ray');
    case 'unbounded':
      return numbers('x') && numbers('ray');
    case 'integer':
      return numbers('x') && 'bound' in claim && typeof claim.bound === 'number' && !Number.isNaN(claim.bound);
    default:
      return claim.claim === 'integer-infeasible' || (claim.claim === 'none' && 'why' in claim);
  }
}
