import { BOUNDS } from './bounds.js';

/** An arithmetic tree over names and numbers. */
export type Form =
  | { kind: 'number'; value: number }
  | { kind: 'name'; name: string }
  | { kind: 'plus' | 'minus' | 'times' | 'over'; left: Form; right: Form };

/** Σ terms[name] · name ⋛ constant. Terms are never zero and never empty. */
export interface LinearRelation {
  terms: Map<string, number>;
  relation: '<=' | '>=' | '==';
  constant: number;
}

type Refused = { ok: false; expected: string; fix: string };

/**
 * Brings a comparison of two trees to linear form. A ratio `Ca / Mg >= 3` is multiplied out to `Ca >= 3 * Mg`, which is the same
 * wherever the amount below the line is above zero (amounts never are below it).
 */
export function relate(
  left: Form,
  relation: LinearRelation['relation'],
  right: Form,
): { ok: true; relation: LinearRelation } | Refused {
  const a = reduce(left);
  const b = reduce(right);
  if (!a.ok) return a;
  if (!b.ok) return b;
  if (a.under && b.under)
    return refuse('a ratio compared with a number', 'Two ratios at once are not linear; compare each with a number.');
  const under = a.under ?? b.under;
  if (under && (![...under.terms.values()].every((v) => v > 0) || under.constant < 0)) {
    return refuse(
      'a ratio over amounts',
      'Below the line only amounts with plus signs may stand, such as Ca / (Ca + Mg).',
    );
  }
  const sideA = b.under ? product(a.over, b.under) : a.over;
  const sideB = a.under ? product(b.over, a.under) : b.over;
  if (!sideA || !sideB)
    return refuse(
      'a ratio compared with a number',
      'A ratio times an amount is not linear; write for example Ca >= 3 * Mg.',
    );
  const sum = add(sideA, sideB, -1);
  if (![sum.constant, ...sum.terms.values()].every(Number.isFinite))
    return refuse('finite numbers', 'Write smaller numbers.');
  if (sum.terms.size === 0)
    return refuse('a limit on at least one nutrient', 'As written the names cancel out; name what is to be limited.');
  return { ok: true, relation: { terms: sum.terms, relation, constant: sum.constant === 0 ? 0 : -sum.constant } };
}

/** `Ca >= 3 * Mg`: positive terms left, negative ones right. */
export function relationText({ terms, relation, constant }: LinearRelation): string {
  const entries = [...terms];
  const term = ([name, weight]: [string, number]): string =>
    Math.abs(weight) === 1 ? name : `${Math.abs(weight)} * ${name}`;
  const left = entries.filter(([, w]) => w > 0).map(term);
  const right = entries.filter(([, w]) => w < 0).map(term);
  if (constant > 0 || (constant === 0 && right.length === 0)) right.push(String(constant));
  if (constant < 0 || (constant === 0 && left.length === 0)) left.push(String(Math.abs(constant)));
  const sides = [left, right].map((side) => (side.length === 0 ? '0' : side.join(' + ')));
  return `${sides[0]} ${relation} ${sides[1]}`;
}

interface Linear {
  terms: Map<string, number>;
  constant: number;
}

/** over ÷ under; without `under` the tree is linear. */
type Reduced = { ok: true; over: Linear; under?: Linear };

function reduce(tree: Form): Reduced | Refused {
  if (tree.kind === 'number') return { ok: true, over: { terms: new Map(), constant: tree.value } };
  if (tree.kind === 'name') return { ok: true, over: { terms: new Map([[tree.name, 1]]), constant: 0 } };
  const a = reduce(tree.left);
  const b = reduce(tree.right);
  if (!a.ok) return a;
  if (!b.ok) return b;
  if (tree.kind === 'over') {
    if (b.under || a.under) return refuse('one division by amounts', 'A ratio of ratios is not linear.');
    if (b.over.terms.size > 0) return { ok: true, over: a.over, under: b.over };
    if (b.over.constant === 0) return refuse('a division by something', 'Nothing can be divided by 0.');
    return { ok: true, over: divide(a.over, b.over.constant) };
  }
  if (tree.kind === 'times') {
    const over = product(a.over, b.over);
    if (!over || (a.under && b.under))
      return refuse('a linear limit', 'An amount times an amount is not linear; multiply by numbers only.');
    const under = a.under ?? b.under;
    return under ? { ok: true, over, under } : { ok: true, over };
  }
  const sign = tree.kind === 'plus' ? 1 : -1;
  if (!a.under && !b.under) return { ok: true, over: add(a.over, b.over, sign) };
  if (a.under && b.under) return refuse('one ratio', 'Two ratios added are not linear.');
  const under = (a.under ?? b.under)!;
  const whole = a.under ? product(b.over, under) : product(a.over, under);
  if (!whole) return refuse('a ratio compared with a number', 'A ratio plus an amount is not linear.');
  return { ok: true, over: a.under ? add(a.over, whole, sign) : add(whole, b.over, sign), under };
}

/** The product, when at least one of the two is a number. */
function product(a: Linear, b: Linear): Linear | undefined {
  if (a.terms.size > 0 && b.terms.size > 0) return undefined;
  const [linear, factor] = a.terms.size > 0 ? [a, b.constant] : [b, a.constant];
  return tidy(new Map([...linear.terms].map(([name, w]) => [name, w * factor])), linear.constant * factor);
}

function divide(a: Linear, by: number): Linear {
  return tidy(new Map([...a.terms].map(([name, w]) => [name, w / by])), a.constant / by);
}

function add(a: Linear, b: Linear, sign: number): Linear {
  const terms = new Map(a.terms);
  for (const [name, w] of b.terms) {
    terms.set(name, sumOf(terms.get(name) ?? 0, sign * w));
  }
  return tidy(terms, sumOf(a.constant, sign * b.constant));
}

/** What two numbers leave that is less than a rule can be written with is rounding. */
const sumOf = (a: number, b: number): number =>
  a !== 0 && b !== 0 && Math.abs(a + b) < BOUNDS.ruleNumber.least ? 0 : a + b;

function tidy(terms: Map<string, number>, constant: number): Linear {
  return { terms: new Map([...terms].filter(([, w]) => w !== 0)), constant };
}

function refuse(expected: string, fix: string): Refused {
  return { ok: false, expected, fix };
}
