import type { Claim, Engine } from './engine.js';
import type { Table } from './table.js';

/** Costs and rows are scaled to about 1. */
const FEASIBLE = 1e-9;
/** Less is no pivot. */
const FLAT = 1e-9;
/** What rounding leaves of 0, which would fill the dictionary. */
const DUST = 1e-11;
/** Steps that differ by less are the same length; of those the largest pivot is taken. */
const SAME_STEP = 1e-11;

/**
 * The method below as an engine, for programs most of whose columns have both ends: a ceiling is no row to it. It has nothing to say where a
 * column has not the finite end that its cost needs.
 */
export const dual: Engine = { name: 'the bounded dual simplex method', integers: false, solve: leastOf };

function leastOf(table: Table): Claim {
  const told = new Dictionary(table).least(table.lower, table.upper, Number.POSITIVE_INFINITY);
  return told ?? { claim: 'none', why: 'a cost without an end, or no end of pivots' };
}

/** What the dictionary says of a box; nothing in it is checked. */
export type Told = ({ claim: 'optimal'; x: number[]; y: number[] } | { claim: 'infeasible'; ray: number[] }) & {
  /** False where it stopped because enough was proved. */
  done: boolean;
};

/**
 * The bounded dual simplex method (steepest edge; long steps, in which columns whose box is shorter than the step change ends) by the
 * dictionary: basic variables as sums of the others. Variables are the columns, then what each row comes to. A change of bounds leaves the
 * reduced costs as they are, so each box starts where the one before ended. Nothing is believed before it has been checked.
 */
export class Dictionary {
  pivots = 0;
  private readonly n: number;
  private readonly m: number;
  private readonly low: Float64Array;
  private readonly high: Float64Array;
  private readonly value: Float64Array;
  private readonly basic: Int32Array;
  private readonly others: Int32Array;
  /** Row by row, what a basic variable holds of each other. */
  private readonly sums: Float64Array;
  private readonly gains: Float64Array;
  /** Per row, 1 + the square of what it holds: how far out of bounds a variable is counts along its edge. */
  private readonly edge: Float64Array;
  /** Places of the others that the row of a pivot holds. */
  private readonly held: Int32Array;
  private readonly able: Int32Array;
  private readonly step: Float64Array;

  constructor(table: Table) {
    const n = table.cost.length;
    const m = table.rows.length;
    [this.n, this.m] = [n, m];
    this.low = Float64Array.from([...table.lower, ...table.rows.map((row) => row.lower)]);
    this.high = Float64Array.from([...table.upper, ...table.rows.map((row) => row.upper)]);
    this.value = new Float64Array(n + m);
    this.basic = Int32Array.from({ length: m }, (_, i) => n + i);
    this.others = Int32Array.from({ length: n }, (_, j) => j);
    this.gains = Float64Array.from(table.cost);
    this.sums = new Float64Array(n * m);
    this.edge = new Float64Array(m).fill(1);
    this.held = new Int32Array(n);
    this.able = new Int32Array(n);
    this.step = new Float64Array(n);
    table.rows.forEach(({ at, by }, i) => {
      at.forEach((j, k) => {
        this.sums[i * n + j]! += by[k]!;
        this.edge[i]! += by[k]! ** 2;
      });
    });
  }

  /** The least cost within column bounds, multipliers that prove `enough`, or a ray; null where it comes to no end. */
  least(lower: readonly number[], upper: readonly number[], enough: number): Told | null {
    const { n, m, low, high } = this;
    low.set(lower);
    high.set(upper);
    if (!this.place()) return null;
    const most = this.pivots + 100 + 4 * (n + m);
    while (this.pivots < most) {
      const i = this.leaving();
      if (i < 0 || this.cost() > enough) {
        return { claim: 'optimal', x: [...this.value.subarray(0, n)], y: this.multipliers(), done: i < 0 };
      }
      const k = this.entering(i);
      if (k < 0) return { claim: 'infeasible', ray: this.ray(i), done: true };
      this.exchange(i, k);
      this.pivots += 1;
    }
    return null;
  }

  /** Puts every variable outside the basis onto the end that its reduced cost wants; false where there is none. */
  private place(): boolean {
    const { n, m, low, high, value, others, gains, basic, sums } = this;
    for (let k = 0; k < n; k += 1) {
      const v = others[k]!;
      const wantsHigh = gains[k]! < 0 || (gains[k] === 0 && value[v]! >= high[v]!);
      const [end, other] = wantsHigh ? [high[v]!, low[v]!] : [low[v]!, high[v]!];
      value[v] = Number.isFinite(end) ? end : Number.isFinite(other) ? other : 0;
      if (!Number.isFinite(end) && Math.abs(gains[k]!) > FLAT) return false;
    }
    for (let i = 0; i < m; i += 1) {
      let total = 0;
      for (let k = 0, at = i * n; k < n; k += 1, at += 1) total += sums[at]! * value[others[k]!]!;
      value[basic[i]!] = total;
    }
    return true;
  }

  private cost(): number {
    const { n, value, others, gains } = this;
    let total = 0;
    for (let k = 0; k < n; k += 1) if (gains[k] !== 0) total += gains[k]! * value[others[k]!]!;
    return total;
  }

  /** The row of the basic variable that is farthest outside its bounds; −1 where none is. */
  private leaving(): number {
    const { m, low, high, value, basic, edge } = this;
    let at = -1;
    let farthest = 0;
    for (let i = 0; i < m; i += 1) {
      const v = basic[i]!;
      const here = value[v]!;
      const out = here < low[v]! ? low[v]! - here : here - high[v]!;
      if (out <= FEASIBLE || out <= FEASIBLE * (1 + Math.abs(here))) continue;
      const far = (out * out) / edge[i]!;
      if (far > farthest) [at, farthest] = [i, far];
    }
    return at;
  }

  /** The variable that takes its place, after those it passes have changed ends; −1 where all together do not bring it back. */
  private entering(i: number): number {
    const { n, low, high, value, basic, others, gains, sums, able, step } = this;
    const row = i * n;
    const b = basic[i]!;
    const sign = value[b]! < low[b]! ? 1 : -1;
    let left = sign > 0 ? low[b]! - value[b]! : value[b]! - high[b]!;
    let count = 0;
    for (let k = 0; k < n; k += 1) {
      const slope = sign * sums[row + k]!;
      if (slope < FLAT && slope > -FLAT) continue;
      const v = others[k]!;
      if (low[v] === high[v] || (slope > 0 ? value[v]! >= high[v]! : value[v]! <= low[v]!)) continue;
      step[k] = Math.abs(gains[k]! / slope);
      able[count++] = k;
    }
    for (; count > 0; count -= 1) {
      let best = 0;
      for (let at = 1; at < count; at += 1) {
        const apart = step[able[at]!]! - step[able[best]!]!;
        const isSame = apart <= SAME_STEP && apart >= -SAME_STEP;
        if (isSame ? Math.abs(sums[row + able[at]!]!) > Math.abs(sums[row + able[best]!]!) : apart < 0) best = at;
      }
      const k = able[best]!;
      const v = others[k]!;
      const room = Math.abs(sums[row + k]!) * (high[v]! - low[v]!);
      if (left <= room + FEASIBLE) return k;
      left -= room;
      this.shift(k, (value[v]! >= high[v]! ? low[v]! : high[v]!) - value[v]!);
      able[best] = able[count - 1]!;
    }
    return -1;
  }

  /** Moves a variable outside the basis, and the basic ones with it. */
  private shift(k: number, by: number): void {
    const { n, m, value, basic, others, sums } = this;
    value[others[k]!]! += by;
    for (let r = 0, at = k; r < m; r += 1, at += n) if (sums[at] !== 0) value[basic[r]!]! += sums[at]! * by;
  }

  private exchange(i: number, k: number): void {
    const { n, m, low, high, value, basic, others, gains, sums, edge, held } = this;
    const b = basic[i]!;
    const row = i * n;
    const pivot = sums[row + k]!;
    const end = value[b]! < low[b]! ? low[b]! : high[b]!;
    this.shift(k, (end - value[b]!) / pivot);
    value[b] = end;
    let count = 0;
    let size = 1;
    for (let j = 0; j < n; j += 1) {
      if (sums[row + j] === 0) continue;
      const now = j === k ? 1 / pivot : -sums[row + j]! / pivot;
      sums[row + j] = now;
      size += now * now;
      held[count++] = j;
    }
    edge[i] = size;
    for (let r = 0, other = 0; r < m; r += 1, other += n) {
      const by = sums[other + k]!;
      if (by === 0 || r === i) continue;
      sums[other + k] = 0;
      let grown = -by * by;
      for (let h = 0; h < count; h += 1) {
        const at = other + held[h]!;
        const old = sums[at]!;
        const now = old + by * sums[row + held[h]!]!;
        if (now < DUST && now > -DUST) {
          sums[at] = 0;
          grown -= old * old;
          continue;
        }
        sums[at] = now;
        grown += (now - old) * (now + old);
      }
      edge[r] = Math.max(1, edge[r]! + grown);
    }
    const by = gains[k]!;
    gains[k] = 0;
    if (by !== 0) for (let h = 0; h < count; h += 1) gains[held[h]!]! += by * sums[row + held[h]!]!;
    basic[i] = others[k]!;
    others[k] = b;
  }

  private multipliers(): number[] {
    const { n, m, others, gains } = this;
    const y = new Array<number>(m).fill(0);
    for (let k = 0; k < n; k += 1) if (others[k]! >= n) y[others[k]! - n] = gains[k]!;
    return y;
  }

  /** What the basic variable of a row is in terms of the others shows that it cannot come back. */
  private ray(i: number): number[] {
    const { n, m, low, value, basic, others, sums } = this;
    const b = basic[i]!;
    const sign = value[b]! < low[b]! ? 1 : -1;
    const ray = new Array<number>(m).fill(0);
    if (b >= n) ray[b - n] = sign;
    for (let k = 0; k < n; k += 1) if (others[k]! >= n) ray[others[k]! - n] = -sign * sums[i * n + k]!;
    return ray;
  }
}
