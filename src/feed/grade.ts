import type { Nutrient } from '../chemistry/nutrients.js';
import type { Programme } from '../programme/programme.js';
import type { LinearRule, Rule } from '../programme/rule.js';
import type { MgPerLitre } from '../units/index.js';
import type { MissableLimit } from './limits.js';
import { MAIN_ELEMENTS } from './near.js';

/**
 * What it means to miss a limit. `harm`: too much of something, a feed over it is never recommended. `need`: too little of what plants
 * cannot do without for long, or a rule that somebody asked for. `custom`: a least that only convention stands behind; missing it is told
 * and makes no feed impossible.
 */
export type Grade = 'harm' | 'need' | 'custom';

/** The grade of a limit in a programme: whether a trial stands behind the least of an element is told by its evidence. */
export function gradeOf(limit: MissableLimit, { evidence }: Pick<Programme, 'evidence'>): Grade {
  switch (limit.kind) {
    case 'ec':
      return 'harm';
    case 'rule':
      if (limit.rule.aimed) return 'custom';
      return isCap(limit.rule) ? 'harm' : 'need';
    case 'nutrient': {
      if (limit.end === 'most') return 'harm';
      const tried = evidence.some(
        (one) => one.of.kind === 'band' && one.of.nutrient === limit.nutrient && one.evidence === 'trial',
      );
      return tried || isNeeded(limit.nutrient) ? 'need' : 'custom';
    }
  }
}

/** Whether a feed over it is never recommended, whatever stands behind the programme. */
export const doesHarm = (limit: MissableLimit): boolean => gradeOf(limit, { evidence: [] }) === 'harm';

/** Nitrogen and the main elements but sulfur, of which water, air and impurities bring some. */
const isNeeded = (nutrient: Nutrient): boolean =>
  nutrient === 'N' || (nutrient !== 'S' && MAIN_ELEMENTS.includes(nutrient));

/** Nothing that plants want, or a form of nitrogen that hurts where it is much: a rule that limits it is a cap. */
const HURTS: readonly Nutrient[] = ['NH4-N', 'urea-N', 'other-N', 'Na', 'Cl', 'B', 'Cu', 'Zn', 'Mn'];

/** Whether all that a rule holds down is of the kind that hurts; a rule between elements is about balance. */
function isCap({ terms, upper }: LinearRule): boolean {
  if (upper === undefined) return false;
  const held = (Object.entries(terms) as [Nutrient, number][]).filter(([, weight]) => weight > 0);
  return held.length > 0 && held.every(([nutrient]) => HURTS.includes(nutrient));
}

/** The programme without the least ends that only convention stands behind. */
export function withoutCustom(programme: Programme): Programme {
  const bands = Object.fromEntries(
    Object.entries(programme.bands).map(([name, band]) => {
      if (band.min === undefined || !(band.min > 0)) return [name, band];
      const limit = {
        kind: 'nutrient',
        nutrient: name as Nutrient,
        end: 'least',
        bound: band.min as MgPerLitre,
        owner: 'programme',
      } as const;
      if (gradeOf(limit, programme) !== 'custom') return [name, band];
      const { min: _, ...rest } = band;
      return [name, rest];
    }),
  );
  return { ...withoutAimed(programme), bands };
}

/** The programme without the rules that are only aimed at. @param but those that stay all the same */
export const withoutAimed = (programme: Programme, but: (rule: Rule) => boolean = () => false): Programme => ({
  ...programme,
  rules: programme.rules.filter((rule) => rule.kind !== 'linear' || !rule.aimed || but(rule)),
});
