import type { Table } from './table.js';

/**
 * A proof that no whole numbers fit, whatever the bounds: every entry of Σ weight · row is a multiple of `by`, and no
 * multiple of `by` lies between its ends. Weights by position.
 */
export interface Divided {
  weights: bigint[];
  by: bigint;
}

/** A row of integer columns alone, its numbers as they are written in decimals, all times `times` to make them whole. */
export interface WholeRow {
  row: number;
  times: bigint;
  entries: Map<number, bigint>;
  lower?: bigint;
  upper?: bigint;
}

/** Decimals of a number at most; finer ones are not what anyone wrote. */
const MOST_DECIMALS = 15;
/** Whole rows and columns at most: the elimination's numbers grow with each. */
const MOST = 30;

/** A proof by the greatest common divisor of a row, or of a sum of equalities; undefined where there is none. */
export function byDivisor(table: Table): Divided | undefined {
  if (!table.integer.some(Boolean)) return undefined;
  const rows = table.rows.flatMap((_, i) => wholeRow(table, i) ?? []);
  for (const row of rows) {
    const by = [...row.entries.values()].reduce(gcd, 0n);
    const found = { weights: table.rows.map((_, i) => (i === row.row ? row.times : 0n)), by };
    if (by > 0n && isProof(table, found)) return found;
  }
  const equalities = rows.filter(({ lower, upper }) => lower !== undefined && lower === upper);
  const found = equalities.length > 1 && equalities.length <= MOST ? bySum(table, equalities) : undefined;
  return found && isProof(table, found) ? found : undefined;
}

/** Checks a proof in whole numbers of any length, against the numbers of the program as written in decimals. */
export function isProof(table: Table, { weights, by }: Divided): boolean {
  if (by <= 0n || weights.length !== table.rows.length) return false;
  const sums = new Map<number, bigint>();
  let lower: bigint | undefined = 0n;
  let upper: bigint | undefined = 0n;
  for (const [i, weight] of weights.entries()) {
    if (weight === 0n) continue;
    const row = wholeRow(table, i);
    if (!row || weight % row.times !== 0n) return false;
    const share = weight / row.times;
    for (const [j, entry] of row.entries) sums.set(j, (sums.get(j) ?? 0n) + share * entry);
    const [low, high] = share > 0n ? [row.lower, row.upper] : [row.upper, row.lower];
    lower = lower === undefined || low === undefined ? undefined : lower + share * low;
    upper = upper === undefined || high === undefined ? undefined : upper + share * high;
  }
  if (lower === undefined || upper === undefined) return false;
  if ([...sums.values()].some((sum) => sum % by !== 0n)) return false;
  const above = ((-lower % by) + by) % by;
  return lower + above > upper;
}

/**
 * Column operations bring the equalities to a lower triangle L (Hermite's form); forward substitution in L gives the
 * one candidate, and its first part that is not whole gives the weights: the row of L⁻¹ that made it (van der Waerden).
 */
function bySum(table: Table, equalities: readonly WholeRow[]): Divided | undefined {
  const columns = [...new Set(equalities.flatMap(({ entries }) => [...entries.keys()]))];
  if (columns.length > MOST) return undefined;
  const triangle: bigint[][] = [];
  const used: WholeRow[] = [];
  const system = equalities.map((row) => columns.map((j) => row.entries.get(j) ?? 0n));
  for (const [r, row] of system.entries()) {
    const pivot = used.length;
    for (let j = pivot + 1; j < columns.length; j += 1) while (row[j] !== 0n) euclid(system.slice(r), pivot, j);
    // a row that depends on those before says nothing new, or contradicts them in parts too
    if (!row[pivot]) continue;
    triangle.push(row);
    used.push(equalities[r]!);
    const { shares, by } = lastOfInverse(triangle);
    const rest = shares.reduce((sum, share, k) => sum + share * used[k]!.lower!, 0n);
    if (rest % by === 0n) continue;
    const weights = table.rows.map(() => 0n);
    shares.forEach((share, k) => {
      weights[used[k]!.row] = share * used[k]!.times;
    });
    return { weights, by };
  }
  return undefined;
}

/** The last row of the inverse of a lower triangle, as whole shares over one divisor. */
function lastOfInverse(triangle: readonly bigint[][]): { shares: bigint[]; by: bigint } {
  const last = triangle.length - 1;
  const shares = triangle.map(() => 0n);
  let by = abs(triangle[last]![last]!);
  shares[last] = triangle[last]![last]! < 0n ? -1n : 1n;
  for (let k = last - 1; k >= 0; k -= 1) {
    const diagonal = triangle[k]![k]!;
    let rest = 0n;
    for (let i = k + 1; i <= last; i += 1) rest -= shares[i]! * triangle[i]![k]!;
    const common = gcd(rest, diagonal);
    if (common === 0n) continue;
    const grow = abs(diagonal / common);
    for (let i = k + 1; i <= last; i += 1) shares[i] = shares[i]! * grow;
    by *= grow;
    shares[k] = (rest * grow) / diagonal;
  }
  return { shares, by };
}

/** One step of Euclid's algorithm on two columns, by the entries of the first row. */
function euclid(rows: readonly bigint[][], pivot: number, other: number): void {
  const quotient = rows[0]![pivot]! / rows[0]![other]!;
  for (const row of rows) [row[pivot], row[other]] = [row[other]!, row[pivot]! - quotient * row[other]!];
}

export function wholeRow(table: Table, i: number): WholeRow | undefined {
  const { at, by, lower, upper } = table.rows[i]!;
  if (at.length === 0 || at.some((j) => !table.integer[j])) return undefined;
  const ends = [lower, upper].filter(Number.isFinite);
  const places = Math.max(...[...by, ...ends].map(decimals));
  if (ends.length === 0 || places > MOST_DECIMALS) return undefined;
  return {
    row: i,
    times: 10n ** BigInt(places),
    entries: new Map(at.map((j, k) => [j, whole(by[k]!, places)])),
    ...(Number.isFinite(lower) ? { lower: whole(lower, places) } : {}),
    ...(Number.isFinite(upper) ? { upper: whole(upper, places) } : {}),
  };
}

/** How many decimals the shortest text of a number has. */
function decimals(value: number): number {
  const [digits, exponent] = value.toExponential().split('e') as [string, string];
  return Math.max(0, (digits.split('.')[1]?.length ?? 0) - Number(exponent));
}

/** value · 10^places, exactly; `places` is at least its decimals. */
function whole(value: number, places: number): bigint {
  const [digits, exponent] = value.toExponential().split('e') as [string, string];
  const [head, tail = ''] = digits.split('.') as [string, string?];
  return BigInt(head + tail) * 10n ** BigInt(places - tail.length + Number(exponent));
}

export function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [abs(a), abs(b)];
  while (y !== 0n) [x, y] = [y, x % y];
  return x;
}

function abs(value: bigint): bigint {
  return value < 0n ? -value : value;
}
