import { formatNumber } from '../units/index.js';
import { ecOf } from './expected.js';
import { distanceOf, type Weighed } from './likelihood.js';

/**
 * Readings that come near no mistake considered: what to look at before anything is done to the can. Empty where some mistake comes within
 * five standard deviations; then the nearest is worth naming.
 */
export function beyondBelief({ batch, points, readings, expected, pen }: Weighed): string[] {
  const seen = readings.map((r) => r.mSPerCm);
  const nearest = Math.min(...points.map((point) => distanceOf(point, seen)));
  if (nearest <= FAR) return [];
  const water = ecOf(
    batch,
    0,
    batch.items.map(() => 1),
    1,
  );
  const says: string[] = [];
  const dark = readings.find((r) => r.mSPerCm < BELOW_WATER * water - LAST_DIGIT);
  if (dark)
    says.push(
      `${dark.shown} is less than the water alone reads (${shownAs(water, pen.scale)}): the pen is dry, flat, switched off or not in to its mark. Rinse it and read again.`,
    );
  if (readings.some((r, j) => r.mSPerCm > HUGE * expected.planned[j]!))
    says.push(
      'Look at the unit that the pen shows: mS/cm, µS/cm or ppm, and of which scale (--scale). A pen may change it by itself when a reading is high.',
    );
  says.push(
    'Read once more, stirred, in a clean cup. If it says the same, more than one thing went wrong: do not feed this can; mix anew and read after each step.',
  );
  return says;
}

/** Squared standard deviations: five of them happen to nobody. */
const FAR = 25;
/** The analysis of a water, or rain of another day, may well be off by this. */
const BELOW_WATER = 0.5;
/** mS/cm; a pen that shows two decimals rounds pure water to nothing. */
const LAST_DIGIT = 0.005;
/** More than this many times the planned reading is more likely a unit than a can. */
const HUGE = 5;

const shownAs = (ec: number, scale: number | null): string =>
  scale === null ? `${formatNumber(ec, 2)} mS/cm` : `${formatNumber(ec * scale, 2)} ppm`;
