import type { Amounts } from '../../can/mix-amounts.js';
import type { ClosedProduct } from '../../label/closed-product.js';
import type { Water } from '../../label/product.js';
import type { Nutrient } from '../../chemistry/nutrients.js';
import type { Mix } from '../../feed/results.js';
import { waterContent } from '../../feed/terms.js';
import type { PlannedItem } from '../../dose/plan-types.js';
import { amount, figure, money, percent } from '../../report/figures.js';

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
export function sumOf(element: Nutrient, { shelf, waters, amounts, litres }: Mixed): SumLine[] {
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

/** A form of nitrogen of a can, with what brings it. */
export interface FormView {
  name: string;
  share: number;
  words: string;
  sum: SumLine[];
}

/** The forms of nitrogen with the sums of those that labels state in mg. */
export const formViews = (forms: readonly Omit<FormView, 'sum'>[], mixed: Mixed | null): FormView[] =>
  forms.map((form) => {
    const nutrient = FORMS[form.name];
    return { ...form, sum: mixed && nutrient ? sumOf(nutrient, mixed) : [] };
  });

const FORMS: Readonly<Record<string, Nutrient>> = { nitrate: 'NO3-N', ammonium: 'NH4-N', urea: 'urea-N' };

/** What one dose comes to: in g or mL, in a litre, in mg/L of each element, and in money. */
export function doseSum({ product, chosen }: PlannedItem, litres: number, currency: string): SumLine[] {
  const { content, per } = product.composition;
  const perLitre = chosen.amount / litres;
  const brings = (Object.keys(content) as Nutrient[]).flatMap((element): SumLine[] => {
    const inOne = content[element].stated ?? content[element].low;
    const mg = perLitre * inOne;
    if (element.includes('-') || !(mg >= LEAST_BROUGHT)) return [];
    return [{ of: element, how: `${amount(perLitre, per)} × ${figure(inOne)} mg/${per}`, comes: `${figure(mg)} mg/L` }];
  });
  return [
    {
      of: chosen.words,
      how: `÷ ${figure(litres)} L = ${amount(perLitre, per)} in a litre`,
      comes: amount(chosen.amount, per),
    },
    ...brings,
    ...priceSum('its price', product, chosen.amount, currency),
  ];
}

/** What an amount of a product costs, of the price of its pack; nothing where that is not known. */
function priceSum(of: string, { composition, price, pack }: ClosedProduct, used: number, currency: string): SumLine[] {
  const { per } = composition;
  if (price === undefined || !pack) return [];
  const how = `${amount(used, per)} of ${amount(pack, per)} for ${money(price, currency)}`;
  return [{ of, how, comes: money((used * price) / pack, currency) }];
}

/** What a can and a year of them cost. */
export interface MoneySum {
  lines: SumLine[];
  total: string;
  year: string;
}

/** The money of a can, dose by dose and water by water, and how a year of them is reckoned from it. */
export function moneySum(
  items: readonly PlannedItem[],
  { waters, costPerLitre }: Pick<Mix, 'waters' | 'costPerLitre'>,
  { litres, yearLitres, currency }: { litres: number; yearLitres: number; currency: string },
): MoneySum {
  const doses = items.flatMap(({ product, chosen }) =>
    priceSum(product.name || product.id, product, chosen.amount, currency),
  );
  const water = waters.flatMap(({ name, share, costPerLitre: each }): SumLine[] =>
    each > 0
      ? [
          {
            of: name,
            how: `${figure(share * litres)} L for ${money(each / share, currency)} a litre`,
            comes: money(each * litres, currency),
          },
        ]
      : [],
  );
  const can = money(costPerLitre * litres, currency);
  return {
    lines: [...doses, ...water],
    total: can,
    year: `${can} ÷ ${figure(litres)} L × ${figure(yearLitres)} L in a year = ${money(costPerLitre * yearLitres, currency)}.`,
  };
}

/** mg/L; less of an element is not told of a dose. */
const LEAST_BROUGHT = 0.005;
