import { type Action, type CanLimit, KEPT } from './can-limits.js';
import { doseOf, type Hand, keptOf, waterOf } from './hands.js';

/** How many of several cans keep every limit: to the letter, and each within its allowance. */
export interface Kept {
  strictly: number;
  allowed: number;
}

/**
 * Counts, action after action, the cans that keep every limit; asked hundreds of times for one remedy, so every figure is laid out once: signed,
 * in parts of its limit's scale, limit after limit.
 * @param table what every can brings to every limit, see `canTable`; `litres` what it holds
 * @returns counts for an action, the standard deviations of its doses, and hands (null: never off). The count ends where `matters` says no to
 * the most that it can come to
 */
export function keptCounter(
  limits: readonly CanLimit[],
  table: readonly (readonly number[])[],
  allowances: readonly number[],
  litres: readonly number[],
): (action: Action, sd: readonly number[], hands: readonly Hand[] | null, matters: (most: Kept) => boolean) => Kept {
  const real = limits.flatMap((limit, l) => (limit.scale > 0 ? [{ limit, l }] : []));
  const laidOut = (of: (limit: CanLimit, l: number) => number): Float64Array =>
    Float64Array.from(real, ({ limit, l }) => ((limit.side === 'least' ? 1 : -1) * of(limit, l)) / limit.scale);
  const cans = table.map((ofCan) => laidOut((_, l) => ofCan[l]!));
  const products = (limits[0]?.products ?? []).map((_, i) => laidOut((limit) => limit.products[i]!));
  const waters = (limits[0]?.waters ?? []).map((_, k) => laidOut((limit) => limit.waters[k]!));
  const allowed = Float64Array.from(real, ({ l }) => -KEPT - allowances[l]!);
  // where a can fails, most others do: that limit is looked at first
  let suspect = 0;
  return (action, sd, hands, matters) => {
    const { add, water } = action;
    const count = { strictly: 0, allowed: 0 };
    const added = add.flatMap((dose, i) => (dose > 0 ? [{ i, dose, sd: sd[i]!, brings: products[i]! }] : []));
    const poured = water.flatMap((x, k) => (x === 0 ? [] : [{ x, brings: waters[k]! }]));
    const brought = [...added, ...poured].map(({ brings }) => brings);
    const amounts = new Float64Array(brought.length);
    const counted = (can: Float64Array, c: number): void => {
      const hand = hands ? hands[c]! : STEADY;
      const kept = keptOf(action, hand, litres[c]!);
      const water = waterOf(action, kept, hand, litres[c]!);
      let a = 0;
      for (const { i, dose, sd: spread } of added) amounts[a++] = doseOf(dose, spread, hand.products[i] ?? 0);
      for (const { x } of poured) amounts[a++] = x * water;
      const inside = (l: number): number => {
        let sum = kept * can[l]!;
        for (let k = 0; k < amounts.length; k += 1) sum += amounts[k]! * brought[k]![l]!;
        return sum;
      };
      if (can.length > 0 && inside(suspect) < Math.min(-KEPT, allowed[suspect]!)) return;
      let strictly = true;
      for (let l = 0; l < can.length; l += 1) {
        const sum = inside(l);
        if (sum >= -KEPT) continue;
        if (sum < allowed[l]!) {
          suspect = l;
          return;
        }
        strictly = false;
      }
      count.allowed += 1;
      if (strictly) count.strictly += 1;
    };
    for (const [c, can] of cans.entries()) {
      const left = cans.length - c;
      if (c % LOOKS === 0 && !matters({ strictly: count.strictly + left, allowed: count.allowed + left })) break;
      counted(can, c);
    }
    return count;
  };
}

/** After so many cans it is looked at whether the count still matters. */
const LOOKS = 16;

/** Hands that are never off. */
const STEADY: Hand = { poured: 0, water: 0, products: [] };
