import { type Item, rowViolation, type UpperRow } from './items.js';
import { type Box, relaxed, type Relaxation } from './relaxed.js';
import { cheapestVertex } from './vertex.js';

export interface SearchOptions {
  /** The least violation first, then (faintly) the least cost; default: the least cost within `allowed`. */
  leastViolation?: boolean;
  /** A violation of so many sizes is allowed in each row that is not firm; default 0. */
  allowed?: number;
  /** The violation by a whole choice of what rows cannot say, in sizes too. Infinity refuses it. */
  violationOf?: (picks: readonly number[]) => number;
  /** Boxes looked at, at most. */
  mostNodes?: number;
}

export interface Found {
  /** Index of the level of each item; null where none holds (or none was found, see `complete`). */
  picks: number[] | null;
  /** Σ costs of the picks; Infinity without any. */
  cost: number;
  /** The largest violation, in sizes; Infinity without picks. */
  violation: number;
  nodes: number;
  /** True where every combination was tried, or passed over because it could not win; only then is the answer the best, or none. */
  complete: boolean;
}

/** Costs this near are even. */
const EVEN = 1e-9;
/** Where the least violation is sought, a hundredth of it is left unsought, and costs decide between equals only. */
const HUNDREDTH = 0.01;
const FAINT = 1e-6;
/** All costs together weigh no more than this of a row's size, however small the targets. */
const FAINT_IN_ALL = 1e-5;
/** Someone waits for the answer: some tenths of a second. The hardest of 400 seeded programs took 1200. */
const MOST_NODES = 10_000;

/** A box of choices with what its relaxation says. */
interface Node extends Relaxation {
  box: Box;
}

/**
 * One level for each item so that every row holds, at the least total cost. Branch and bound: all choices are a box; a linear program
 * in its place, with amounts between the levels open too, says what nothing in it can go below. A box that cannot beat the best so
 * far, or holds nothing, is passed over; others are cut in two where the linear program stands between two levels.
 */
export function searchLevels(items: readonly Item[], rows: readonly UpperRow[], options: SearchOptions = {}): Found {
  const { leastViolation = false, allowed = 0, violationOf, mostNodes = MOST_NODES } = options;
  const farthest = items.reduce((sum, { costs }) => sum + Math.max(...costs), 0);
  const faint = Math.min(FAINT, FAINT_IN_ALL / farthest);
  const relaxation = relaxed(items, rows, leastViolation ? { faint } : { allowed });
  const seen = new Map<string, number>();
  let best: Found = {
    picks: null,
    cost: Number.POSITIVE_INFINITY,
    violation: Number.POSITIVE_INFINITY,
    nodes: 0,
    complete: true,
  };
  let bestPrice = Number.POSITIVE_INFINITY;
  let nodes = 0;
  let complete = true;

  const worth = ({ bound }: Relaxation): boolean =>
    bestPrice === Number.POSITIVE_INFINITY
      ? bound < bestPrice
      : bound < bestPrice - (leastViolation ? Math.max(EVEN, HUNDREDTH * bestPrice) : EVEN);

  const open = (box: Box): Node => {
    nodes += 1;
    relaxation.restrict(box, bestPrice);
    return { box, ...relaxation.read(box, cheapestVertex(relaxation.vertices, relaxation.low, relaxation.high)) };
  };

  const consider = (picks: number[]): void => {
    const ofRows = largestViolation(items, rows, picks);
    if (ofRows > (leastViolation ? bestPrice : allowed)) return;
    const cost = picks.reduce((sum, k, i) => sum + items[i]!.costs[k]!, 0);
    const price = (violation: number): number => (leastViolation ? violation + faint * cost : cost);
    if (price(ofRows) >= bestPrice) return;
    const whole = Math.max(ofRows, violationOf ? told(picks, violationOf) : 0);
    if (whole > (leastViolation ? Number.MAX_VALUE : allowed) || price(whole) >= bestPrice) return;
    bestPrice = price(whole);
    best = { ...best, picks, cost, violation: whole };
  };

  /** A rounding is met in many boxes; what rows do not tell is asked of it once. */
  const told = (picks: number[], ask: (picks: readonly number[]) => number): number => {
    const key = picks.join();
    const known = seen.get(key) ?? ask(picks);
    seen.set(key, known);
    return known;
  };

  const visit = (node: Node): void => {
    if (!worth(node)) return;
    if (nodes >= mostNodes) {
      complete = false;
      return;
    }
    consider(node.nearest);
    if (!worth(node)) return;
    for (const part of parts(node)
      .map(open)
      .sort((a, b) => a.bound - b.bound))
      visit(part);
  };

  visit(open(items.map(({ levels }): [number, number] => [0, levels.length - 1])));
  return { ...best, nodes, complete };
}

/** The largest violation of a choice; that of a firm row is beyond measure. */
function largestViolation(items: readonly Item[], rows: readonly UpperRow[], picks: readonly number[]): number {
  let worst = 0;
  for (const row of rows) {
    const violation = rowViolation(row, items, picks);
    if (violation > 0 && row.firm) return Number.POSITIVE_INFINITY;
    if (violation > worst) worst = violation;
  }
  return worst;
}

/** The two sides of where a node stands between levels; where it stands on levels alone, its rounding and what lies beside it. */
function parts({ box, between, nearest }: Node): Box[] {
  const cut = (i: number, ends: [number, number]): Box[] =>
    ends[0] > ends[1] ? [] : [box.map((own, j) => (j === i ? ends : own))];
  if (between) {
    const { item, below } = between;
    return [...cut(item, [box[item]![0], below]), ...cut(item, [below + 1, box[item]![1]])];
  }
  let widest = -1;
  let width = 0;
  box.forEach(([from, to], i) => {
    if (to - from > width) [widest, width] = [i, to - from];
  });
  if (widest < 0) return [];
  const [from, to] = box[widest]!;
  const k = nearest[widest]!;
  return [...cut(widest, [k, k]), ...cut(widest, [from, k - 1]), ...cut(widest, [k + 1, to])];
}
