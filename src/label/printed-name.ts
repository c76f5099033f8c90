import { saltNamed } from '../chemistry/salts.js';
import { analysisAt, isNutrientName } from './printed-figures.js';
import { gradeIn } from './printed-grade.js';

/** What a product is called: the line with its grade, else the first line up to its figures, where that is no heading and no nutrient. */
export function nameOf(text: string): string {
  const lines = text.split('\n').map((line) => line.trim().replace(/^[|\-–—:]+\s*/, ''));
  const said = lines.filter((line) => /[a-z\d]/i.test(line));
  const graded = said.find((line) => gradeIn(line) !== null && !HEADING.test(line));
  if (graded !== undefined) return clean(headOf(graded));
  const first = said[0];
  // `Label 10-30-20`: the grade alone is a name, and figures in another order are seen by it
  if (first !== undefined && HEADING.test(first) && gradeIn(first) !== null && analysisAt(first) === undefined)
    return clean(first.slice(gradeIn(first)!.start, gradeIn(first)!.end));
  if (first === undefined || HEADING.test(first)) return '';
  const salt = first.slice(0, first.search(/[\d,:;]|$/)).trim();
  if (/^[a-z]+(?: [a-z]+)+$/i.test(salt) && !/edta|dtpa/i.test(salt) && saltNamed(salt) !== undefined)
    return clean(salt);
  const at = analysisAt(first);
  const clause = at === undefined ? first : (/^([^:,;%]*)[:,;]/.exec(first)?.[1] ?? first.slice(0, at));
  const head = /[a-z]\s+\d|\d\s*%/i.test(clause) && at !== undefined ? first.slice(0, at) : clause;
  return /[a-z]{3}/i.test(head) && !OF_THE_ANALYSIS.test(head) && !isNutrientName(head) ? clean(head) : '';
}

/** Up to the end of the grade's own clause; from the grade on, where figures stand before it. */
function headOf(line: string): string {
  const { start, end } = gradeIn(line)!;
  const begins = (analysisAt(line) ?? start) < start && /%/.test(line.slice(0, start)) ? start : 0;
  const until = /[,;|]|[.:]\s/.exec(line.slice(end));
  const stops = Math.min(
    until ? end + until.index : line.length,
    Math.max(end, analysisAt(line.slice(end)) === undefined ? line.length : end + analysisAt(line.slice(end))!),
  );
  return line.slice(begins, stops);
}

const clean = (name: string): string =>
  name
    .replace(/\s+/g, ' ')
    .replace(/[\s:;,.|=–—/-]+$/, '')
    .slice(0, 80)
    .trim();

const HEADING =
  /^(?:guaranteed\s+(?:minimum\s+)?analysis|(?:typical\s+|n\W*p\W*k\s+)?analysis|declaration|declared\s+(?:nutrient\s+)?contents?|nutrients?|ingredients?|derived\s+from|composition|contents?|label)\b/i;

/** Words that lead to a nutrient and name no product. */
const OF_THE_ANALYSIS =
  /^\W*(?:water|soluble|total|available|min|minimum|max|at\s+least|chelated|combined|of\s+which|as|in|per|edta|dtpa|contains?|solid|fluid|inorganic|organo|pfc|ec)\b/i;
