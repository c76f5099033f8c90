/** `rows · x ≤ upper`, to be met at the least `costs · x`, costs ≥ 0. */
export interface Vertices {
  rows: readonly Float64Array[];
  upper: Float64Array;
  costs: Float64Array;
}

/** Where the cost is least within bounds, and a cost that nothing within them goes below. */
export interface Vertex {
  x: Float64Array;
  /** By the multipliers of the rows alone (weak duality), so it stands whatever the way there; Infinity where nothing keeps the rows. */
  bound: number;
}

/** A row is violated from here on; rows are scaled to a size of about 1. */
const VIOLATED = 1e-10;
/** Less is no pivot. */
const FLAT = 1e-9;
/** Pivots at most. Where they do not suffice the bound is lower than it could be, and still stands. */
const MOST_PIVOTS = 200;

/**
 * The dual simplex method for a handful of variables: begin at the lower bounds, where costs ≥ 0 are least, and let the most violated row or bound enter
 * for the one whose multiplier reaches 0 first. A hundred times faster here than an engine for large programs, whose start alone takes longer.
 */
export function cheapestVertex({ rows, upper, costs }: Vertices, low: Float64Array, high: Float64Array): Vertex {
  const n = costs.length;
  const m = rows.length;
  // what holds x in place: rows 0 … m−1, lower bounds m … m+n−1, upper bounds from m+n; the columns of the inverse of their normals
  const active = Array.from({ length: n }, (_, v) => m + v);
  const duals = Float64Array.from(costs);
  const x = Float64Array.from(low);
  const inverse = active.map((_, v) => {
    const column = new Float64Array(n);
    column[v] = -1;
    return column;
  });
  const along = (c: number, column: Float64Array): number => {
    if (c >= m + n) return column[c - m - n]!;
    return c >= m ? -column[c - m]! : dot(rows[c]!, column);
  };
  const shares = new Float64Array(n);
  for (let pivots = 0; pivots < MOST_PIVOTS; pivots += 1) {
    let enters = -1;
    let worst = VIOLATED;
    for (let r = 0; r < m; r += 1) {
      const over = dot(rows[r]!, x) - upper[r]!;
      if (over > worst) [enters, worst] = [r, over];
    }
    for (let v = 0; v < n; v += 1) {
      if (x[v]! - high[v]! > worst) [enters, worst] = [m + n + v, x[v]! - high[v]!];
      if (low[v]! - x[v]! > worst) [enters, worst] = [m + v, low[v]! - x[v]!];
    }
    if (enters < 0) break;
    let leaves = -1;
    let step = Number.POSITIVE_INFINITY;
    for (let i = 0; i < n; i += 1) {
      const share = along(enters, inverse[i]!);
      shares[i] = share;
      if (share <= FLAT) continue;
      const ratio = Math.max(0, duals[i]!) / share;
      if (ratio < step || (ratio === step && share > shares[leaves]!)) [leaves, step] = [i, ratio];
    }
    if (leaves < 0) {
      // the row is a sum of what holds x, and is violated: no x at all, if the multipliers say so too
      const none = new Float64Array(m);
      if (enters < m) none[enters] = 1;
      active.forEach((c, i) => {
        if (c < m) none[c] = Math.max(0, -shares[i]!);
      });
      if (leastCost(none, null) > VIOLATED) return { x, bound: Number.POSITIVE_INFINITY };
      break;
    }
    const pivot = inverse[leaves]!;
    const share = shares[leaves]!;
    for (let v = 0; v < n; v += 1) pivot[v] = pivot[v]! / share;
    for (let i = 0; i < n; i += 1) {
      if (i === leaves) continue;
      duals[i] = duals[i]! - step * shares[i]!;
      const [column, part] = [inverse[i]!, shares[i]!];
      if (part !== 0) for (let v = 0; v < n; v += 1) column[v] = column[v]! - part * pivot[v]!;
    }
    duals[leaves] = step;
    active[leaves] = enters;
    for (let v = 0; v < n; v += 1) x[v] = x[v]! - worst * pivot[v]!;
  }
  const multipliers = new Float64Array(m);
  active.forEach((c, i) => {
    if (c < m) multipliers[c] = Math.max(0, duals[i]!);
  });
  return { x, bound: leastCost(multipliers, costs) };

  /** What any x within the bounds costs at least, once rows are weighed by multipliers ≥ 0. */
  function leastCost(y: Float64Array, own: Float64Array | null): number {
    let bound = 0;
    const reduced = own ? Float64Array.from(own) : new Float64Array(n);
    for (let r = 0; r < m; r += 1) {
      if (y[r] === 0) continue;
      bound -= y[r]! * upper[r]!;
      for (let v = 0; v < n; v += 1) reduced[v] = reduced[v]! + y[r]! * rows[r]![v]!;
    }
    for (let v = 0; v < n; v += 1) bound += reduced[v]! * (reduced[v]! >= 0 ? low[v]! : high[v]!);
    return bound;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
