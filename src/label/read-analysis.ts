import { type Nutrient, perNutrient, type PerNutrient } from '../chemistry/nutrients.js';
import { type Checked, checked, type Problem, problem, type Where } from '../problem.js';
import type { Analysis } from './analysis.js';
import { leastMass, massLimit } from './balance.js';
import type { Composition, Content } from './composition.js';
import type { LeftOpen } from './left-open.js';
import { elementsOf } from './elements.js';
import { compositionOfFormula } from './pure-salt.js';
import { nitrogenOf } from './nitrogen.js';
import { lastDigits } from './printed.js';
import { undeclared } from './undeclared.js';
import { BOUNDS, formatFixed, isWithin } from '../units/index.js';

/**
 * A guaranteed analysis as mg per g (powder) or per mL (liquid).
 *
 * What a label states is taken as it stands. Where it is silent: nitrogen without stated forms may be in any form that its sources
 * allow; chloride, sulfur and sodium range up to what the charge balance and the mass left allow (see `undeclared`); a formula
 * settles everything; any other nutrient counts as none, and `open` says so.
 *
 * Refuses impossible labels: forms above total nitrogen, an oxide and an element that contradict each other, more than
 * 100 %, a liquid by mass without density, a formula that contradicts the figures. Every Problem at once.
 */
export function readAnalysis(analysis: Analysis, where: Where = {}): Checked<Composition> {
  const problems = basics(analysis, where);
  const elements = elementsOf(analysis, where);
  problems.push(...elements.problems);
  const given = Object.values(analysis.percent).some((value) => value !== null && value !== undefined);

  if (analysis.formula !== undefined) {
    const pure = compositionOfFormula(analysis, elements.percent, where);
    if (!pure.ok) return { ok: false, problems: [...problems, ...pure.problems] };
    return checked(scaled(pure.value, analysis, []), [...problems, ...pure.warnings]);
  }
  if (!given) {
    problems.push(
      problem(
        'analysis-empty',
        where,
        'no figure and no formula',
        'a guaranteed analysis or a formula',
        'Copy the figures of the label, or write the formula of a pure salt.',
      ),
    );
  }
  const nitrogen = nitrogenOf(analysis, where);
  problems.push(...nitrogen.problems);
  if (problems.some((p) => p.severity === 'error')) return { ok: false, problems };

  const stated = new Map<Nutrient, Content>([...nitrogen.content]);
  for (const [nutrient, value] of elements.percent) stated.set(nutrient, settled(value));
  const mass = leastMass(stated);
  if (mass > massLimit(analysis) * 1.005) {
    problems.push(
      problem(
        'analysis-over-100',
        where,
        `figures that need at least ${formatFixed(mass, 1)} g in ${analysis.basis === 'w/v' ? '100 mL' : '100 g'}`,
        'an analysis that fits into the product',
        'Check for a slipped decimal point, or for figures of oxides (P2O5, K2O, CaO, MgO, SO3) under the headers of elements.',
      ),
    );
  }
  const silent = undeclared(analysis, stated);
  const percent = perNutrient((nutrient) => stated.get(nutrient) ?? silent.content.get(nutrient) ?? NONE);
  return checked(scaled(percent, analysis, [...nitrogen.open, ...silent.open]), problems);
}

const NONE: Content = { low: 0, stated: null, high: 0 };

/** A figure that leaves nothing open. */
const settled = (value: number): Content => ({ low: value, stated: value, high: value });

/** % → mg per g, or per mL by density (w/w) or directly (w/v: g per 100 mL). */
function scaled(percent: PerNutrient<Content>, analysis: Analysis, open: LeftOpen[]): Composition {
  const { form, basis, density, percent: figures } = analysis;
  const factor = form === 'liquid' && basis !== 'w/v' ? 10 * (density ?? Number.NaN) : 10;
  const content = perNutrient((nutrient): Content => {
    const { low, stated, high } = percent[nutrient];
    return { low: low * factor, stated: stated === null ? null : stated * factor, high: high * factor };
  });
  const printed = new Map([...lastDigits({ percent: figures })].map(([n, unit]) => [n, unit * factor]));
  return { per: form === 'powder' ? 'g' : 'mL', content, printed, open };
}

function basics({ form, basis, density, purity, formula }: Analysis, where: Where): Problem[] {
  const problems: Problem[] = [];
  if (form === 'powder' && basis === 'w/v') {
    problems.push(
      problem(
        'basis',
        { ...where, field: 'basis' },
        'w/v for a powder',
        'w/w',
        'A powder is stated by mass; write w/w or leave the cell empty.',
      ),
    );
  }
  if (form === 'liquid' && basis !== 'w/v' && density === undefined) {
    problems.push(
      problem(
        'density-missing',
        { ...where, field: 'density' },
        'a liquid by mass without density',
        'its density in g/mL',
        'Weigh 100 mL and divide by 100; or write w/v where the label says so.',
      ),
    );
  }
  if (density !== undefined && !(density >= 0.6 && density <= 2.2)) {
    problems.push(
      problem(
        'density',
        { ...where, field: 'density' },
        `${density} g/mL`,
        'a density from 0.6 to 2.2 g/mL',
        'Write the mass of 1 mL in grams, such as 1.21.',
      ),
    );
  }
  if (purity !== undefined && !(purity > 0 && isWithin('labelFigure', purity))) {
    problems.push(
      problem(
        'purity',
        { ...where, field: 'purity' },
        `${purity} %`,
        `from ${BOUNDS.labelFigure.least} to 100 %`,
        'Write the share of the formula in the product, such as 85.',
      ),
    );
  }
  if (purity !== undefined && formula === undefined) {
    problems.push(
      problem(
        'purity',
        { ...where, field: 'purity' },
        'a purity without a formula',
        'the formula it belongs to',
        'Fill in the formula, or leave the purity empty.',
      ),
    );
  }
  return problems;
}
