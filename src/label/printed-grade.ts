import type { AnalysisColumn } from './analysis.js';

/** A grade in a text, N, phosphate and potash, with the secondary elements that are told behind it: `13-2-13 +6Ca +3Mg`. */
export interface PrintedGrade {
  start: number;
  end: number;
  figures: readonly { column: AnalysisColumn; percent: number; printed: string }[];
}

const NUMBER = String.raw`\d{1,2}(?:[.,]\d{1,2})?`;
const PLAIN = new RegExp(
  String.raw`(?<![\d.,–-])(${NUMBER})\s*([-–])\s*(${NUMBER})\s*\2\s*(${NUMBER})(?!\s*[-–]\s*\d|\d)`,
  'g',
);
/** With other signs only beside letters that say what it is, or in brackets. */
const SIGNED = new RegExp(
  String.raw`(?:\bN\s*[-:+ ]?\s*P\s*[-:+ ]?\s*K\b\W{0,3}|\()\s*(${NUMBER})\s*([-:+/–])\s*(${NUMBER})\s*\2\s*(${NUMBER})(?!\d)`,
  'gi',
);
/** `Bloom Booster 3/12/6` where nothing else is said; elsewhere it may be a day. */
const ALONE = new RegExp(String.raw`(?<=^\s*[^\n\d]*)(${NUMBER})\s*([/:])\s*(${NUMBER})\s*\2\s*(${NUMBER})\s*$`, 'g');
const BESIDE = /^\s*[(+]*\s*\+?\s*(\d{1,2}(?:[.,]\d{1,2})?)\s*%?\s*(CaO|Ca|MgO|Mg|SO3|S|Fe)\b\s*\)?/;

/** The one grade of a text; null where there is none, or more than one. */
export function gradeIn(text: string): PrintedGrade | null {
  const found = [...text.matchAll(SIGNED), ...text.matchAll(PLAIN), ...text.matchAll(ALONE)];
  const told = new Map(found.map((match) => [[match[1], match[3], match[4]].map(numberOf).join('-'), match]));
  if (told.size !== 1) return null;
  const match = found[0]!;
  const [n, p, k] = [match[1], match[3], match[4]].map(numberOf) as [number, number, number];
  if (!(n + p + k > 0 && n + p + k <= 100)) return null;
  const printed = match[0].replace(/^\(/, '').trim();
  const figures: { column: AnalysisColumn; percent: number; printed: string }[] = [
    { column: 'N', percent: n, printed },
    { column: 'P2O5', percent: p, printed },
    { column: 'K2O', percent: k, printed },
  ];
  let end = match.index + match[0].length;
  for (let more = BESIDE.exec(text.slice(end)); more !== null; more = BESIDE.exec(text.slice(end))) {
    figures.push({ column: more[2] as AnalysisColumn, percent: numberOf(more[1]), printed: more[0].trim() });
    end += more[0].length;
  }
  return { start: match.index, end, figures };
}

const numberOf = (text: string | undefined): number => Number((text ?? '').replace(',', '.'));
