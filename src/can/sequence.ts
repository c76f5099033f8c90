import type { ClosedProduct } from '../label/closed-product.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import { ionSourceOf, ionSourceOfWater } from './ion-sources.js';
import { type CloudingLine, type CloudyLine, cloudingOf, type Verdict } from './clouding.js';
import { mixingRank } from './order.js';
import type { Blend, Part } from './part.js';

/** One product going in. */
export interface Turn extends Part {
  /** How full the can is when it goes in: ¾, or 1 where it would cloud in less water. */
  full: number;
}

/** An order of mixing, and what it could not avoid. */
export interface Sequence {
  turns: Turn[];
  /** The worst of the finished can, or of what the products do on the way; never worse than it has to be. */
  verdict: Verdict;
  /** What had to be done so that no step clouds. */
  avoiding: Avoiding;
  /** What the finished can may precipitate. */
  cloudy: CloudyLine[];
}

export type Avoiding =
  /** Nothing: the usual order, in three quarters of the water. */
  | { kind: 'nothing' }
  /** Fill to the mark before this product. */
  | { kind: 'full can'; before: { id: string; name: string } }
  /** Another order than the usual, in the full can. */
  | { kind: 'other order' }
  /** No order helps. */
  | { kind: 'unavoidable' };

/** How full the can is while things dissolve. */
export const WHILE_MIXING = 0.75;

export interface SequenceOptions {
  temperatureC?: number | undefined;
  /** Ids in an order that was told already for nearly the same mix: it stands as long as it keeps this one as clear. */
  told?: readonly string[];
  /** True where the can is filled to the mark before anything goes in. */
  full?: boolean;
}

/**
 * The order in which no step clouds: the usual one (see `mixingRank`), every step of it checked at its own volume by the full model, open and
 * closed to the air; where one would cloud, the can is filled to the mark before it, and where that does not help either, all other orders are
 * tried.
 */
export function sequenceOf(
  parts: readonly Part[],
  waters: readonly Blend[],
  { temperatureC = 25, told: before, full = false }: SequenceOptions = {},
): Sequence {
  const usual = [...parts].sort((a, b) => mixingRank(a.product) - mixingRank(b.product));
  const check = checker(usual, waters, temperatureC);
  const all = usual.map((_, i) => i);
  const target = check(all, 1).verdict;
  const kept = (tried: readonly Seen[]): boolean => tried.every((seen) => RANK[seen.verdict] <= RANK[target]);
  for (const order of before ? [likeBefore(usual, before), all] : [all]) {
    const plain = along(order, () => (full ? 1 : WHILE_MIXING), check);
    if (kept(plain)) return told(plain, usual, { kind: 'nothing' }, check);
    if (full) continue;
    const first = plain.findIndex((seen) => RANK[seen.verdict] > RANK[target]);
    const filled = along(order, (place) => (place < first ? WHILE_MIXING : 1), check);
    if (kept(filled)) return told(filled, usual, fullBefore(usual[order[first]!]!.product), check);
  }
  const order = otherOrder(usual.length, check, RANK[target]);
  const moved = along(order, () => 1, check);
  return told(moved, usual, { kind: kept(moved) ? 'other order' : 'unavoidable' }, check);
}

/** Whether some of the parts (by index), in the full can, are no cloudier than all of them will be. */
export function staysClear(
  parts: readonly Part[],
  waters: readonly Blend[],
  temperatureC = 25,
): (some: readonly number[]) => boolean {
  const check = checker(parts, waters, temperatureC);
  const target = check(
    parts.map((_, i) => i),
    1,
  ).verdict;
  return (some) => RANK[check(some, 1).verdict] <= RANK[target];
}

/** Indices in an order of ids; what it does not name stays where it usually goes, at the end. */
function likeBefore(parts: readonly Part[], before: readonly string[]): number[] {
  const place = new Map(before.map((id, i) => [id, i]));
  const placeOf = (index: number): number => place.get(parts[index]!.product.id) ?? before.length;
  return parts.map((_, i) => i).sort((a, b) => placeOf(a) - placeOf(b));
}

const fullBefore = ({ id, name }: ClosedProduct): Avoiding => ({ kind: 'full can', before: { id, name: name || id } });

const RANK: Readonly<Record<Verdict, number>> = { clear: 0, borderline: 1, 'will cloud': 2 };

interface Seen {
  index: number;
  full: number;
  verdict: Verdict;
}

/** Some of the parts in the can: `verdict` is the worst that they do to it; what the water does by itself is no order's doing. */
type Check = (some: readonly number[], full: number) => { verdict: Verdict; minerals: CloudingLine[] };

/** The chemistry of some of the parts; asked once for each set and volume. */
function checker(parts: readonly Part[], waters: readonly Blend[], temperatureC: number): Check {
  const known = new Map<string, ReturnType<Check>>();
  const water = waters.map(({ water: w, share }) => ionSourceOfWater(w, share));
  let bare: readonly CloudingLine[] | null = null;
  // asked only where something clouds at all
  const alone = (mineral: number): number => {
    bare ??= cloudingOf(water, solutionChemistry, temperatureC).minerals;
    return RANK[bare[mineral]!.verdict];
  };
  return (some, full) => {
    const key = `${[...some].sort((a, b) => a - b).join()}@${full}`;
    const before = known.get(key);
    if (before) return before;
    const sources = [...water, ...some.map((i) => ionSourceOf(parts[i]!.product, parts[i]!.perLitre / full))];
    const { minerals } = cloudingOf(sources, solutionChemistry, temperatureC);
    const own = minerals.filter(({ verdict }, m) => verdict !== 'clear' && RANK[verdict] > alone(m));
    const found = { minerals, verdict: worst(own.map((line) => line.verdict)) };
    known.set(key, found);
    return found;
  };
}

const along = (order: readonly number[], full: (place: number) => number, check: Check): Seen[] =>
  order.map((index, place) => ({
    index,
    full: full(place),
    verdict: check(order.slice(0, place + 1), full(place)).verdict,
  }));

/** Beyond this many items the orders are too many to try; the usual one stands. */
const MOST_TRIED = 9;

/** The order, in a full can, whose worst step is least bad; the usual one among equals. What a step is like depends on the set alone. */
function otherOrder(count: number, check: Check, good: number): number[] {
  const usual = Array.from({ length: count }, (_, i) => i);
  if (count > MOST_TRIED) return usual;
  for (let limit = good; limit <= 2; limit += 1) {
    const dead = new Set<string>();
    const search = (order: number[]): number[] | null => {
      if (order.length === count) return order;
      for (const next of usual.filter((i) => !order.includes(i))) {
        const longer = [...order, next];
        const key = [...longer].sort((a, b) => a - b).join();
        if (dead.has(key)) continue;
        const found = RANK[check(longer, 1).verdict] <= limit ? search(longer) : null;
        if (found) return found;
        dead.add(key);
      }
      return null;
    };
    const found = search([]);
    if (found) return found;
  }
  return usual;
}

function told(seen: readonly Seen[], parts: readonly Part[], avoiding: Avoiding, check: Check): Sequence {
  const turns = seen.map(({ index, full }): Turn => ({ ...parts[index]!, full }));
  const all = seen.map(({ index }) => index);
  const cloudy = check(all, 1).minerals.filter((line) => line.verdict !== 'clear');
  const verdicts = [...seen, ...cloudy].map(({ verdict }) => verdict);
  return { turns, verdict: worst(verdicts), avoiding, cloudy };
}

const worst = (verdicts: readonly Verdict[]): Verdict =>
  verdicts.reduce((most, verdict) => (RANK[verdict] > RANK[most] ? verdict : most), 'clear');
