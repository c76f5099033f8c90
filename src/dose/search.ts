/** The measures open to one item, by amount. */
export interface Choices {
  wanted: number;
  amounts: readonly number[];
  /** The least and most that each may deliver; the same as `amounts` where no margin is asked for. */
  lows: readonly number[];
  highs: readonly number[];
  /** What each costs: lower is better. */
  costs: readonly number[];
}

/** Σ terms[i] · amount of item i ≤ upper, at the worst of each amount's range; `size` is what a miss is counted in. */
export interface UpperRow {
  terms: readonly number[];
  upper: number;
  size: number;
}

export interface SearchOptions {
  /** A miss of so many sizes is allowed in each row. */
  slack?: number;
  /** A last look at a whole choice that keeps the rows: the index of each item's measure. */
  accept?: (picks: readonly number[]) => boolean;
  /** The first choice that holds will do. */
  first?: boolean;
  /** Nodes of the search at most, over all rounds. */
  mostNodes?: number;
}

export interface Found {
  /** Index of the chosen measure of each item; null where none holds (or none was found, see `complete`). */
  picks: number[] | null;
  cost: number;
  nodes: number;
  /** True where every combination was tried or passed over for a reason. */
  complete: boolean;
}

/** A row counts as kept within this share of its size: half of what a mix is judged by, so that the two never disagree. */
export const DUST = 5e-7;
/** So many open measures are enough to know that an item is not the tightest. */
const MANY = 24;

/**
 * One measure for each item so that every row holds, at the least total cost. Exact where `complete`. A plain search comes first; where
 * that gets lost among choices that nearly hold, only those within a budget of cost are looked at, and the budget grows until one holds.
 */
export function searchDoses(items: readonly Choices[], rows: readonly UpperRow[], options: SearchOptions = {}): Found {
  const mostNodes = options.mostNodes ?? 200_000;
  const plain = depthFirst(items, rows, options, Number.POSITIVE_INFINITY, Math.min(FIRST_LOOK, mostNodes));
  if (plain.complete || (plain.picks && options.first)) return plain;
  let { nodes } = plain;
  const most = items.reduce((sum, item) => sum + Math.max(...item.costs), 0);
  let budget = items.reduce((sum, item) => sum + Math.min(...item.costs), 0) + FIRST_BUDGET * items.length;
  for (; nodes < mostNodes; budget *= GROWTH) {
    const within = Math.min(budget, plain.cost);
    const found = depthFirst(items, rows, options, within, mostNodes - nodes);
    nodes += found.nodes;
    if (!found.complete) return { ...(found.picks ? found : plain), nodes, complete: false };
    if (found.picks) return { ...found, nodes };
    if (within >= plain.cost) return { ...plain, nodes, complete: true };
    if (within > most) return { ...found, nodes };
  }
  return { ...plain, nodes, complete: false };
}

const FIRST_LOOK = 4000;
/** Relative deviation per item of the first budget, and how it grows. */
const FIRST_BUDGET = 0.01;
const GROWTH = 1.5;

/**
 * Depth first, the tightest item next, its nearest measures first, and back as soon as a row cannot hold any more or the best so far (or
 * the budget) cannot be beaten.
 */
function depthFirst(
  items: readonly Choices[],
  rows: readonly UpperRow[],
  { slack = 0, accept, first = false }: SearchOptions,
  budget: number,
  mostNodes: number,
): Found {
  const n = items.length;
  const caps = rows.map((row) => row.upper + (slack + DUST) * row.size);
  const orders = items.map((item) => byCost(item));
  const least = items.map((item, i) => rows.map((row) => leastPart(item, row.terms[i]!)));
  const room = caps.map((cap, r) => cap - least.reduce((sum, parts) => sum + parts[r]!, 0));
  const picks: number[] = new Array(n).fill(-1);
  let best: number[] | null = null;
  let bestCost = budget;
  let nodes = 0;
  let complete = true;

  /** The range that the rows leave to an item, when all others still open take the least of each row. */
  const limitsOf = (i: number): { low: number; high: number } => {
    let low = Number.NEGATIVE_INFINITY;
    let high = Number.POSITIVE_INFINITY;
    for (let r = 0; r < rows.length; r += 1) {
      const term = rows[r]!.terms[i]!;
      if (term === 0) continue;
      const limit = (room[r]! + least[i]![r]!) / term;
      if (term > 0) high = Math.min(high, limit);
      else low = Math.max(low, limit);
    }
    return { low, high };
  };

  const descend = (depth: number, cost: number): boolean => {
    nodes += 1;
    if (nodes > mostNodes) {
      complete = false;
      return true;
    }
    if (depth === n) {
      if (accept && !accept(picks)) return false;
      best = [...picks];
      bestCost = cost;
      return first;
    }
    let tightest = -1;
    let fewest = Number.POSITIVE_INFINITY;
    let cheapest = 0;
    let total = cost;
    let limits = { low: 0, high: 0 };
    for (let i = 0; i < n; i += 1) {
      if (picks[i]! >= 0) continue;
      const own = limitsOf(i);
      const item = items[i]!;
      let open = 0;
      let nearest = 0;
      for (const k of orders[i]!) {
        if (item.highs[k]! > own.high || item.lows[k]! < own.low) continue;
        if (open === 0) nearest = item.costs[k]!;
        open += 1;
        if (open >= MANY) break;
      }
      if (open === 0) return false;
      total += nearest;
      if (total >= bestCost) return false;
      if (open < fewest || (open === fewest && nearest > cheapest)) {
        [tightest, fewest, cheapest, limits] = [i, open, nearest, own];
      }
    }
    const item = items[tightest]!;
    for (const k of orders[tightest]!) {
      if (item.highs[k]! > limits.high || item.lows[k]! < limits.low) continue;
      if (total - cheapest + item.costs[k]! >= bestCost) break;
      picks[tightest] = k;
      take(tightest, k, 1);
      const stop = descend(depth + 1, cost + item.costs[k]!);
      take(tightest, k, -1);
      picks[tightest] = -1;
      if (stop) return true;
    }
    return false;
  };

  const take = (i: number, k: number, sign: 1 | -1): void => {
    const item = items[i]!;
    for (let r = 0; r < rows.length; r += 1) {
      const term = rows[r]!.terms[i]!;
      if (term === 0) continue;
      room[r]! -= sign * (term * (term > 0 ? item.highs[k]! : item.lows[k]!) - least[i]![r]!);
    }
  };

  if (room.every((left) => left >= 0)) descend(0, 0);
  return { picks: best, cost: best ? bestCost : Number.POSITIVE_INFINITY, nodes, complete };
}

const byCost = (item: Choices): number[] =>
  item.costs.map((_, k) => k).sort((a, b) => item.costs[a]! - item.costs[b]! || a - b);

/** The least that an item can add to a row. */
function leastPart(item: Choices, term: number): number {
  if (term === 0) return 0;
  const ends = term > 0 ? item.highs : item.lows;
  let least = Number.POSITIVE_INFINITY;
  for (const end of ends) least = Math.min(least, term * end);
  return least;
}
