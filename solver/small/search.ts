import { type Choices, rowViolation, type UpperRow } from './choices.js';
import { cheapestVertex } from './vertex.js';
import { type Box, relaxed, type Split } from './relaxed.js';

export interface SearchOptions {
  /** The least miss first, then (faintly) the closest; default: the closest within `slack`. */
  least?: boolean;
  /** A miss of so many sizes is allowed in each row that is not firm. */
  slack?: number;
  /** The miss of a whole choice that rows do not tell, in the same measure: the index of each item's measure. Infinity refuses it. */
  violationOf?: (picks: readonly number[]) => number;
  /** Parts of the choices looked at, at most. */
  mostNodes?: number;
}

export interface Found {
  /** Index of the chosen measure of each item; null where none holds (or none was found, see `complete`). */
  picks: number[] | null;
  /** Σ costs of the picks. */
  cost: number;
  /** The largest miss, in sizes. */
  slack: number;
  nodes: number;
  /** True where every combination was tried or passed over for a reason. */
  complete: boolean;
}

/** Costs this near are even. */
const EVEN = 1e-9;
/** Where the least miss is sought, a hundredth of it is left unsought, and deviations decide between equals only. */
const HUNDREDTH = 0.01;
const FAINT = 1e-6;
/** All deviations together weigh no more than this of a limit, however small the doses that are wanted. */
const FAINT_IN_ALL = 1e-5;
/** A plan is waited for by a person at the sink: some tenths of a second. The hardest of 400 seeded benches took 1200. */
const MOST_NODES = 10_000;

/** A box of choices with what its relaxation says. */
interface Node extends Split {
  box: Box;
}

/**
 * One measure for each item so that every row holds, at the least total cost. Branch and bound: all choices are a box; a linear program
 * in its place, with amounts between the measures open too, says what nothing in it can go below. A box that cannot beat the best so
 * far, or holds nothing, is passed over; others are cut in two where the linear program stands between two measures.
 */
export function searchDoses(items: readonly Choices[], rows: readonly UpperRow[], options: SearchOptions = {}): Found {
  const { least = false, slack = 0, violationOf, mostNodes = MOST_NODES } = options;
  const farthest = items.reduce((sum, { costs }) => sum + Math.max(...costs), 0);
  const faint = Math.min(FAINT, FAINT_IN_ALL / farthest);
  const relaxation = relaxed(items, rows, least ? { faint } : { slack });
  const seen = new Map<string, number>();
  let best: Found = {
    picks: null,
    cost: Number.POSITIVE_INFINITY,
    slack: Number.POSITIVE_INFINITY,
    nodes: 0,
    complete: true,
  };
  let bestPrice = Number.POSITIVE_INFINITY;
  let nodes = 0;
  let complete = true;

  const worth = ({ bound }: Split): boolean =>
    bestPrice === Number.POSITIVE_INFINITY
      ? bound < bestPrice
      : bound < bestPrice - (least ? Math.max(EVEN, HUNDREDTH * bestPrice) : EVEN);

  const open = (box: Box): Node => {
    nodes += 1;
    relaxation.narrow(box, bestPrice);
    return { box, ...relaxation.read(box, cheapestVertex(relaxation.vertices, relaxation.low, relaxation.high)) };
  };

  const consider = (picks: number[]): void => {
    const miss = largestMiss(items, rows, picks);
    if (miss > (least ? bestPrice : slack)) return;
    const cost = picks.reduce((sum, k, i) => sum + items[i]!.costs[k]!, 0);
    const price = (whole: number): number => (least ? whole + faint * cost : cost);
    if (price(miss) >= bestPrice) return;
    const whole = Math.max(miss, violationOf ? told(picks, violationOf) : 0);
    if (whole > (least ? Number.MAX_VALUE : slack) || price(whole) >= bestPrice) return;
    bestPrice = price(whole);
    best = { ...best, picks, cost, slack: whole };
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

  visit(open(items.map(({ amounts }): [number, number] => [0, amounts.length - 1])));
  return { ...best, nodes, complete };
}

/** The largest miss of a choice; firm rows miss beyond measure. */
function largestMiss(items: readonly Choices[], rows: readonly UpperRow[], picks: readonly number[]): number {
  let worst = 0;
  for (const row of rows) {
    const miss = rowViolation(row, items, picks);
    if (miss > 0 && row.firm) return Number.POSITIVE_INFINITY;
    if (miss > worst) worst = miss;
  }
  return worst;
}

/** The two sides of where a node stands between measures; where it stands on measures alone, its rounding and what lies beside it. */
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
