import type { Shown } from './batch.js';
import { ecOf } from './expected.js';
import { distanceOf, type Weighed } from './likelihood.js';

/**
 * What to look at where the readings come near no mistake considered. Empty where some mistake comes within five standard deviations;
 * then the nearest is worth naming.
 */
export function beyondBelief({ batch, points, readings, expected }: Weighed): LookAt[] {
  const seen = readings.map((r) => r.mSPerCm);
  const nearest = Math.min(...points.map((point) => distanceOf(point, seen)));
  if (nearest <= FAR) return [];
  const water = ecOf(
    batch,
    0,
    batch.items.map(() => 1),
    1,
  );
  const dark = readings.find((r) => r.mSPerCm < BELOW_WATER * water - LAST_DIGIT);
  return [
    ...(dark ? [{ kind: 'less than the water', shown: dark.shown, waterMSPerCm: water } as const] : []),
    ...(readings.some((r, j) => r.mSPerCm > HUGE * expected.planned[j]!) ? [{ kind: 'unit of the pen' } as const] : []),
    { kind: 'read once more' },
  ];
}

/** What to look at before anything is done to a can. */
export type LookAt =
  /** A reading, as it was given, below that of the water alone. */
  | { kind: 'less than the water'; shown: Shown; waterMSPerCm: number }
  | { kind: 'unit of the pen' }
  | { kind: 'read once more' };

/** Squared standard deviations: five of them happen to nobody. */
const FAR = 25;
/** The analysis of a water, or rain of another day, may well be off by this. */
const BELOW_WATER = 0.5;
/** mS/cm; a pen that shows two decimals rounds pure water to nothing. */
const LAST_DIGIT = 0.005;
/** More than this many times the planned reading is more likely a unit than a can. */
const HUGE = 5;
