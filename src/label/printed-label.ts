import { type Problem, problem, Refusal, warning } from '../problem.js';
import { MOST } from '../units/bounds.js';
import { formatNumber } from '../units/format.js';
import { elementPerOxide } from '../chemistry/oxides.js';
import type { Analysis, AnalysisColumn } from './analysis.js';
import { doubtsOf } from './doubts.js';
import { type Figure, figuresIn } from './printed-figures.js';
import { formOf } from './printed-form.js';
import { alike } from './grade-in-name.js';
import { gradeIn } from './printed-grade.js';
import { nameOf } from './printed-name.js';
import { withoutPack } from './printed-pack.js';
import { sourcesIn } from './printed-sources.js';
import { plainLabel, withoutDirections } from './printed-text.js';

/** A label as its text was understood: the analysis, what each figure was read from, and what is doubtful. */
export interface PrintedLabel {
  /** The first line that is no heading; empty where there is none. */
  name: string;
  analysis: Analysis;
  /** What was printed, and the column and % (or g in 100 mL) that it was taken for. */
  understood: readonly { printed: string; column: AnalysisColumn; percent: number }[];
  /** Figures beside which no nutrient stands, as printed. */
  leftOver: readonly string[];
  /** Questions; the figures are used as they stand. */
  doubts: readonly Problem[];
}

/**
 * Reads the text of a printed label, of a US guaranteed analysis ("Total Nitrogen (N) 12 % … 10.5 % Nitrate Nitrogen … Derived from: …")
 * or of an EU declaration ("5,5 % nitric nitrogen"; oxides), in English, with decimal points or commas, however its lines are broken.
 * Whether an element or its oxide is meant is what is printed; a bare "phosphate" and "potash" are the oxides. What it
 * did not understand is told.
 * @throws Refusal where it is longer than any label
 */
export function readPrintedLabel(text: string): PrintedLabel {
  if (text.length > MOST.label) throw new Refusal([tooLong(text)]);
  const plain = plainLabel(text);
  const { rest, derivedFrom } = sourcesIn(plain);
  const told = withoutPack(withoutDirections(rest));
  const { figures, leftOver, perLitre } = figuresIn(told);
  const doubts: Problem[] = [];
  const percent: Analysis['percent'] = {};
  const understood: { printed: string; column: AnalysisColumn; percent: number }[] = [];
  for (const figure of figures) {
    const before = percent[figure.column];
    // water-soluble and water-insoluble nitrogen are two parts, as far as the total goes
    const sum = (before ?? 0) + figure.percent;
    const adds = figure.column === 'other-N' && sum <= (percent.N ?? 0) + 0.05;
    if (before === undefined || adds) percent[figure.column] = Math.round(sum * 1e6) / 1e6;
    else if (before !== null && !isPart(figure, before)) doubts.push(twice(figure, before));
    understood.push({ printed: figure.printed, column: figure.column, percent: figure.percent });
  }
  const beaten = againstTheGrade(told, figures);
  if (beaten !== null) {
    delete percent[beaten.figure.column];
    understood.length = 0;
    doubts.push(beaten.doubt);
  }
  for (const figure of ofTheGrade(told, percent)) {
    percent[figure.column] = figure.percent;
    understood.push(figure);
  }
  doubts.push(...splitIn(told));
  const name = nameOf(withoutPack(plain));
  const analysis = { ...formOf(plain, perLitre), percent, ...(derivedFrom.length > 0 ? { derivedFrom } : {}) };
  doubts.push(...doubtsOf({ ...analysis, name }, {}));
  return { name, analysis, understood, leftOver, doubts };
}

/** What only the grade tells: `12-6-12, total nitrogen 12 %` says no more of phosphate and potash. A zero is no guarantee of none. */
function ofTheGrade(text: string, percent: Analysis['percent']) {
  const isTold = (column: AnalysisColumn): boolean =>
    percent[column] !== undefined || percent[ELEMENT_OF.get(column) ?? column] !== undefined;
  const forms = NITROGEN.some((form) => percent[form] !== undefined);
  return (gradeIn(text)?.figures ?? []).filter(
    ({ column, percent: value }) => value > 0 && !isTold(column) && !(column === 'N' && forms),
  );
}

/** One figure alone that the grade contradicts, as an element and as an oxide: a whole grade is harder to misread than one figure. */
function againstTheGrade(text: string, figures: readonly Figure[]): { figure: Figure; doubt: Problem } | null {
  const [figure, ...more] = figures;
  const grade = gradeIn(text);
  if (figure === undefined || more.length > 0 || grade === null) return null;
  const column = figure.column === 'P' || figure.column === 'K' ? ELEMENT_TO_OXIDE[figure.column] : figure.column;
  const told = grade.figures.slice(0, 3).find((one) => one.column === column);
  if (told === undefined) return null;
  const share = column === 'N' ? 1 : elementPerOxide(column as 'P2O5' | 'K2O');
  const meant = [told.percent, told.percent * share, told.percent / share];
  if (meant.some((percent) => alike(figure.percent, percent))) return null;
  const fix = 'The grade is used: give the whole analysis of the label where the figure is right.';
  const found = `"${figure.printed}" beside ${told.printed}`;
  return { figure, doubt: warning('grade-wins', { field: column }, found, 'a figure of the grade', fix) };
}

const ELEMENT_TO_OXIDE = { P: 'P2O5', K: 'K2O' } as const;

const NITROGEN: readonly AnalysisColumn[] = ['NO3-N', 'NH4-N', 'urea-N', 'other-N'];

/** The other way to print the same: oxide or element. */
const ELEMENT_OF = new Map<AnalysisColumn, AnalysisColumn>([
  ['P2O5', 'P'],
  ['K2O', 'K'],
  ['CaO', 'Ca'],
  ['MgO', 'Mg'],
  ['SO3', 'S'],
  ['Ca', 'CaO'],
  ['Mg', 'MgO'],
  ['S', 'SO3'],
]);

/** `Potash 1 2 %`: a figure that a slip of the keys took apart. */
function splitIn(text: string): Problem[] {
  return [...text.matchAll(/(?<![\p{L}\d.,:–-])(\d{1,2})[ \t]+(\d{1,2}(?:[.,]\d+)?)[ \t]*%/gu)].map(([, one, two]) =>
    warning(
      'printed-split',
      {},
      `two figures side by side, "${one} ${two} %"`,
      'one figure',
      `Is it ${one}${two} %? Look at the label, and write it as it is printed.`,
    ),
  );
}

/**
 * What is doubtful about the print alone, by the name of its label; what is doubtful about the figures themselves is told where the row
 * of the shelf is read.
 */
export const doubtsOfPrint = ({ name, doubts }: PrintedLabel): Problem[] =>
  doubts
    .filter(({ code }) => ['printed-twice', 'printed-split', 'grade-wins'].includes(code))
    .map((found) => ({ ...found, where: { ...found.where, file: name === '' ? 'the text' : `the label ${name}` } }));

/** A figure that is part of one told before: `of which 4 % soluble in water`, `0.1 % chelated iron`. */
const isPart = (figure: Figure, before: number): boolean => figure.percent <= before && figure.part;

function twice({ column, percent }: Figure, before: number): Problem {
  return warning(
    'printed-twice',
    { field: column },
    `${column} ${formatNumber(before)} % and ${formatNumber(percent)} %`,
    'one figure',
    'The first is used: look at the label.',
  );
}

const tooLong = (text: string): Problem =>
  problem(
    'label-too-long',
    {},
    `a text of ${text.length} characters`,
    `a label of at most ${MOST.label}`,
    'Copy the guaranteed analysis alone.',
  );
