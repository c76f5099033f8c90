import { costRange, entryPrice, type LinearProgram, type Optimal } from '../../solver/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { costing, pricePerUnit } from '../feed/price.js';
import type { Prices, ProductPrice } from '../feed/results.js';
import { productColumn } from '../feed/terms.js';
import { amountsOf, type Formulated } from '../formulation/index.js';

/**
 * For each product used, the prices between which the answer stays the cheapest; for each product left out, the price at
 * which it would come in. `x` and `y` are the proved cheapest mix
 * of `program` and its multipliers. A price is never below zero.
 */
export async function productPrices(
  formulated: Formulated,
  { x, y }: Pick<Optimal, 'x' | 'y'>,
): Promise<Pick<Prices, 'used' | 'unused'>> {
  const { program, request } = formulated;
  const { products } = amountsOf({ x }, formulated);
  const counted = costing(request.shelf).perUnit;
  const used: ProductPrice[] = [];
  const unused: ProductPrice[] = [];
  for (const [i, product] of request.shelf.entries()) {
    const id = productColumn(i);
    if (products[i]! > 0) {
      const range = await costRange(program, id, x);
      if (range.verdict !== 'range') continue;
      used.push(lineOf(product, counted[i]!, cents(range.lowest ?? 0, counted[i]!), range.highest));
    } else if (worth(program, id, y) <= 0) {
      unused.push(lineOf(product, counted[i]!, null, null));
    } else {
      const entry = await entryPrice(program, id, x, y);
      if (entry.verdict !== 'price') continue;
      // below this price it comes in; no price below nothing is asked for anything
      const comesIn = entry.cost === null ? null : cents(entry.cost, counted[i]!) || null;
      unused.push(lineOf(product, counted[i]!, comesIn, null));
    }
  }
  unused.sort((a, b) => nearness(b) - nearness(a));
  return { used, unused };
}

/** A price of no more than a millionth of the present one is nothing. */
function cents(price: number, now: number): number {
  return price <= 1e-6 * now ? 0 : price;
}

/** What the multipliers say a unit of a column is worth: at no higher price than that can it come in. */
function worth(program: LinearProgram, column: string, y: Readonly<Record<string, number>>): number {
  return program.rows.reduce((sum, row) => sum + (y[row.id] ?? 0) * (row.terms[column] ?? 0), 0);
}

function lineOf(product: ClosedProduct, counted: number, lowest: number | null, highest: number | null): ProductPrice {
  const pack = product.pack !== undefined && product.pack > 0 ? product.pack : null;
  const perPack = (x: number | null): number | null => (x === null || pack === null ? null : x * pack);
  return {
    id: product.id,
    unit: product.composition.per,
    price: counted,
    lowest,
    highest,
    pack,
    lowestPerPack: perPack(lowest),
    highestPerPack: perPack(highest),
    isKnown: pricePerUnit(product) !== null,
  };
}

/** How near a product is to coming in: its entry price as a share of its own. */
function nearness(line: ProductPrice): number {
  return line.lowest === null ? -1 : line.price > 0 ? line.lowest / line.price : Number.MAX_VALUE;
}
