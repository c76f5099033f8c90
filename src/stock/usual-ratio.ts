import type { ConcentrateRequest } from './concentrate-request.js';

/** 10 mL in a litre: the usual where nobody asks for another. Common practice, no source. */
export const USUAL_RATIO = 100;
/** Stronger ones whose dose a grower still tells by heart: 5, 4 and 2 mL in a litre. */
const STRONGER = [200, 250, 500];
/** More fills of a syringe for one can are counted wrong (judgement). */
export const FEW_FILLS = 6;
/** A jug that lasts longer than this is too old before it is empty; weeks. */
const OLDEST = 16;

/** Fills of a syringe that a can takes of a stock. @param litres of the can */
export const fillsOf = (litres: number, ratio: number, syringeMillilitres: number): number =>
  Math.ceil((1000 * litres) / ratio / syringeMillilitres - 1e-9);

/**
 * Ratios to be had where nobody asks for one, the best first: the usual; where its dose would be many fills of the syringe at hand, before it
 * the weakest stronger ones that take few, as long as a jug of them is used up fresh.
 */
export function usualRatios({
  feed,
  syringeMillilitres = null,
  jugMillilitres,
  weeklyLitres,
}: Pick<ConcentrateRequest, 'feed' | 'syringeMillilitres' | 'jugMillilitres' | 'weeklyLitres'>): number[] {
  const litres = feed?.batchLitres ?? null;
  if (litres === null || syringeMillilitres === null) return [USUAL_RATIO];
  const isFew = (ratio: number): boolean => fillsOf(litres, ratio, syringeMillilitres) <= FEW_FILLS;
  if (isFew(USUAL_RATIO)) return [USUAL_RATIO];
  const isFresh = (ratio: number): boolean =>
    weeklyLitres !== null && (jugMillilitres * ratio) / 1000 <= OLDEST * weeklyLitres;
  return [...STRONGER.filter((ratio) => isFew(ratio) && isFresh(ratio)), USUAL_RATIO];
}
