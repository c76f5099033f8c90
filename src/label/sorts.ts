import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import type { Composition } from './composition.js';
import { oddness } from './oddness.js';
import { plausibleSources, type Source, TRACES } from './sources.js';

/** A sort of product that may stand behind a label: what it may be made of, and how odd each salt is in it. */
export interface Sort {
  sources: readonly Source[];
  /** What is told, seen as this sort tells it. */
  composition: Composition;
  /** By dry formula. */
  odd: (formula: string) => number;
}

/**
 * Calcium makes gypsum with sulfate and settles with phosphate, so that makers sell it apart from those. A grade that tells no calcium
 * may be of either sort; one of much phosphate, or a whole label without calcium, is of the other (common practice, no source).
 * @param named sources that its list names: not odd
 * @param bare whether somebody copied a grade, so that there may be calcium and magnesium that he did not tell
 */
export function sortsOf(composition: Composition, named: readonly Source[], bare = isBare(composition)): Sort[] {
  const told = bare ? opened(composition) : composition;
  const sources = [...new Set([...plausibleSources(told), ...named])];
  const calcium = composition.content.Ca.stated;
  const listed = new Set(named.map(({ formula }) => formula));
  const sort = (withCalcium: boolean): Sort => ({
    sources: withCalcium ? sources : sources.filter((source) => !(source.mg.Ca > 0) || named.includes(source)),
    composition: told,
    odd: (formula) => {
      if (listed.has(formula)) return 0;
      return oddness(formula) + (withCalcium && SETTLING.test(formula) ? BESIDE_CALCIUM : 0);
    },
  });
  if (calcium !== null && calcium > 0) return [sort(true)];
  const share = (composition.content.P.stated ?? 0) / (composition.content.N.stated || Number.POSITIVE_INFINITY);
  return calcium === null && bare && share <= LITTLE_PHOSPHORUS ? [sort(true), sort(false)] : [sort(false)];
}

/** P : N by mass up to which powders with calcium are sold: 15-5-15 has 0.15. */
const LITTLE_PHOSPHORUS = 0.2;

const SETTLING = /^(?:MgSO4|K2SO4|\(NH4\)2SO4|\(NH4\)2HPO4|K2HPO4)$/;
const BESIDE_CALCIUM = 1;

/** Whether only total nitrogen, phosphate and potash are told: a whole label would tell forms, and what else there is. */
const isBare = ({ content }: Composition): boolean =>
  [...NITROGEN_FORMS, ...SECONDARY, ...TRACES].every((n) => content[n].stated === null);

function opened(composition: Composition): Composition {
  const open = { low: 0, stated: null, high: Number.POSITIVE_INFINITY };
  return { ...composition, content: { ...composition.content, Ca: open, Mg: open } };
}

const SECONDARY: readonly Nutrient[] = ['Ca', 'Mg', 'S', 'Na', 'Cl'];
