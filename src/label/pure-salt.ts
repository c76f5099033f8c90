import { nutrientsPerGram, parseFormula } from '../chemistry/formula.js';
import { NITROGEN_FORMS, type Nutrient, perNutrient, type PerNutrient } from '../chemistry/nutrients.js';
import { type Checked, checked, type Problem, problem, type Where, warning } from '../problem.js';
import { formatNumber } from '../units/format.js';
import { allowance } from './allowance.js';
import type { Analysis } from './analysis.js';
import type { Content } from './composition.js';

/**
 * The composition of a pure substance in %, from atomic weights and purity; nothing is left open. Figures stated beside a formula
 * must agree with it: within the investigational allowance, or 0.5 + 3 % of the figure for nitrogen, phosphorus, potassium and
 * silicon (our own: room for a technical grade and for guarantees rounded down, such as 13-0-46 for KNO3, which is 13.9-0-46.6).
 */
export function compositionOfFormula(
  analysis: Analysis,
  elements: ReadonlyMap<Nutrient, number>,
  where: Where,
): Checked<PerNutrient<Content>> {
  const read = parseFormula(analysis.formula!, { ...where, field: 'formula' });
  if (!read.ok) return read;
  const purity = analysis.purity ?? 100;
  const mg = nutrientsPerGram(read.value);
  const percent = perNutrient((nutrient) => (mg[nutrient] / 10) * (purity / 100));
  const problems: Problem[] = [];
  const stated = new Map<Nutrient, number>(elements);
  for (const nutrient of ['N', ...NITROGEN_FORMS] as const) {
    const value = analysis.percent[nutrient];
    if (value !== null && value !== undefined) stated.set(nutrient, value);
  }
  for (const [nutrient, value] of stated) {
    const own = percent[nutrient];
    if (Math.abs(own - value) <= (allowance(nutrient, own) ?? 0.5 + 0.03 * own)) continue;
    problems.push(
      problem(
        'formula-disagrees',
        { ...where, field: nutrient },
        `${nutrient} ${formatNumber(value)} % beside a formula that holds ${formatNumber(own)} %`,
        'figures that agree',
        `Check the water of crystallisation in ${read.value.text}, the purity and the figure; or leave one of them empty.`,
      ),
    );
  }
  if (Object.values(percent).every((value) => value === 0)) {
    problems.push(
      warning(
        'formula',
        { ...where, field: 'formula' },
        read.value.text,
        'a substance with at least one nutrient',
        'It is counted as holding none; check the formula.',
      ),
    );
  }
  const content = perNutrient(
    (nutrient): Content => ({ low: percent[nutrient], stated: percent[nutrient], high: percent[nutrient] }),
  );
  return checked(content, problems);
}
