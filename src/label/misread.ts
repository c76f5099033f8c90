import { elementPerOxide, OXIDES } from '../chemistry/oxides.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { type Problem, problem, warning } from '../problem.js';
import { formatNumber } from '../units/format.js';
import { closeBySources } from './undeclared-by-sources.js';
import type { ClosedProduct } from './closed-product.js';
import type { Composition } from './composition.js';
import { leastOddness } from './likely-make-ups.js';

/**
 * Figures of oxides typed as elements (MgO as Mg, SO3 as S, P2O5 as P …). Where the salts named cannot make the analysis as it stands, and can
 * once those figures are taken as oxides, the row is refused; without a list, where no likely make-up gives it as it stands and one does
 * then, it is asked.
 * @returns the refusal or the question, if any
 */
export async function misreadOxides(product: ClosedProduct): Promise<Problem[]> {
  const { composition, derivedFrom, density, formula, disagreement } = product;
  if (formula !== undefined) return [];
  const listed = disagreement !== undefined;
  if (!listed && product.ions.from !== 'label alone') return [];
  const typed = AS_OXIDE.filter(([nutrient]) => typedAsElement(composition, nutrient));
  if (typed.length === 0) return [];
  const odd = listed ? 0 : await leastOddness(composition, derivedFrom, density);
  if (!listed && odd !== null && odd < ODD) return [];
  for (const taken of choicesOf(typed)) {
    const other = asOxides(composition, taken);
    const fits = listed
      ? (await closeBySources(other, derivedFrom, density))?.verdict === 'closed'
      : await lessOdd(other, product, odd);
    if (!fits) continue;
    const whole = composition.per === 'g' ? 1000 : 1000 * (density ?? 1);
    const percent = (n: Nutrient): string => formatNumber((100 * (composition.content[n].stated ?? 0)) / whole, 3);
    const told = [
      { ...product.where, field: taken.map(([n]) => n).join(', ') },
      `${taken.map(([n]) => `${n} ${percent(n)} %`).join(', ')}${listed ? ', which the salts named cannot make' : ''}`,
      taken.map(([n, oxide]) => `${oxide} ${percent(n)} %`).join(', '),
      `${listed ? 'As oxides the salts named make the whole analysis' : 'As oxides common salts make it, as elements hardly any'}: if the label prints ${taken.map(([, oxide]) => oxide).join(', ')}, move ${taken.length > 1 ? 'the figures' : 'the figure'} there.`,
    ] as const;
    return [listed ? problem('oxide-as-element', ...told) : warning('oxide-as-element', ...told)];
  }
  return [];
}

/** Oddness from which a make-up is not what a maker would do, as a share of the product. */
const ODD = 0.1;

async function lessOdd(
  other: Composition,
  { derivedFrom, density }: ClosedProduct,
  odd: number | null,
): Promise<boolean> {
  const then = await leastOddness(other, derivedFrom, density);
  return then !== null && (odd === null || then < odd / 4);
}

type Taken = readonly [nutrient: Nutrient, oxide: string];

const AS_OXIDE: readonly Taken[] = [...OXIDES].flatMap(([oxide, nutrient]): Taken[] =>
  ['P', 'K', 'Ca', 'Mg', 'S'].includes(nutrient) ? [[nutrient, oxide]] : [],
);

/** All of them, those of calcium, magnesium and sulfur, those of phosphate and potash, then each alone. */
function choicesOf(typed: readonly Taken[]): Taken[][] {
  const of = (...nutrients: Nutrient[]): Taken[] => typed.filter(([n]) => nutrients.includes(n));
  const choices = [[...typed], of('Ca', 'Mg', 'S'), of('P', 'K'), ...typed.map((one) => [one])];
  return choices.filter((choice, i) => choice.length > 0 && choices.findIndex((c) => same(c, choice)) === i);
}

const same = (a: readonly Taken[], b: readonly Taken[]): boolean =>
  a.length === b.length && a.every((one) => b.includes(one));

/** Printed digits are a power of ten of the column in which they stand. */
function typedAsElement({ content, printed }: Composition, nutrient: Nutrient): boolean {
  const digit = printed?.get(nutrient);
  if (digit === undefined || !((content[nutrient].stated ?? 0) > 0)) return false;
  return /^10*$|^0\.0*1$/.test(formatNumber(digit, 6));
}

function asOxides(composition: Composition, taken: readonly Taken[]): Composition {
  const content = { ...composition.content };
  const printed = new Map(composition.printed);
  for (const [nutrient, oxide] of taken) {
    const factor = elementPerOxide(oxide);
    const { low, stated, high } = content[nutrient];
    content[nutrient] = { low: low * factor, stated: stated === null ? null : stated * factor, high: high * factor };
    printed.set(nutrient, (printed.get(nutrient) ?? 0) * factor);
  }
  return { ...composition, content, printed };
}
