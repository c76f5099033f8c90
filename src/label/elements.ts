import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import { elementPerOxide, OXIDES } from '../chemistry/oxides.js';
import { type Problem, problem, type Where, warning } from '../problem.js';
import { BOUNDS, formatNumber } from '../units/index.js';
import { ANALYSIS_COLUMNS, type Analysis, type AnalysisColumn } from './analysis.js';

/** g in 100 mL of the densest liquids on sale; from memory. */
export const MOST_PER_100_ML = 220;
const FROM = `0 or from ${formatNumber(BOUNDS.labelFigure.least)}`;

/** Stated figures other than nitrogen, as % of the element. An oxide is converted by its atomic weights. */
export function elementsOf(analysis: Analysis, where: Where): { percent: Map<Nutrient, number>; problems: Problem[] } {
  const problems: Problem[] = [];
  const percent = new Map<Nutrient, number>();
  for (const column of ANALYSIS_COLUMNS) {
    const value = analysis.percent[column];
    if (value === null || value === undefined) continue;
    const place = { ...where, field: column };
    if (!inRange(value, analysis)) {
      problems.push(
        problem(
          'percent',
          place,
          `${value} %`,
          analysis.basis === 'w/v'
            ? `g per 100 mL, ${FROM} to ${MOST_PER_100_ML}`
            : `a percentage, ${FROM} to ${BOUNDS.labelFigure.most}`,
          'Copy the figure of the label; leave the cell empty where the label is silent.',
        ),
      );
    }
    if (isNitrogen(column)) continue;
    const nutrient = OXIDES.get(column) ?? (column as Nutrient);
    const asElement = OXIDES.has(column) ? value * elementPerOxide(column) : value;
    const before = percent.get(nutrient);
    if (before === undefined) percent.set(nutrient, asElement);
    else problems.push(pair(nutrient, before, value, place));
    if (before !== undefined) percent.set(nutrient, value);
  }
  return { percent, problems };
}

function isNitrogen(column: AnalysisColumn): boolean {
  return column === 'N' || (NITROGEN_FORMS as readonly string[]).includes(column);
}

function inRange(value: number, { basis }: Analysis): boolean {
  const { least, most } = BOUNDS.labelFigure;
  return value === 0 || (value >= least && value <= (basis === 'w/v' ? MOST_PER_100_ML : most));
}

/** An oxide and its element both stated: they must tell the same, up to rounding to a tenth of a per cent. */
function pair(nutrient: Nutrient, fromOxide: number, element: number, where: Where): Problem {
  const oxide = [...OXIDES].find(([, n]) => n === nutrient)![0];
  const found = `${nutrient} ${element} % beside ${oxide} that makes ${nutrient} ${formatNumber(fromOxide, 3)} %`;
  const agree = Math.abs(fromOxide - element) <= 0.05 + 0.05 * elementPerOxide(oxide) + 0.01 * element;
  return agree
    ? warning(
        'oxide-and-element',
        where,
        found,
        'one of the two',
        `Both tell the same; the figure for ${nutrient} is used.`,
      )
    : problem(
        'oxide-and-element',
        where,
        found,
        'two figures that tell the same',
        `${nutrient} is ${formatNumber(elementPerOxide(oxide), 4)} × ${oxide}: leave the wrong one empty.`,
      );
}
