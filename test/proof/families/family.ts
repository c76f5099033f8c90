import type { Column, LinearProgram, Row } from '../../../solver/index.js';
import type { Dice } from '../../solver/dice.js';

/** A seeded generator of programs that share one difficulty. */
export interface Family {
  name: string;
  make(dice: Dice): LinearProgram;
}

/** A row by the entries of its columns, in the order of the program. */
export type Line = { by: readonly number[]; lower?: number; upper?: number };

/** Columns c0, c1, … and rows r0, r1, …; entries of 0 are left out. */
export function program(columns: readonly Omit<Column, 'id'>[], lines: readonly Line[]): LinearProgram {
  return {
    columns: columns.map((column, j) => ({ id: `c${j}`, ...column })),
    rows: lines.map(({ by, ...ends }, i): Row => {
      const terms = Object.fromEntries(by.flatMap((a, j) => (a === 0 ? [] : [[`c${j}`, a]])));
      return { id: `r${i}`, ...ends, terms };
    }),
  };
}

export function list<T>(length: number, item: (at: number) => T): T[] {
  return Array.from({ length }, (_, at) => item(at));
}

/** 10 to a power between two, so that every size is as likely. */
export function logUniform(d: Dice, low: number, high: number): number {
  return 10 ** d.between(low, high);
}

/** As somebody would write it: so many significant decimal digits. */
export function digits(value: number, significant: number): number {
  return Number(value.toPrecision(significant));
}

export function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, j) => sum + value * b[j]!, 0);
}

export function sign(d: Dice): number {
  return d.chance(0.5) ? 1 : -1;
}

/** A point to build rows around, so that a program has an answer. */
export function point(d: Dice, length: number, most = 10): number[] {
  return list(length, () => (d.chance(0.3) ? 0 : d.between(0, most)));
}

/** Rows around a point: each end may be open, touch the point's value or stand off it. */
export function around(d: Dice, by: readonly number[], x: readonly number[]): Line {
  const value = dot(by, x);
  const room = (Math.abs(value) || 1) * d.between(0, 0.5);
  const style = d.whole(0, 3);
  if (style === 0) return { by, lower: value, upper: value };
  return {
    by,
    ...(style === 1 ? {} : { lower: value - (d.chance(0.3) ? 0 : room) }),
    ...(style === 2 ? {} : { upper: value + (d.chance(0.3) ? 0 : room) }),
  };
}
