import { milliSiemensPerCm } from '../units/index.js';
import { type Measured, RULE_NAMES } from '../chemistry/nutrients.js';
import { type Checked, checked, type Problem, problem, type Where } from '../problem.js';
import { parseRelation } from '../units/expression.js';
import type { LinearRelation } from '../units/linear.js';
import type { EcRule, LinearRule, Rule, RuleOrigin } from './rule.js';

const NAMES = [...RULE_NAMES.keys(), 'EC'];

/**
 * Reads rule texts such as `NH4 <= 0.1 * N` or `EC <= 0.8` into one list; every problem of every rule at once. EC may only be capped by
 * a number. A `<` is read as `<=`, which is told in a warning.
 * @param from who asks for them, shown beside the limit
 */
export function parseRules(texts: readonly string[], from: RuleOrigin, where: Where = {}): Checked<Rule[]> {
  const problems: Problem[] = [];
  const rules: Rule[] = [];
  for (const text of texts) {
    const read = parseRelation(text, NAMES, where);
    if (!read.ok) {
      problems.push(...read.problems);
      continue;
    }
    problems.push(...read.warnings);
    for (const relation of read.value) {
      const rule = relation.terms.has('EC')
        ? ecRuleOf(relation, text.trim(), from)
        : linearRuleOf(relation, text.trim(), from);
      if (rule) rules.push(rule);
      else problems.push(onlyCapped(text, where));
    }
  }
  return checked(rules, problems);
}

const onlyCapped = (text: string, where: Where): Problem =>
  problem('rule-ec', where, `"${text}"`, 'EC capped by a number', 'Write EC <= 0.8 (mS/cm), nothing else about EC.');

/** c · EC ≤ bound with c > 0, or the mirror image; null for anything else about EC. */
function ecRuleOf(relation: LinearRelation, text: string, from: RuleOrigin): EcRule | null {
  if (relation.terms.size !== 1) return null;
  const weight = relation.terms.get('EC')!;
  const upper = relation.constant / weight;
  return relation.relation === (weight > 0 ? '<=' : '>=') && upper > 0
    ? { kind: 'ec', text, upper: milliSiemensPerCm(upper), from }
    : null;
}

function linearRuleOf(relation: LinearRelation, text: string, from: RuleOrigin): LinearRule {
  const terms: LinearRule['terms'] = {};
  for (const [name, weight] of relation.terms) {
    const measured: Measured = RULE_NAMES.get(name)!;
    if (weight !== 0) terms[measured] = weight;
  }
  return {
    kind: 'linear',
    text,
    terms,
    ...(relation.relation === '<=' ? {} : { lower: relation.constant }),
    ...(relation.relation === '>=' ? {} : { upper: relation.constant }),
    from,
  };
}
