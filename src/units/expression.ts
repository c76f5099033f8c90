import { type Checked, type Problem, type Where, warning } from '../problem.js';
import { readComparison } from './comparison.js';
import { type LinearRelation, relate } from './linear.js';
import { NotLinear } from './not-linear.js';
import { readNumber } from './readers/number.js';
import { commaNotes } from './readers/read.js';

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
  const chain = readComparison(plain, allowed);
  const strict = new Set(chain.map(({ sign }) => sign).filter((sign) => STRICT.has(sign)));
  if (strict.size > 0) {
    const readAs = [...strict].map((sign) => STRICT.get(sign)).join(' and ');
    warnings.push(
      warning('rule-strict', where, `"${text.trim()}"`, '<= or >=', `Read ${readAs}: a limit includes its bound.`),
    );
  }
  return chain.map(({ left, sign, right }) => {
    const relation = RELATIONS.get(sign);
    if (!relation) throw new NotLinear(`"${sign}"`, '<=, >= or =', 'Write the limit with <=, >= or =.');
    const related = relate(left, relation, right);
    if (!related.ok) throw new NotLinear(`"${text.trim()}"`, related.expected, related.fix);
    return related.relation;
  });
}

const STRICT: ReadonlyMap<string, string> = new Map([
  ['<', '< as <='],
  ['>', '> as >='],
]);

const RELATIONS: ReadonlyMap<string, '<=' | '>=' | '=='> = new Map([
  ['<=', '<='],
  ['<', '<='],
  ['>=', '>='],
  ['>', '>='],
  ['==', '=='],
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
  const other = /[#"'`;\n\r\\{}[\]]/.exec(text);
  if (other)
    throw new NotLinear(
      `"${other[0] === '\n' || other[0] === '\r' ? 'a line break' : other[0]}"`,
      'one limit in plain maths',
      'One rule a line, such as NH4 <= 0.1 * N.',
    );
}
