import type { FlushRow } from '../catalog/practice.js';
import type { Medium } from '../programme/programme.js';
import { litres } from '../units/index.js';
import type { FlushPlan, PotsOfFeed } from './season-types.js';

/**
 * When the pots of a feed are flushed with plain water: each time as many weeks of feed have gone by as the row of the medium says. Weeks
 * without feed bring no salts and count for nothing.
 * @param fed for each week whether the feed is given
 */
export function flushPlan(
  medium: Medium,
  { pots, potLitres }: PotsOfFeed,
  fed: readonly boolean[],
  rows: readonly FlushRow[],
): FlushPlan {
  const { everyWeeks, potVolumes, refs, source, evidence, notes } = rows.find((row) => row.medium === medium)!;
  const perPot = potVolumes === null || potLitres === null ? null : litres(potVolumes * potLitres);
  let since = 0;
  const weeks = fed.flatMap((isFed, i) => {
    since += isFed ? 1 : 0;
    if (!isFed || since < everyWeeks) return [];
    since = 0;
    return [i + 1];
  });
  return {
    everyWeeks,
    potVolumes,
    litresPerPot: perPot,
    litres: perPot === null || pots === null ? null : litres(perPot * pots),
    weeks,
    support: { refs, source, evidence, notes },
  };
}
