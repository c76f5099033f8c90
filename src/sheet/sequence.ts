import type { Product } from '../label/product.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import { ionSourceOf, ionSourceOfWater } from '../can/ion-sources.js';
import { isAcid, isAlkali } from '../can/cautions.js';
import { type CloudingLine, cloudingOf, type Verdict } from '../can/clouding.js';
import { mixingRank } from '../can/order.js';
import type { Blend, Part } from './part.js';

/** One product going in, and what the can is like with it. */
export interface Turn extends Part {
  /** How full the can is when it goes in: ¾, or 1 where it would cloud in less water. */
  full: number;
  /** Of the can with everything up to here. */
  verdict: Verdict;
}

/** An order of mixing, and what it could not avoid. */
export interface Sequence {
  turns: Turn[];
  /** The worst that happens on the way; never worse than it has to be. */
  verdict: Verdict;
  /** Sentences on what the order had to avoid, or could not. */
  says: string[];
}

/** How full the can is while things dissolve. */
export const WHILE_MIXING = 0.75;

/**
 * The order in which no step clouds: silicates and alkalis, liquids that clash with nothing, calcium, what brings neither calcium nor
 * sulfate nor phosphate, sulfate and phosphate parts, micronutrients, acids (common practice, no source). Every step is then checked
 * at its own volume by the full model, open and closed to the air; where one would cloud, the can is filled to the mark before it, and where
 * that does not help either, all other orders are tried.
 */
export function sequenceOf(parts: readonly Part[], waters: readonly Blend[], temperatureC = 25): Sequence {
  const usual = [...parts].sort((a, b) => turnRank(a.product) - turnRank(b.product));
  const check = checker(usual, waters, temperatureC);
  const all = usual.map((_, i) => i);
  const target = check(all, 1).verdict;
  const kept = (tried: readonly Seen[]): boolean => tried.every((seen) => RANK[seen.verdict] <= RANK[target]);

  const plain = along(all, () => WHILE_MIXING, check);
  if (kept(plain)) return told(plain, target, usual, [], check);
  const first = plain.findIndex((seen) => RANK[seen.verdict] > RANK[target]);
  const filled = along(all, (i) => (i < first ? WHILE_MIXING : 1), check);
  if (kept(filled)) return told(filled, target, usual, [fillFirst(usual[first]!.product)], check);
  const order = otherOrder(usual.length, check, RANK[target]);
  const moved = along(order, () => 1, check);
  return told(moved, target, usual, [kept(moved) ? MOVED : NOT_AVOIDED], check);
}

const MOVED = 'The usual order would cloud on the way: keep to this one, and fill to the mark before anything goes in.';
const NOT_AVOIDED =
  'No order keeps the can clear all the way: fill to the mark before anything goes in, and stir hard between the steps.';
const fillFirst = (product: Product): string =>
  `Fill to the mark before the ${product.name || product.id}: in three quarters of the water it could cloud.`;

const RANK: Readonly<Record<Verdict, number>> = { clear: 0, borderline: 1, 'will cloud': 2 };

/** As `mixingRank`, with the sheet's own places for liquids and for what moves the pH. */
function turnRank(product: Product): number {
  if (isAcid(product)) return 5;
  if (isAlkali(product)) return 0;
  const rank = mixingRank(product);
  return rank === 2 && product.form === 'liquid' ? 0.5 : rank;
}

interface Seen {
  index: number;
  full: number;
  verdict: Verdict;
}

type Check = (some: readonly number[], full: number) => { verdict: Verdict; minerals: CloudingLine[] };

/** The chemistry of some of the parts; asked once for each set and volume. */
function checker(parts: readonly Part[], waters: readonly Blend[], temperatureC: number): Check {
  const known = new Map<string, ReturnType<Check>>();
  const water = waters.map(({ water: w, share }) => ionSourceOfWater(w, share));
  return (some, full) => {
    const key = `${[...some].sort((a, b) => a - b).join()}@${full}`;
    const before = known.get(key);
    if (before) return before;
    const sources = [...water, ...some.map((i) => ionSourceOf(parts[i]!.product, parts[i]!.perLitre / full))];
    const found = cloudingOf(sources, solutionChemistry, temperatureC);
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

function told(seen: readonly Seen[], target: Verdict, parts: readonly Part[], says: string[], check: Check): Sequence {
  const turns = seen.map(({ index, full, verdict }): Turn => ({ ...parts[index]!, full, verdict }));
  const worst = [...seen].sort((a, b) => RANK[b.verdict] - RANK[a.verdict])[0];
  const verdict = worst && RANK[worst.verdict] > RANK[target] ? worst.verdict : target;
  const mixed = check(
    seen.map(({ index }) => index),
    1,
  ).minerals.filter((line) => line.verdict !== 'clear');
  return { turns, verdict, says: [...says, ...mixed.map((line) => capital(line.sentence))] };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
