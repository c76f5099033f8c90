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
 * @param table what every can brings to every limit, see `canTable`
 */
export function keptCounter(
  limits: readonly CanLimit[],
  table: readonly (readonly number[])[],
  allowances: readonly number[],
): (action: Action, sd: readonly number[], hands: readonly Hand[] | null) => Kept {
  const real = limits.flatMap((limit, l) => (limit.scale > 0 ? [{ limit, l }] : []));
  const laidOut = (of: (limit: CanLimit, l: number) => number): Float64Array =>
    Float64Array.from(real, ({ limit, l }) => ((limit.side === 'least' ? 1 : -1) * of(limit, l)) / limit.scale);
  const cans = table.map((ofCan) => laidOut((_, l) => ofCan[l]!));
  const products = (limits[0]?.products ?? []).map((_, i) => laidOut((limit) => limit.products[i]!));
  const waters = (limits[0]?.waters ?? []).map((_, k) => laidOut((limit) => limit.waters[k]!));
  const allowed = Float64Array.from(real, ({ l }) => -KEPT - allowances[l]!);
  const sums = new Float64Array(real.length);
  return ({ keep, add, water }, sd, hands) => {
    const count = { strictly: 0, allowed: 0 };
    cans.forEach((can, c) => {
      const hand = hands ? hands[c]! : STEADY;
      sums.fill(0);
      addTo(sums, can, keptOf(keep, hand));
      for (let i = 0; i < add.length; i += 1)
        if (add[i]! > 0) addTo(sums, products[i]!, doseOf(add[i]!, sd[i]!, hand.products[i] ?? 0));
      for (let k = 0; k < water.length; k += 1) addTo(sums, waters[k]!, water[k]! * waterOf(hand));
      let strictly = true;
      for (let l = 0; l < sums.length; l += 1) {
        if (sums[l]! >= -KEPT) continue;
        if (sums[l]! < allowed[l]!) return;
        strictly = false;
      }
      count.allowed += 1;
      if (strictly) count.strictly += 1;
    });
    return count;
  };
}

/** Hands that are never off. */
const STEADY: Hand = { poured: 0, water: 0, products: [] };

function addTo(sums: Float64Array, each: Float64Array, amount: number): void {
  if (amount === 0) return;
  for (let l = 0; l < sums.length; l += 1) sums[l]! += amount * each[l]!;
}
