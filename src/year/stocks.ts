import type { ClosedProduct } from '../label/closed-product.js';
import { daysAfter } from './days.js';
import type { ProductYear, SeasonOrder } from './season-types.js';
import type { Week } from './weeks.js';

/** A product with what a week uses of it, g or mL. */
export interface WeeklyUse {
  product: Pick<ClosedProduct, 'id' | 'name' | 'form' | 'onHand' | 'pack' | 'price'>;
  perWeek: readonly number[];
  /** Packs that are bought before the first week; none where it is left out. */
  bought?: number;
}

/** What is left below this share of a week's use is rounding. */
const DUST = 1e-9;
/** Where a pack lasts a shorter time, so many weeks' worth is ordered at once. */
const LEAST_WEEKS = 4;

/**
 * What becomes of a product: what is used, when what is on hand no longer reaches, and the packs that are ordered so that it always does: the
 * same pack again, each time one runs out, so early that it is there on the day. What has no pack is not ordered and runs out once.
 */
export function yearOf(
  { product, perWeek, bought = 0 }: WeeklyUse,
  weeks: readonly Week[],
  leadDays: number,
): { line: ProductYear; orders: SeasonOrder[] } {
  const { id, name, form } = product;
  const unit = form === 'powder' ? 'g' : 'mL';
  const used = perWeek.reduce((sum, x) => sum + x, 0);
  const onHand = product.onHand ?? null;
  const pack = product.pack ?? null;
  const price = pack === null ? null : (product.price ?? null);
  const from = weeks[0]!.day;
  const costOf = (packs: number): number | null => (price === null ? null : packs * price);
  const first = { day: from, needed: from, week: 1, isLate: true };
  const orders: SeasonOrder[] =
    bought > 0 && pack !== null ? [{ id, name, unit, packs: bought, pack, cost: costOf(bought), ...first }] : [];
  const stock: number[] = onHand === null ? [] : [onHand + bought * (pack ?? 0)];
  let runsOut: ProductYear['runsOut'] = null;
  for (const [i, { week, day }] of onHand === null ? [] : weeks.entries()) {
    let left = stock.at(-1)!;
    const need = perWeek[i]!;
    if (need > left + DUST * need) {
      runsOut ??= { week, day };
      if (pack !== null) {
        const ahead = perWeek.slice(i, i + LEAST_WEEKS).reduce((sum, x) => sum + x, 0);
        const packs = Math.max(1, Math.ceil((ahead - left) / pack - DUST));
        const early = daysAfter(day, -leadDays);
        const isLate = early < from;
        orders.push({
          ...{ id, name, unit, week, packs, pack, isLate },
          day: isLate ? from : early,
          needed: day,
          cost: costOf(packs),
        });
        left += packs * pack;
      }
    }
    stock.push(Math.max(0, left - need));
  }
  const line: ProductYear = {
    ...{ id, name, unit, used, onHand, pack, price, runsOut },
    cost: price === null || pack === null ? null : (used * price) / pack,
    packs: orders.reduce((sum, order) => sum + order.packs, 0),
    stock: onHand === null ? null : stock,
  };
  return { line, orders };
}
