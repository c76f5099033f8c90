import { nearestSalt, saltsOf } from '../chemistry/salts.js';
import { type Problem, type Where, warning } from '../problem.js';
import { formatNumber } from '../units/format.js';
import type { Analysis, AnalysisColumn } from './analysis.js';
import { gradeDoubts } from './grade-in-name.js';

/** What looks like a slip in a label that can be read all the same, each with the question to ask: the figures are used as they stand. */
export function doubtsOf(label: Analysis & { name: string }, where: Where): Problem[] {
  const figures =
    label.formula === undefined ? [...gradeDoubts(label.name, label, where), ...tooMuch(label, where)] : [];
  return [...figures, ...misspelt(label.derivedFrom ?? [], where)];
}

/**
 * The most of a trace element that a feed of nitrogen, phosphate or potash is sold with, % (common practice, no source: ten times
 * what complete feeds hold). More is a slip of the decimal point, or figures in ppm.
 */
const TRACE_IN_FEED: readonly (readonly [AnalysisColumn, number])[] = [
  ['B', 0.2],
  ['Cu', 0.5],
  ['Zn', 0.5],
  ['Mn', 0.8],
  ['Fe', 1.5],
  ['Mo', 0.05],
];

function tooMuch({ percent }: Pick<Analysis, 'percent'>, where: Where): Problem[] {
  const main = (['N', 'P2O5', 'P', 'K2O', 'K'] as const).filter((c) => (percent[c] ?? 0) >= MAIN);
  if (main.length === 0) return [];
  return TRACE_IN_FEED.flatMap(([column, most]): Problem[] => {
    const value = percent[column] ?? 0;
    if (!(value >= most)) return [];
    const likely = [10, 100, 1000, 10_000].map((by) => value / by).find((less) => less < most / 2)!;
    return [
      warning(
        'trace-too-much',
        { ...where, field: column },
        `${column} ${formatNumber(value)} % in a feed of ${main[0]} ${formatNumber(percent[main[0]!]!)} %`,
        `a trace: complete feeds hold less than ${formatNumber(most)} %`,
        `Is it ${formatNumber(likely)} %? Look at the label again; a figure in ppm (mg/kg) is 10,000 times that in %. It is used as it stands, so a cap on ${column} will hold the product back.`,
      ),
    ];
  });
}

/** % from which a product feeds more than trace elements. */
const MAIN = 4;

function misspelt(derivedFrom: readonly string[], where: Where): Problem[] {
  return saltsOf(derivedFrom).unknown.flatMap((name): Problem[] => {
    const guess = nearestSalt(name);
    if (guess === undefined) return [];
    return [
      warning(
        'source-unknown',
        { ...where, field: 'derived_from' },
        `"${name}"`,
        'a salt by its name',
        `Did you mean ${guess}? Until then the list is not used.`,
      ),
    ];
  });
}
