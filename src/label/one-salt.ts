import type { Ions } from '../chemistry/ions.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { Composition } from './composition.js';
import { times } from './counter-ions.js';
import { FULL, USUAL } from './oddness.js';
import type { Sort } from './sorts.js';
import { isForm, SILENT, type Source } from './sources.js';
import { type Figure, figuresOf, type Mass, PRINTS_AS_ZERO, USUAL_SHARE } from './undeclared-program.js';

/**
 * A powder whose figures one usual salt gives back is that salt: so 13-0-44, 12-61-0 and 15.5-0-0 are sold (common practice, no source).
 * @returns the ions of the salt nearest to the figures, mmol in one g; null where there is none, and for a liquid
 */
export function oneSalt(sorts: readonly Sort[], mass: Mass): Ions | null {
  let nearest: { ions: Ions; off: number } | null = null;
  for (const { composition, sources, odd } of sorts) {
    if (composition.per !== 'g') continue;
    const figures = figuresOf(composition, mass, USUAL_SHARE);
    for (const source of sources) {
      const amount = odd(source.formula) > USUAL ? null : amountAlone(source, composition, figures, mass);
      if (amount === null) continue;
      const off = figures.reduce(
        (sum, { nutrient, mg, size }) => sum + Math.abs(amount * source.mg[nutrient] - mg) / size,
        0,
      );
      if (nearest === null || off < nearest.off) nearest = { ions: times(source.ions, amount), off };
    }
  }
  return nearest?.ions ?? null;
}

/** mg of a source that give back every figure and fill the powder up, as near to the largest figure as these allow. */
function amountAlone(
  source: Source,
  { content }: Composition,
  figures: readonly Figure[],
  { whole }: Mass,
): number | null {
  let [least, most] = [(FULL * whole) / source.asSold, whole / source.asSold];
  for (const { nutrient, mg, under, over } of figures) {
    const of = source.mg[nutrient];
    if (of > 0) [least, most] = [Math.max(least, (mg - under) / of), Math.min(most, (mg + over) / of)];
    else if (mg > under) return null;
  }
  const unclaimed = NUTRIENTS.filter((n) => content[n].stated === null && content[n].high === 0);
  const zero = (PRINTS_AS_ZERO * whole) / 100;
  if (unclaimed.some((n) => !SILENT.has(n) && !isForm(n) && source.mg[n] * least > zero)) return null;
  if (!(least <= most)) return null;
  const main = figures.reduce((a, b) => (b.mg > a.mg ? b : a));
  return Math.min(Math.max(main.mg / source.mg[main.nutrient], least), most);
}
