import type { AnalysisColumn } from './analysis.js';
import { gradeIn } from './printed-grade.js';
import { PRINTED_NAMES } from './printed-names.js';
import { pairsOf } from './printed-pairs.js';

/** A figure of a label's text with the nutrient it stands beside. */
export interface Figure {
  column: AnalysisColumn;
  percent: number;
  /** What was printed. */
  printed: string;
  /** Whether its words tell a part of a total. */
  part: boolean;
}

type Token = { start: number; end: number } & (
  | { isFigure: false; column: AnalysisColumn }
  | { isFigure: true; percent: number; bare?: boolean; stray?: boolean }
);

/** Each figure with the nutrient that it is said of; `leftOver` are those beside which none stands; `perLitre`: some are in g/L. */
export function figuresIn(text: string): { figures: Figure[]; leftOver: string[]; perLitre: boolean } {
  const tokens = tokensIn(text);
  const pairs = pairsOf(tokens, text);
  const figures: Figure[] = [];
  const leftOver: string[] = [];
  for (const token of tokens) {
    if (!token.isFigure) continue;
    const name = pairs.get(token);
    const own = text.slice(token.start, token.end).trim();
    const whole = figures.at(-1);
    if (name !== undefined && !name.isFigure) {
      const [start, end] = [Math.min(name.start, token.start), Math.max(name.end, token.end)];
      const words = text.slice(Math.max(0, start - 30), end + 30);
      figures.push({
        column: name.column,
        percent: token.percent,
        printed: text.slice(start, end).replace(/\s+/g, ' ').trim(),
        part: PART.test(words),
      });
    } else if (whole && OF_WHICH.test(text.slice(0, token.start))) {
      figures.push({ column: whole.column, percent: token.percent, printed: own, part: true });
    } else if (!token.bare || standsAlone(text, token)) leftOver.push(own);
  }
  const perLitre = [...pairs.keys()].some(({ start, end }) => /g\s?\/\s?l/i.test(text.slice(start, end)));
  return { figures, leftOver, perLitre };
}

/** Where the analysis begins in a line that tells figures: at its first nutrient or figure; undefined where it tells none. */
export function analysisAt(line: string): number | undefined {
  const tokens = tokensIn(line);
  const isAnalysis =
    tokens.some((token) => token.isFigure && !token.bare) ||
    // bare numbers are figures where nutrients stand beside several
    Math.min(tokens.filter(({ isFigure }) => isFigure).length, tokens.filter(({ isFigure }) => !isFigure).length) > 1;
  return isAnalysis ? tokens[0]!.start : undefined;
}

/** True where the words say a nutrient and nothing else. */
export function isNutrientName(words: string): boolean {
  const [only, ...more] = tokensIn(words);
  return (
    only !== undefined && more.length === 0 && !/[a-z]{3}/i.test(words.slice(0, only.start) + words.slice(only.end))
  );
}

/** `…, of which chelated by DTPA ` or `(… ` before a figure without a nutrient of its own. */
const OF_WHICH = /(?:of\s+which|chelated|soluble|combined)[^%\n]*$/i;

const PART = /of\s+which|soluble|chelated|complexed|including|combined/i;

/** A bare number at the end of a line of words: its nutrient may be misspelt. */
const standsAlone = (text: string, { start, end }: Token): boolean =>
  /(?:^|\n)[ \t]*(?!density|specific|pH\b|ec\b|net\b|batch|lot\b|reg)[a-z][a-z ()]*[\s:=]+$/i.test(
    text.slice(0, start),
  ) && /^\s*(?:\n|$)/.test(text.slice(end));

function tokensIn(text: string): Token[] {
  const inHundred = /per\s*100\s*(?:g|ml)\b|g\s*\/\s*100\s*(?:g|ml)\b/i.test(text);
  const units = `%|per\\s?cent\\b|pct\\b|ppm\\b|m?g\\s?\\/\\s?(?:kg|l(?:itre)?)\\b${inHundred ? '|g\\b(?!\\s*\\/)' : ''}`;
  const figures = [
    ...text.matchAll(new RegExp(`(?<![\\d.,\\w-])(?<!\\bper\\s*)(\\d{1,6}(?:[.,]\\d+)?|[.,]\\d+)\\s*(${units})`, 'gi')),
  ];
  const numbers = text.matchAll(
    /(?<![\d.,\w-])(\d{1,2}(?:[.,]\d+)?|[.,]\d+)(?![\d.,-]*\d|\s*(?:%|(?:[Pp]er\s?[Cc]ent|pct|ppm|m?g|kg|m[lL]|[lL]|LB|lbs?|OZ|oz|gal|fl|tsp)\b))/g,
  );
  const bare = [...numbers];
  // beside a grade one number alone may be of anything: it counts right behind its nutrient
  const withUnits = figures.length > 0 || (bare.length === 1 && gradeIn(text) !== null);
  const found: Token[] = [
    ...figures.map((match) => figureOf(match)),
    ...bare.map((match) => ({ ...figureOf(match, true), ...(withUnits ? { stray: true } : {}) })),
  ];
  let at = 0;
  while (at < text.length) {
    const name = nameAt(text, at);
    if (name === null) break;
    if (!found.some(({ start, end }) => name.start < end && start < name.end)) found.push(name);
    at = name.end;
  }
  return found.sort((a, b) => a.start - b.start);
}

function figureOf(match: RegExpMatchArray, bare = false): Token {
  return {
    isFigure: true,
    start: match.index!,
    end: match.index! + match[0].length,
    percent: percentOf(match[1]!, bare ? '%' : match[2]!),
    ...(bare ? { bare } : {}),
  };
}

const NAMES = new RegExp(
  PRINTED_NAMES.map(({ pattern }) => `(?<![A-Za-z0-9-])(${pattern})(?![a-z0-9])`).join('|'),
  'gi',
);

function nameAt(text: string, from: number): Token | null {
  NAMES.lastIndex = from;
  for (let match = NAMES.exec(text); match !== null; match = NAMES.exec(text)) {
    const which = match.slice(1).findIndex((group) => group !== undefined);
    // a sign keeps its capitals: `s`, `co` and `b` are no elements
    const { column } = PRINTED_NAMES[which]!;
    const printed = match[0];
    if (printed.length > 2 || /^[A-Z]/.test(printed))
      return { isFigure: false, start: match.index, end: match.index + printed.length, column };
  }
  return null;
}

/** %, or g in 100 mL: of ppm, mg/kg and mg/L the ten thousandth part, of g/kg and g/L the tenth. */
function percentOf(number: string, unit: string): number {
  const value = Number(number.replace(',', '.').replace(/^\./, '0.'));
  if (/ppm|mg/i.test(unit)) return Math.round(value * 100) / 1e6;
  return /\//.test(unit) ? Math.round(value * 1e5) / 1e6 : value;
}
