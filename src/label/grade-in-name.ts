import { elementPerOxide } from '../chemistry/oxides.js';
import { type Problem, type Where, warning } from '../problem.js';
import { formatNumber } from '../units/format.js';
import type { Analysis } from './analysis.js';

/** N, phosphate and potash as a name prints them. */
type Grade = readonly [number, number, number];

/** What a label's name promises beside what its figures say: the name's own grade tells oxides from elements, and the order. */
export function gradeDoubts(name: string, { percent }: Pick<Analysis, 'percent'>, where: Where): Problem[] {
  const grade = gradeOf(name);
  if (grade === null) return [];
  const at = (column: keyof Analysis['percent']): number | undefined => percent[column] ?? undefined;
  const n = at('N');
  const [p, k] = [at('P2O5') ?? oxideOf('P2O5', at('P')), at('K2O') ?? oxideOf('K2O', at('K'))];
  // a figure that is not there is no contradiction, but for a grade that promises it
  const found: (number | undefined)[] = [n, p, k];
  if (found.every((value) => value === undefined)) return [];
  if (found.every((value, i) => value === undefined || alike(value, grade[i]!))) return [];
  const [elements, oxides] = [columnsOf(percent, ['P', 'K']), columnsOf(percent, ['P2O5', 'K2O'])];
  if (elements.length > 0 && asPrinted(percent, elements, grade)) {
    return [
      warning(
        'grade-elements',
        { ...where, field: elements.join(', ') },
        `${figures(percent, elements)} as elements beside ${text(grade)} in the name`,
        `the grade's own figures as oxides: ${elements.map((c) => `${OXIDE[c]} ${formatNumber(percent[c]!)} %`).join(', ')}`,
        `Most labels print P2O5 and K2O: if yours does, move the figures to those columns. If it says elements, leave them; they are ${elements.map((c) => `${OXIDE[c]} ${formatNumber(oxideOf(OXIDE[c], percent[c]!)!, 3)} %`).join(' and ')}.`,
      ),
    ];
  }
  const told = oxides.filter((c) => percent[c]! > 0);
  if (told.length > 0 && told.every((c) => alike(oxideOf(c, percent[c]!)!, grade[c === 'P2O5' ? 1 : 2]))) {
    return [
      warning(
        'grade-oxides',
        { ...where, field: told.join(', ') },
        `${figures(percent, told)} beside ${text(grade)} in the name`,
        `the grade as printed, or elements: ${told.map((c) => `${ELEMENT[c]} ${formatNumber(percent[c]!)} %`).join(', ')}`,
        'These are the figures of the elements under the headings of oxides: move them to the columns P and K.',
      ),
    ];
  }
  const order = orderOf(found, grade);
  if (order !== null) {
    return [
      warning(
        'grade-order',
        { ...where, field: 'N' },
        `N ${say(n)}, P2O5 ${say(p)}, K2O ${say(k)} beside ${text(grade)} in the name`,
        `the order of the name: N ${say(grade[0])}, P2O5 ${say(grade[1])}, K2O ${say(grade[2])}`,
        'The same figures stand in another order: look at the label, and mend the row or the name.',
      ),
    ];
  }
  const typed = [n, at('P2O5') ?? at('P'), at('K2O') ?? at('K')];
  if (elements.length > 0 && orderOf(typed, grade) !== null) {
    return [
      warning(
        'grade-order',
        { ...where, field: 'N' },
        `N ${say(n)}, ${figures(percent, elements)} as elements beside ${text(grade)} in the name`,
        `the order of the name, and oxides: N ${say(grade[0])}, P2O5 ${say(grade[1])}, K2O ${say(grade[2])}`,
        'The same figures stand in another order, and under the signs of elements: look at the label, and mend the row or the name.',
      ),
    ];
  }
  return [
    warning(
      'grade-disagrees',
      { ...where, field: 'N' },
      `N ${say(n)}, P2O5 ${say(p)}, K2O ${say(k)} beside ${text(grade)} in the name`,
      'figures that give back the grade',
      'Look at the label, and mend the row or the name. The figures of the row are used.',
    ),
  ];
}

/** The grade in a name, `Sample Feed 20-20-20`; null where there is none, or more than one. */
export function gradeOf(name: string): Grade | null {
  const number = String.raw`\d{1,2}(?:[.,]\d{1,2})?`;
  const found = [
    ...name.matchAll(new RegExp(`(?<![\\d.,–-])(${number})[-–](${number})[-–](${number})(?![\\d–-])`, 'g')),
  ];
  if (found.length !== 1) return null;
  const [n, p, k] = found[0]!.slice(1, 4).map((part) => Number(part.replace(',', '.')));
  return n! + p! + k! > 0 && n! + p! + k! <= 100 ? [n!, p!, k!] : null;
}

type OxideColumn = 'P2O5' | 'K2O';
const OXIDE = { P: 'P2O5', K: 'K2O' } as const;
const ELEMENT = { P2O5: 'P', K2O: 'K' } as const;

const oxideOf = (oxide: OxideColumn, element: number | undefined): number | undefined =>
  element === undefined ? undefined : element / elementPerOxide(oxide);

/** A guarantee is rounded down and a grade in whole numbers: 13-0-46 is 13.9-0-46.6. */
export const alike = (value: number, grade: number): boolean =>
  value >= grade - 0.5 - 0.01 * grade && value <= grade + 1 + 0.02 * grade;

const columnsOf = <C extends keyof Analysis['percent']>(percent: Analysis['percent'], columns: readonly C[]): C[] =>
  columns.filter((c) => (percent[c] ?? 0) > 0);

const asPrinted = (percent: Analysis['percent'], columns: readonly ('P' | 'K')[], grade: Grade): boolean =>
  columns.every((c) => alike(percent[c]!, grade[c === 'P' ? 1 : 2]));

function orderOf(found: readonly (number | undefined)[], grade: Grade): readonly number[] | null {
  if (found.includes(undefined)) return null;
  const orders = [
    [0, 2, 1],
    [1, 0, 2],
    [1, 2, 0],
    [2, 0, 1],
    [2, 1, 0],
  ];
  return orders.find((order) => order.every((from, to) => alike(found[from]!, grade[to]!))) ?? null;
}

const figures = (percent: Analysis['percent'], columns: readonly (keyof Analysis['percent'])[]): string =>
  columns.map((c) => `${c} ${formatNumber(percent[c]!)} %`).join(' and ');

const say = (value: number | undefined): string => (value === undefined ? 'none' : formatNumber(value, 3));
const text = (grade: Grade): string => grade.map((part) => formatNumber(part)).join('-');
