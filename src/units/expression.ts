import { create, type MathNode, parseDependencies } from 'mathjs/number';
import { type Checked, nearest, type Problem, problem, type Where, warning } from '../problem.js';
import { type Form, type LinearRelation, relate } from './linear.js';
import { isWithin, rangeText } from './bounds.js';
import { formatNumber } from './format.js';
import { readNumber } from './readers/number.js';
import { commaNotes } from './readers/read.js';

const math = create({ parseDependencies: parseDependencies! });
const LONGEST = 400;

/**
 * Reads a limit such as `NH4 <= 0.1 * N`, `Ca/Mg >= 3`, `2 <= Ca/Mg <= 5`, `EC <= 0.8` or `NO3 = N` into linear relations over the
 * allowed names; a chain gives one relation for each of its signs. Everything that is not linear, or not a comparison, is refused; nothing
 * is ever evaluated by name, so a rule can run no function. `=` and `==` are the same. A limit includes its bound, so `<` is read as `<=`
 * and `>` as `>=`; that, and a decimal comma, is told in a warning.
 */
export function parseRelation(
  text: string,
  allowedNames: Iterable<string>,
  where: Where = {},
): Checked<LinearRelation[]> {
  const allowed = new Set(allowedNames);
  const warnings: Problem[] = [];
  try {
    return { ok: true, value: read(text, allowed, where, warnings), warnings };
  } catch (error) {
    if (error instanceof NotLinear) return { ok: false, problems: [error.problem(where)] };
    throw error;
  }
}

function read(text: string, allowed: ReadonlySet<string>, where: Where, warnings: Problem[]): LinearRelation[] {
  if (text.trim() === '') throw new NotLinear('an empty rule', 'a limit', 'Write for example NH4 <= 0.1 * N.');
  if (text.length > LONGEST)
    throw new NotLinear(`${text.length} characters`, `at most ${LONGEST}`, 'Split the rule in two.');
  const plain = withPoints(tidy(text), where, warnings);
  refuseHabits(plain);
  const chain = comparisons(parse(plain), plain);
  const strict = new Set(chain.map(({ operator }) => operator).filter((operator) => STRICT.has(operator)));
  if (strict.size > 0) {
    const readAs = [...strict].map((operator) => STRICT.get(operator)).join(' and ');
    warnings.push(
      warning('rule-strict', where, `"${text.trim()}"`, '<= or >=', `Read ${readAs}: a limit includes its bound.`),
    );
  }
  return chain.map(({ left, operator, right }) => {
    const sign = OPERATORS.get(operator);
    if (!sign) throw new NotLinear(`"${operator}"`, '<=, >= or =', 'Write the limit with <=, >= or =.');
    const related = relate(form(left, allowed), sign, form(right, allowed));
    if (!related.ok) throw new NotLinear(`"${text.trim()}"`, related.expected, related.fix);
    return related.relation;
  });
}

const STRICT: ReadonlyMap<string, string> = new Map([
  ['smaller', '< as <='],
  ['larger', '> as >='],
]);

const OPERATORS: ReadonlyMap<string, '<=' | '>=' | '=='> = new Map([
  ['smallerEq', '<='],
  ['smaller', '<='],
  ['largerEq', '>='],
  ['larger', '>='],
  ['equal', '=='],
]);

/** ≤ ≥ × · − and a single = as plain maths. */
function tidy(text: string): string {
  return text
    .replace(/≤|=</g, '<=')
    .replace(/≥|=>/g, '>=')
    .replace(/[×·⋅]/g, '*')
    .replace(/[−–]/g, '-')
    .replace(/(?<![<>=!:])=(?!=)/g, '==')
    .trim();
}

/** Decimal commas as points, each told; what could be a thousands comma is refused. */
function withPoints(text: string, where: Where, warnings: Problem[]): string {
  return text.replace(/\d[\d.,]*,\d[\d.,]*/g, (written) => {
    const number = readNumber(written);
    if (!number.ok) throw new NotLinear(number.found, number.expected, number.fix);
    warnings.push(...commaNotes(number.comma, where));
    return written.replace(',', '.');
  });
}

/** Ways of writing that parse, but mean something else than the grower meant. */
function refuseHabits(text: string): void {
  const form = /\b(NO3|NH4|urea|other)-N\b/i.exec(text);
  if (form)
    throw new NotLinear(
      `"${form[0]}"`,
      'NO3, NH4 or urea (already as nitrogen)',
      `In a rule write ${form[1]}: a minus sign would subtract N.`,
    );
  const unit = /(?<=[\d\s])(mg\/L|mg\/l|g\/L|ppm|mS\/cm|dS\/m|uS\/cm|µS\/cm)/.exec(text);
  if (unit)
    throw new NotLinear(`"${unit[0]}"`, 'a number alone', 'Leave the unit out: rules count in mg/L, and EC in mS/cm.');
  const percent = /(?<![*/(]\s*|[\d.])(\d+(?:\.\d+)?|\.\d+)\s*(?:%|percent\b|per cent\b)(?!\s*[*/])/i.exec(text);
  if (percent) {
    const share = formatNumber(Number(percent[1]) / 100, 12);
    throw new NotLinear(
      `"${percent[0]}"`,
      'a share of something',
      `Say of what: ${share} * N is ${percent[0]} of all nitrogen.`,
    );
  }
  const other = /[#"'`;\n\r\\{}[\]]/.exec(text);
  if (other)
    throw new NotLinear(
      `"${other[0] === '\n' || other[0] === '\r' ? 'a line break' : other[0]}"`,
      'one limit in plain maths',
      'One rule a line, such as NH4 <= 0.1 * N.',
    );
}

function parse(text: string): MathNode {
  try {
    return math.parse!(text);
  } catch (error) {
    const at = /\(char (\d+)\)/.exec((error as Error).message)?.[1];
    const rest = at ? text.slice(Number(at) - 1, Number(at) + 11).trim() : '';
    throw new NotLinear(
      at && rest !== '' ? `"${rest}" at character ${at}` : `"${text}"`,
      'plain maths',
      'Write names, numbers, + - * / and one of <= >= =, such as NH4 <= 0.1 * N.',
    );
  }
}

/** The comparison at the top of the tree, or each neighbouring pair of a chained one. */
function comparisons(node: MathNode, text: string): { left: MathNode; operator: string; right: MathNode }[] {
  const top = bare(node);
  if (isChain(top)) {
    return top.conditionals.map((operator, i) => ({ left: top.params[i]!, operator, right: top.params[i + 1]! }));
  }
  if (isOperator(top) && top.args.length === 2 && COMPARING.has(top.fn)) {
    return [{ left: top.args[0]!, operator: top.fn, right: top.args[1]! }];
  }
  throw new NotLinear(`"${text}"`, 'a comparison', 'Add <=, >= or = and what to compare with, such as NH4 <= 0.1 * N.');
}

const COMPARING: ReadonlySet<string> = new Set(['smaller', 'smallerEq', 'larger', 'largerEq', 'equal', 'unequal']);

/** A node as top ÷ bottom, both linear. Only numbers, allowed names, + − * / and brackets exist here. */
function form(node: MathNode, allowed: ReadonlySet<string>): Form {
  const inner = bare(node);
  if (isNumber(inner)) return { kind: 'number', value: finite(inner.value) };
  if (isName(inner)) return { kind: 'name', name: known(inner.name, allowed) };
  if (isOperator(inner)) {
    const parts = inner.args.map((arg) => form(arg, allowed));
    if (inner.fn === 'unaryMinus') return { kind: 'times', left: { kind: 'number', value: -1 }, right: parts[0]! };
    if (inner.fn === 'unaryPlus') return parts[0]!;
    const kind = ARITHMETIC.get(inner.fn);
    if (kind && parts.length === 2) return { kind, left: parts[0]!, right: parts[1]! };
    throw new NotLinear(
      `"${inner.toString()}"`,
      'a linear limit',
      'Use + - * / with numbers only; powers and logic are not linear.',
    );
  }
  throw new NotLinear(
    `"${inner.toString().slice(0, 60)}"`,
    'names, numbers and + - * /',
    'Functions, lists and conditions are not understood in a rule.',
  );
}

const ARITHMETIC: ReadonlyMap<string, 'plus' | 'minus' | 'times' | 'over'> = new Map([
  ['add', 'plus'],
  ['subtract', 'minus'],
  ['multiply', 'times'],
  ['divide', 'over'],
]);

function known(name: string, allowed: ReadonlySet<string>): string {
  if (allowed.has(name)) return name;
  const guesses = nearest(name, allowed);
  throw new NotLinear(
    `"${name}"`,
    'a name that rules know',
    guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Known names: ${[...allowed].join(' ')}.`,
  );
}

function finite(value: unknown): number {
  if (typeof value === 'number' && isWithin('ruleNumber', value)) return value;
  const found = Number.isFinite(value) ? `"${String(value)}"` : 'a number too large to hold';
  throw new NotLinear(found, `a number ${rangeText('ruleNumber')}`, 'Write a plain number.');
}

function bare(node: MathNode): MathNode {
  let inner = node;
  while (inner.type === 'ParenthesisNode') inner = (inner as MathNode & { content: MathNode }).content;
  return inner;
}

const isNumber = (node: MathNode): node is MathNode & { value: unknown } => node.type === 'ConstantNode';
const isName = (node: MathNode): node is MathNode & { name: string } => node.type === 'SymbolNode';
const isOperator = (node: MathNode): node is MathNode & { fn: string; args: MathNode[] } =>
  node.type === 'OperatorNode';
const isChain = (node: MathNode): node is MathNode & { conditionals: string[]; params: MathNode[] } =>
  node.type === 'RelationalNode';

/** Carries one refusal up through the tree. */
class NotLinear extends Error {
  private readonly parts: [string, string, string];
  constructor(found: string, expected: string, fix: string) {
    super(found);
    this.parts = [found, expected, fix];
  }
  problem(where: Where): Problem {
    return problem('rule', where, ...this.parts);
  }
}
