import { type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import { type Nutrient, RULE_NAMES } from '../chemistry/nutrients.js';
import { type Checked, checked, type Problem, problem, type Where } from '../problem.js';
import { parseRelation } from '../units/expression.js';
import type { LinearRelation } from '../units/linear.js';
import type { Rule } from './rule.js';

/** Rules over nutrients, and the tightest EC cap among them (mS/cm). */
export interface ReadRules {
  rules: Rule[];
  maxEc?: MilliSiemensPerCm;
}

const NAMES = [...RULE_NAMES.keys(), 'EC'];

/**
 * Reads rule texts such as `NH4 <= 0.1 * N` or `EC <= 0.8`; every problem of every rule at once. EC may only be capped by a number. A `<`
 * is read as `<=`, which is told in a warning.
 * @param from who asks for them: `you` or `programme`, shown beside the limit
 */
export function parseRules(texts: readonly string[], from: string, where: Where = {}): Checked<ReadRules> {
  const problems: Problem[] = [];
  const rules: Rule[] = [];
  let maxEc: MilliSiemensPerCm | undefined;
  for (const text of texts) {
    const read = parseRelation(text, NAMES, where);
    if (!read.ok) {
      problems.push(...read.problems);
      continue;
    }
    problems.push(...read.warnings);
    for (const relation of read.value) {
      if (relation.terms.has('EC')) {
        const cap = ecCapOf(relation);
        if (cap === null) {
          problems.push(
            problem(
              'rule-ec',
              where,
              `"${text}"`,
              'EC capped by a number',
              'Write EC <= 0.8 (mS/cm), nothing else about EC.',
            ),
          );
        } else maxEc = milliSiemensPerCm(Math.min(maxEc ?? cap, cap));
      } else rules.push(ruleOf(relation, text.trim(), from));
    }
  }
  return checked({ rules, ...(maxEc === undefined ? {} : { maxEc }) }, problems);
}

/** c · EC ≤ bound with c > 0, or the mirror image. */
function ecCapOf(relation: LinearRelation): number | null {
  if (relation.terms.size !== 1) return null;
  const weight = relation.terms.get('EC')!;
  const cap = relation.constant / weight;
  return relation.relation === (weight > 0 ? '<=' : '>=') && cap > 0 ? cap : null;
}

function ruleOf(relation: LinearRelation, text: string, from: string): Rule {
  const terms: Rule['terms'] = {};
  for (const [name, weight] of relation.terms) {
    const nutrient: Nutrient = RULE_NAMES.get(name)!;
    if (weight !== 0) terms[nutrient] = weight;
  }
  return {
    text,
    terms,
    ...(relation.relation === '<=' ? {} : { lower: relation.constant }),
    ...(relation.relation === '>=' ? {} : { upper: relation.constant }),
    from,
  };
}
