import { cos, log } from '../units/elementary.js';
/** Inverse and log-determinant of a small symmetric positive matrix, by Gauss and Jordan; the readings of one can are a handful. */
export function inverse(matrix: readonly (readonly number[])[]): { inverse: number[][]; logDeterminant: number } {
  const n = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, k) => (i === k ? 1 : 0))]);
  let logDeterminant = 0;
  for (let pivot = 0; pivot < n; pivot += 1) {
    const at = work[pivot]!;
    const size = at[pivot]!;
    logDeterminant += log(size);
    for (let k = 0; k < 2 * n; k += 1) at[k] = at[k]! / size;
    for (let i = 0; i < n; i += 1) {
      if (i === pivot) continue;
      const row = work[i]!;
      const factor = row[pivot]!;
      if (factor !== 0) for (let k = 0; k < 2 * n; k += 1) row[k] = row[k]! - factor * at[k]!;
    }
  }
  return { inverse: work.map((row) => row.slice(n)), logDeterminant };
}

/** A seeded generator of numbers from 0 to 1 (mulberry32) and of normal deviates (Box and Muller): the same input gives the same answer. */
export function seeded(seed: number): { uniform: () => number; normal: () => number } {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * log(1 - uniform())) * cos(2 * Math.PI * uniform());
  return { uniform, normal };
}
