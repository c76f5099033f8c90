import type { Dictionary } from './dictionary.js';

/**
 * Bounds of integer columns become whole; those of rows of integer columns alone become multiples of the greatest common
 * divisor of their entries. `one` is a whole 1 in the dictionary's units; the dictionary is as it was made.
 */
export function roundInwards(t: Dictionary, whole: readonly number[], one: bigint): void {
  const grains = new Map<number, bigint>(whole.map((j) => [j, one]));
  const wholes = new Set(whole);
  t.entries.forEach((row, i) => {
    if (row.every((a, j) => a === 0n || wholes.has(j))) grains.set(t.basic[i]!, row.reduce(gcd, 0n) * one);
  });
  for (const [variable, grain] of grains) {
    if (grain === 0n) continue;
    const [low, high] = [t.lower[variable], t.upper[variable]];
    if (low !== undefined) t.lower[variable] = -floorTo(-low, grain);
    if (high !== undefined) t.upper[variable] = floorTo(high, grain);
  }
  t.refresh();
}

/** Whether the equalities among integer columns alone have no solution in whole numbers, bounds apart (Hermite's form). */
export function noLatticePoint(t: Dictionary, whole: readonly number[], one: bigint): boolean {
  const wholes = new Set(whole);
  const system = t.entries.flatMap((row, i) => {
    const variable = t.basic[i]!;
    const end = t.lower[variable];
    const equality = end !== undefined && end === t.upper[variable];
    return equality && row.every((a, j) => a === 0n || wholes.has(j)) ? [{ row: [...row], end }] : [];
  });
  if (system.some(({ end }) => end % one !== 0n)) return true;
  const solution: bigint[] = [];
  for (const [r, { row, end }] of system.entries()) {
    const pivot = solution.length;
    for (let j = pivot + 1; j < row.length; j += 1) while (row[j] !== 0n) euclid(system.slice(r), pivot, j);
    const rest = end / one - solution.reduce((sum, y, k) => sum + row[k]! * y, 0n);
    const divisor = row[pivot] ?? 0n;
    if (divisor === 0n ? rest !== 0n : rest % divisor !== 0n) return true;
    if (divisor !== 0n) solution.push(rest / divisor);
  }
  return false;
}

/** One step of Euclid's algorithm on two columns, by the entries of the first row. */
function euclid(rows: readonly { row: bigint[] }[], pivot: number, other: number): void {
  const [a, b] = [rows[0]!.row[pivot]!, rows[0]!.row[other]!];
  const quotient = a / b;
  for (const { row } of rows) [row[pivot], row[other]] = [row[other]!, row[pivot]! - quotient * row[other]!];
}

function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

function floorTo(value: bigint, grain: bigint): bigint {
  return value - (((value % grain) + grain) % grain);
}
