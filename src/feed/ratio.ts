import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import type { LinearRule } from '../programme/rule.js';
import type { End } from './limits.js';

/** A homogeneous rule of two nutrients seen as a ratio: over : under ≤ bound (most) or ≥ bound (least). */
export interface Ratio {
  over: Nutrient;
  under: Nutrient;
  bound: number;
  end: End;
  /** A form of nitrogen counted in total N: shown in percent. */
  isShare: boolean;
}

/** The ratio behind a rule, or null where it is not one. `NH4 <= 0 * N` counts as the share of NH4 in N. */
export function ratioOfRule(rule: LinearRule, end: End): Ratio | null {
  if ((end === 'most' ? rule.upper : rule.lower) !== 0) return null;
  const terms = Object.entries(rule.terms) as [Nutrient, number][];
  const plus = terms.filter(([, w]) => w > 0);
  const minus = terms.filter(([, w]) => w < 0);
  if (plus.length !== 1 || minus.length > 1) return null;
  const [over, weight] = plus[0]!;
  const isForm = (NITROGEN_FORMS as readonly Nutrient[]).includes(over);
  const under = minus[0]?.[0] ?? (isForm ? 'N' : null);
  if (under === null) return null;
  return {
    over,
    under,
    bound: minus.length === 0 ? 0 : -minus[0]![1] / weight,
    end,
    isShare: isForm && under === 'N',
  };
}

/** The nutrient of a rule like `Cl <= 20`, or null. */
export function soleNutrient({ terms }: LinearRule): Nutrient | null {
  const [first, ...others] = Object.entries(terms) as [Nutrient, number][];
  return first && others.length === 0 && first[1] === 1 ? first[0] : null;
}
