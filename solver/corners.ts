import type { Table } from './table.js';

/** A corner of a region and the multipliers of its rows; `alone`: no point that is as good differs from it in a form that is read. */
export interface Corner {
  x: number[];
  y: number[];
  alone: boolean;
}

/** A sum over columns, a coefficient for each. */
export type Form = readonly number[];

/** A step towards a cost must gain this much per unit; what gains less is as good as it was. Costs and rows are scaled to about 1. */
const GAIN = 1e-9;
/** Up to here another corner may be as good, as rounding goes. */
const TIE = 1e-7;
const FEASIBLE = 1e-9;
/** Less is no pivot. */
const FLAT = 1e-9;

/**
 * The bounded primal simplex method (Dantzig; largest gain, by the dictionary) for some dozen columns and rows, from corner to corner of one region: the
 * first cost pays for the way to the region, each later one only for the way from the corner before. Every column needs a finite
 * lower bound. Null where it finds none; nothing is believed before the certificate has checked it.
 * @param forms what is read of a point; every column by default
 */
export function corners(table: Table, forms?: readonly Form[]): (cost: readonly number[]) => Corner | null {
  const n = table.cost.length;
  const m = table.rows.length;
  // variables: the columns, then what each row comes to; basic ones are sums of the others, row by row
  const low = [...table.lower, ...table.rows.map((row) => row.lower)];
  const high = [...table.upper, ...table.rows.map((row) => row.upper)];
  const basic = Array.from({ length: m }, (_, i) => n + i);
  const others = Array.from({ length: n }, (_, j) => j);
  const sums = table.rows.map(({ at, by }) => {
    // a plain array: some thousand small typed ones, which lie outside the heap, are given back late
    const sum = new Array<number>(n).fill(0);
    at.forEach((j, k) => {
      sum[j]! += by[k]!;
    });
    return sum;
  });
  const value = [...table.lower, ...new Array<number>(m).fill(0)];
  const gains = new Array<number>(n).fill(0);
  const most = 50 + 10 * (n + m);

  const settle = (): void => {
    for (let i = 0; i < m; i += 1) {
      const sum = sums[i]!;
      let total = 0;
      for (let k = 0; k < n; k += 1) total += sum[k]! * value[others[k]!]!;
      value[basic[i]!] = total;
    }
  };

  /** Which way a basic variable is out of its bounds: −1 below, 1 above. */
  const outside = (v: number): number => {
    const slack = FEASIBLE * (1 + Math.abs(value[v]!));
    return value[v]! < low[v]! - slack ? -1 : value[v]! > high[v]! + slack ? 1 : 0;
  };

  /** Per unit of every other variable: what the cost, or with none what all that is out of bounds together, rises by. */
  const weigh = (cost: readonly number[] | null): boolean => {
    let out = false;
    for (let k = 0; k < n; k += 1) gains[k] = cost && others[k]! < n ? cost[others[k]!]! : 0;
    for (let i = 0; i < m; i += 1) {
      const v = basic[i]!;
      const weight = cost ? (v < n ? cost[v]! : 0) : outside(v);
      if (weight === 0) continue;
      out = true;
      const sum = sums[i]!;
      for (let k = 0; k < n; k += 1) gains[k]! += weight * sum[k]!;
    }
    return out;
  };

  /** The variable that gains most by leaving its bound; −1 for none. */
  const entering = (): number => {
    let best = -1;
    let gain = GAIN;
    for (let k = 0; k < n; k += 1) {
      const v = others[k]!;
      if (low[v] === high[v]) continue;
      const up = value[v] === low[v];
      const own = up ? -gains[k]! : gains[k]!;
      if (own > gain) [best, gain] = [k, own];
    }
    return best;
  };

  /** Moves the variable as far as its own bounds and the basic ones let it; false where nothing stops it. */
  const move = (k: number): boolean => {
    const v = others[k]!;
    const up = value[v] === low[v];
    let far = high[v]! - low[v]!;
    let leaves = -1;
    let steepest = 0;
    for (let i = 0; i < m; i += 1) {
      const slope = up ? sums[i]![k]! : -sums[i]![k]!;
      if (Math.abs(slope) < FLAT) continue;
      const b = basic[i]!;
      const out = outside(b);
      // what is out of bounds stops at the bound it comes back to
      const stop = slope > 0 ? (out < 0 ? low[b]! : high[b]!) : out > 0 ? high[b]! : low[b]!;
      if ((slope > 0 ? out > 0 : out < 0) || !Number.isFinite(stop)) continue;
      const reach = Math.max(0, (stop - value[b]!) / slope);
      if (reach < far || (reach === far && Math.abs(slope) > steepest)) {
        [far, leaves, steepest] = [reach, i, Math.abs(slope)];
      }
    }
    if (!Number.isFinite(far)) return false;
    if (leaves < 0) value[v] = up ? high[v]! : low[v]!;
    else {
      const b = basic[leaves]!;
      const slope = up ? sums[leaves]![k]! : -sums[leaves]![k]!;
      const out = outside(b);
      value[b] = slope > 0 ? (out < 0 ? low[b]! : high[b]!) : out > 0 ? high[b]! : low[b]!;
      exchange(leaves, k);
    }
    settle();
    return true;
  };

  const exchange = (i: number, k: number): void => {
    const row = sums[i]!;
    const pivot = row[k]!;
    for (let j = 0; j < n; j += 1) row[j] = -row[j]! / pivot;
    row[k] = 1 / pivot;
    for (let r = 0; r < m; r += 1) {
      if (r === i) continue;
      const other = sums[r]!;
      const by = other[k]!;
      if (by === 0) continue;
      other[k] = 0;
      for (let j = 0; j < n; j += 1) other[j]! += by * row[j]!;
    }
    [basic[i], others[k]] = [others[k]!, basic[i]!];
  };

  const go = (cost: readonly number[] | null): boolean => {
    for (let pivots = 0; pivots < most; pivots += 1) {
      const left = weigh(cost);
      if (!cost && !left) return true;
      const k = entering();
      if (k < 0) return cost !== null;
      if (!move(k)) return false;
    }
    return false;
  };

  /** Whether moving the variable, which costs nothing, moves a form that is read. */
  const felt = (k: number): boolean => {
    if (!forms) return others[k]! < n || sums.some((sum, i) => basic[i]! < n && Math.abs(sum[k]!) > FLAT);
    return forms.some((form) => {
      let moved = others[k]! < n ? form[others[k]!]! : 0;
      let size = Math.abs(moved);
      for (let i = 0; i < m; i += 1) {
        if (basic[i]! >= n) continue;
        const term = form[basic[i]!]! * sums[i]![k]!;
        moved += term;
        size += Math.abs(term);
      }
      return Math.abs(moved) > FLAT * size;
    });
  };

  settle();
  return (cost) => {
    if (!go(null) || !go(cost)) return null;
    const y = new Array<number>(m).fill(0);
    let alone = true;
    for (let k = 0; k < n; k += 1) {
      const v = others[k]!;
      if (v >= n) y[v - n] = gains[k]!;
      if (low[v] !== high[v] && Math.abs(gains[k]!) <= TIE && felt(k)) alone = false;
    }
    return { x: value.slice(0, n), y, alone };
  };
}
