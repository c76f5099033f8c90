import type { Bar } from './sheet.js';

/** Where a value stands against its band, in words. `may be` where the labels leave the answer open. */
export type Standing = '' | 'low' | 'high' | 'may be low' | 'may be high';

/** A band and its value laid along a line from 0 (left end) to 1 (right end). Null where there is no band. */
export interface Laid {
  aim: number | null;
  value: number;
  low: number;
  high: number;
  /** False where the band is open on that side. */
  floor: boolean;
  ceiling: boolean;
}

/** Relative slack that still counts as on the edge: the solver's own primal tolerance. */
const EDGE = 1e-6;

/** The word for a value against its band; a value on the edge is inside. */
export function standing(bar: Bar): Standing {
  if (bar.min !== null && below(bar.value, bar.min)) return 'low';
  if (bar.max !== null && below(bar.max, bar.value)) return 'high';
  if (bar.max !== null && below(bar.max, bar.high)) return 'may be high';
  if (bar.min !== null && below(bar.low, bar.min)) return 'may be low';
  return '';
}

/** For a value without a band: how high it may really be, where labels leave open enough to matter; else null. */
export function openTop(bar: Bar): number | null {
  const banded = bar.min !== null || bar.max !== null;
  return !banded && bar.high > bar.value * 1.2 + 0.5 ? bar.high : null;
}

/** Lays a bar along its own band. Open floors start at 0; open ceilings run to twice whatever is largest below them. */
export function lay(bar: Bar): Laid | null {
  if (bar.min === null && bar.max === null) return null;
  const left = bar.min ?? 0;
  const right = bar.max ?? 1.5 * Math.max(bar.value, bar.high, bar.aim ?? 0, 2 * left);
  const width = right - left;
  const place = (x: number): number => (width > 0 ? (x - left) / width : x < left ? -1 : x > right ? 2 : 0.5);
  const clamp = (x: number): number => Math.min(1, Math.max(0, x));
  return {
    aim: bar.aim === null ? null : clamp(place(bar.aim)),
    value: snap(place(bar.value), bar),
    low: clamp(place(bar.low)),
    high: clamp(place(bar.high)),
    floor: bar.min !== null,
    ceiling: bar.max !== null,
  };
}

/** A value on the edge (within the tolerance) is drawn on the edge. */
function snap(place: number, bar: Bar): number {
  const word = standing(bar);
  return word === 'low' || word === 'high' ? place : Math.min(1, Math.max(0, place));
}

function below(a: number, b: number): boolean {
  return a < b - EDGE * Math.max(Math.abs(a), Math.abs(b));
}
