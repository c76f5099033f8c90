import { nearest } from '../problem.js';
import { ATOMIC_WEIGHTS } from './weights.js';

/** Element symbol → moles. */
export type Atoms = Map<string, number>;

/** Moles of nitrogen by form in one mole of a substance. */
export type NitrogenForms = Record<'NO3-N' | 'NH4-N' | 'urea-N' | 'other-N', number>;

/** Why a formula cannot be read, and at which character (from 0). */
export class FormulaError extends Error {
  readonly found: string;
  readonly expected: string;
  readonly fix: string;
  readonly at: number | undefined;
  constructor(found: string, expected: string, fix: string, at?: number) {
    super(found);
    this.found = found;
    this.expected = expected;
    this.fix = fix;
    this.at = at;
  }
}

/** Subscripts as digits, every kind of dot as a full stop, every kind of bracket as a round one; same length. */
export function spelled(text: string): string {
  return text
    .replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080))
    .replace(/[·•*⋅∙×]/g, '.')
    .replace(/[[{]/g, '(')
    .replace(/[\]}]/g, ')');
}

/** Reads one part without dots, such as `(NH4)2SO4`; `start` is where it stands in the whole formula. */
export function readGroup(text: string, start: number): { atoms: Atoms; nitrogen: NitrogenForms } {
  const { items, end } = itemsFrom(text, 0, start, 0);
  if (end < text.length)
    throw new FormulaError('")"', 'a matching "("', 'Open the bracket or leave it out.', start + end);
  const sum = { atoms: new Map() as Atoms, nitrogen: { 'NO3-N': 0, 'NH4-N': 0, 'urea-N': 0, 'other-N': 0 } };
  tally(items, 1, sum);
  const hill = [...sum.atoms]
    .sort()
    .map(([e, n]) => `${e}${n}`)
    .join('');
  if (hill === UREA) {
    sum.nitrogen = { 'NO3-N': 0, 'NH4-N': 0, 'urea-N': 2, 'other-N': 0 };
  }
  return sum;
}

/** Urea however it is written: CO(NH2)2, (NH2)2CO, CH4N2O; ammonium cyanate is no fertilizer. */
const UREA = 'C1H4N2O1';
const DEEPEST = 8;

type Item = { element: string; count: number } | { inner: Item[]; count: number };

function itemsFrom(text: string, from: number, start: number, depth: number): { items: Item[]; end: number } {
  if (depth > DEEPEST)
    throw new FormulaError(
      'brackets within brackets',
      `at most ${DEEPEST} levels`,
      'Write a simpler formula.',
      start + from,
    );
  const items: Item[] = [];
  let at = from;
  while (at < text.length && text[at] !== ')') {
    if (text[at] === '(') {
      const { items: inner, end } = itemsFrom(text, at + 1, start, depth + 1);
      if (end >= text.length) throw new FormulaError('"("', 'a matching ")"', 'Close the bracket.', start + at);
      if (inner.length === 0)
        throw new FormulaError('an empty bracket', 'elements inside', 'Leave the bracket out.', start + at);
      const { count, next } = countAt(text, end + 1, start);
      items.push({ inner, count });
      at = next;
    } else {
      const symbol = symbolAt(text, at, start);
      const { count, next } = countAt(text, at + symbol.length, start);
      items.push({ element: symbol, count });
      at = next;
    }
  }
  return { items, end: at };
}

function symbolAt(text: string, at: number, start: number): string {
  const two = /^[A-Z][a-z]/.exec(text.slice(at))?.[0];
  if (two) {
    if (ATOMIC_WEIGHTS.has(two)) return two;
    throw unknown(two, at, start);
  }
  const one = text[at]!;
  if (ATOMIC_WEIGHTS.has(one)) return one;
  throw unknown(one, at, start);
}

function unknown(symbol: string, at: number, start: number): FormulaError {
  if (/[+^-]/.test(symbol)) {
    return new FormulaError(
      `"${symbol}"`,
      'a salt, not an ion',
      'Leave charges out and write the whole salt.',
      start + at,
    );
  }
  const guesses = nearest(symbol, ATOMIC_WEIGHTS.keys()).filter(
    (guess) => guess.toLowerCase() === symbol.toLowerCase(),
  );
  const fix =
    guesses.length > 0
      ? `Mind the capitals: ${guesses[0]}.`
      : 'Write element symbols with a capital, such as KNO3 or MgSO4.7H2O.';
  return new FormulaError(`"${symbol}"`, 'an element symbol', fix, start + at);
}

function countAt(text: string, at: number, start: number): { count: number; next: number } {
  const digits = /^\d+/.exec(text.slice(at))?.[0];
  if (digits === undefined) return { count: 1, next: at };
  if (digits.length > 4 || digits.startsWith('0')) {
    throw new FormulaError(`count "${digits}"`, 'a count from 1 to 9999', 'Write for example K2SO4.', start + at);
  }
  return { count: Number(digits), next: at + digits.length };
}

/** Adds atoms up; nitrogen goes by what stands beside it in its own bracket. */
function tally(items: readonly Item[], times: number, sum: { atoms: Atoms; nitrogen: NitrogenForms }): void {
  const carbon = items.some((item) => 'element' in item && item.element === 'C');
  items.forEach((item, i) => {
    if ('inner' in item) {
      tally(item.inner, times * item.count, sum);
      return;
    }
    const moles = times * item.count;
    sum.atoms.set(item.element, (sum.atoms.get(item.element) ?? 0) + moles);
    if (item.element === 'N') sum.nitrogen[formOf(item.count, items[i + 1], carbon)] += moles;
  });
}

/** Beside carbon, N followed by O3 is an amino acid's (C3H7NO3), not a nitrate's. */
function formOf(count: number, next: Item | undefined, carbon: boolean): keyof NitrogenForms {
  if (count !== 1 || !next || !('element' in next)) return 'other-N';
  if (next.element === 'O' && next.count === 3 && !carbon) return 'NO3-N';
  if (next.element === 'H' && (next.count === 4 || (next.count === 3 && !carbon))) return 'NH4-N';
  return 'other-N';
}
