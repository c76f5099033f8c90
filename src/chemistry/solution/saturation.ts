import type { Speciation } from './speciation.js';
import { type Constants, MINERALS, type MineralName, SPECIES } from './species.js';
import { log10 } from '../../units/elementary.js';

/** log10(ion activity product / solubility product); null where an ingredient is absent. */
export type Saturation = Record<MineralName, number | null>;

export function saturationOf(found: Speciation, constants: Constants): Saturation {
  const indices = MINERALS.map(({ parts, water }, position) => {
    let sum = water * log10(found.waterActivity) - constants.minerals[position]!;
    for (const id of parts) {
      const i = PLACE.get(id)!;
      const m = found.molality[i]!;
      if (!(m > 0)) return null;
      sum += log10(m) + found.logGamma[i]!;
    }
    return sum;
  });
  const [gypsum = null, brushite = null, calcite = null, struvite = null] = indices;
  return { gypsum, brushite, calcite, struvite };
}

const PLACE = new Map(SPECIES.map((s, i) => [s.id, i]));
