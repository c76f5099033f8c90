import type { Amounts } from '../../can/mix-amounts.js';
import type { ClosedProduct } from '../../label/closed-product.js';
import type { Water } from '../../label/product.js';
import type { ElementLine } from '../../feed/results.js';
import { waterContent } from '../../feed/terms.js';
import { amount, figure, percent } from '../../report/figures.js';

/** One line of the sum behind a figure: who brings it, how it is reckoned, and what it comes to. */
export interface SumLine {
  of: string;
  how: string;
  comes: string;
}

/** What was mixed: g/L or mL/L of each product, and the share of each water. */
export interface Mixed {
  shelf: readonly ClosedProduct[];
  waters: readonly Water[];
  amounts: Amounts;
  litres: number;
}

/** From the labels to mg/L of an element: each product that brings some, then the water. */
export function sumOf(element: ElementLine['element'], { shelf, waters, amounts, litres }: Mixed): SumLine[] {
  const products = shelf.flatMap((product, i): SumLine[] => {
    const perLitre = amounts.products[i] ?? 0;
    const { content, per } = product.composition;
    const { stated, low } = content[element];
    const inOne = stated ?? low;
    if (!(perLitre > 0) || !(inOne > 0)) return [];
    const how = `${amount(perLitre * litres, per)} × ${figure(inOne)} mg/${per} ÷ ${figure(litres)} L`;
    return [{ of: product.name || product.id, how, comes: figure(perLitre * inOne) }];
  });
  const water = waters.flatMap((one, i): SumLine[] => {
    const share = amounts.waters[i] ?? 0;
    const holds = waterContent(one, element);
    if (!(share > 0) || !(holds > 0)) return [];
    return [{ of: one.name, how: `${percent(share)} of ${figure(holds)} mg/L`, comes: figure(share * holds) }];
  });
  return [...products, ...water];
}
