import type { AnalysisColumn } from './analysis.js';
import { PRINTED_NAMES } from './printed-names.js';

/** A figure of a label's text with the nutrient it stands beside. */
export interface Figure {
  column: AnalysisColumn;
  percent: number;
  /** What was printed. */
  printed: string;
  /** Whether its words tell a part of a total. */
  part: boolean;
}

interface Token {
  start: number;
  end: number;
  column?: AnalysisColumn;
  percent?: number;
}

/**
 * Each figure goes to the nutrient that stands before it and has none yet, else to the next one: `Total Nitrogen (N) 12 %  10.5 %
 * Nitrate Nitrogen` and `5 % nitric nitrogen  7 % ureic nitrogen` alike.
 */
export function figuresIn(text: string): { figures: Figure[]; leftOver: string[] } {
  const tokens = tokensIn(text);
  const taken = new Set<Token>();
  const figures: Figure[] = [];
  const leftOver: string[] = [];
  tokens.forEach((token, i) => {
    if (token.percent === undefined) return;
    const [before, after] = [tokens[i - 1], tokens[i + 1]];
    const free = (other: Token | undefined): other is Token =>
      other?.column !== undefined && !taken.has(other) && near(text, token, other);
    // a figure at the head of its line belongs to what follows on that line, where no other figure claims that
    const heads = /(?:^|\n)\s*$/.test(text.slice(0, token.start)) && free(after) && sameLine(text, token, after);
    const name = free(before) && !heads ? before : free(after) ? after : undefined;
    const whole = figures.at(-1);
    if (name === undefined && whole && OF_WHICH.test(text.slice(0, token.start))) {
      const { column, percent } = { ...whole, percent: token.percent };
      figures.push({ column, percent, printed: text.slice(token.start, token.end).trim(), part: true });
      return;
    }
    if (name === undefined) {
      leftOver.push(text.slice(token.start, token.end).trim());
      return;
    }
    taken.add(name);
    const [start, end] = [Math.min(name.start, token.start), Math.max(name.end, token.end)];
    const words = text.slice(Math.max(0, start - 30), end + 30);
    figures.push({
      column: name.column!,
      percent: token.percent,
      printed: text.slice(start, end).replace(/\s+/g, ' ').trim(),
      part: PART.test(words),
    });
  });
  return { figures, leftOver };
}

/** `…, of which chelated by DTPA ` before a figure without a nutrient of its own. */
const OF_WHICH = /of\s+which[^%\n]*$/i;

const PART = /of\s+which|soluble|chelated|complexed|including/i;

/** Nothing but a few words stands between a nutrient and its figure. */
function near(text: string, a: Token, b: Token): boolean {
  const between = a.end <= b.start ? text.slice(a.end, b.start) : text.slice(b.end, a.start);
  return between.length < 90 && (between.match(/\n/g) ?? []).length < 2;
}

const sameLine = (text: string, a: Token, b: Token): boolean => !text.slice(a.end, b.start).includes('\n');

function tokensIn(text: string): Token[] {
  const figures = [...text.matchAll(/(?<![\d.,\w-])(\d{1,3}(?:[.,]\d+)?|[.,]\d+)\s*(%|per\s?cent\b|ppm\b|mg\/kg\b)/gi)];
  const bare =
    figures.length === 0
      ? [...text.matchAll(/(?<![\d.,\w-])(\d{1,2}(?:[.,]\d+)?)(?![\d.,-]*\d|\s*(?:g|kg|ml|l|lb|oz|gal)\b)/gi)]
      : [];
  const found: Token[] = [...figures, ...bare].map((match) => ({
    start: match.index,
    end: match.index + match[0].length,
    percent: percentOf(match[1]!, match[2]),
  }));
  let at = 0;
  while (at < text.length) {
    const name = nameAt(text, at);
    if (name === null) break;
    if (!found.some(({ start, end }) => name.start < end && start < name.end)) found.push(name);
    at = name.end;
  }
  return found.sort((a, b) => a.start - b.start);
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
      return { start: match.index, end: match.index + printed.length, column };
  }
  return null;
}

function percentOf(number: string, unit: string | undefined): number {
  const value = Number(number.replace(',', '.').replace(/^\./, '0.'));
  return unit !== undefined && /ppm|mg/i.test(unit) ? Math.round(value * 100) / 1e6 : value;
}
