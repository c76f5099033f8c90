import type { FeedSpec } from '../catalog/bench-types.js';
import type { RestRow } from '../catalog/practice.js';
import type { Phase } from '../programme/programme.js';
import type { Strength } from '../programme/strength.js';
import type { Litres } from '../units/index.js';
import { type Climate, restsOf } from './climate.js';

/** What a feed is in one month. */
export type MonthPlan =
  | { kind: 'fed'; phase: Phase; strength: Strength; weeklyLitres: Litres }
  /** Another feed of the bench for the same plants in the same medium has this month. */
  | { kind: 'other'; feeds: readonly string[] }
  | { kind: 'none' };

/**
 * What each feed of a bench is in each month, January first. In months of rest a feed for growth or bloom becomes one for rest, unless the
 * bench has a feed of its own for that: then the two share the year. What the grower says of a month goes before all that.
 * @param litresOf litres a week of each feed
 * @param fullNitrogen mg/L of nitrogen at full strength of a feed in a phase, to carry a strength in mg/L over to another phase; null where there is none
 */
export function planMonths(
  feeds: readonly FeedSpec[],
  climate: Climate,
  rests: readonly RestRow[],
  litresOf: (feed: FeedSpec) => Litres,
  fullNitrogen: (feed: FeedSpec, phase: Phase) => number | null,
): Map<string, MonthPlan[]> {
  return new Map(
    feeds.map((feed) => {
      const resting = restsOf(feed.plants, climate, rests);
      const partners = feeds.filter(
        (other) =>
          other !== feed &&
          other.plants === feed.plants &&
          other.medium === feed.medium &&
          (other.phase === 'rest') !== (feed.phase === 'rest'),
      );
      const plans = Array.from({ length: 12 }, (_, i): MonthPlan => {
        const month = i + 1;
        const weeklyLitres = litresOf(feed);
        const said = feed.months?.get(month);
        if (said?.fed === false) return { kind: 'none' };
        const isRest = resting.has(month);
        if (said === undefined && partners.length > 0 && isRest !== (feed.phase === 'rest'))
          return { kind: 'other', feeds: partners.map(({ name }) => name) };
        const usual = isRest ? 'rest' : feed.phase === 'rest' ? (partners.length > 0 ? 'rest' : 'growth') : feed.phase;
        const phase = said?.phase ?? usual;
        const strength = said?.strength ?? carried(feed, phase, fullNitrogen);
        return { kind: 'fed', phase, strength, weeklyLitres: said?.weeklyLitres ?? weeklyLitres };
      });
      return [feed.name, plans];
    }),
  );
}

/** A strength in percent holds in every phase; one in mg/L becomes the same share of the other phase's. */
function carried(
  feed: FeedSpec,
  phase: Phase,
  fullNitrogen: (feed: FeedSpec, phase: Phase) => number | null,
): Strength {
  const { strength } = feed;
  if (strength.kind === 'percent' || phase === feed.phase) return strength;
  const [own, other] = [fullNitrogen(feed, feed.phase), fullNitrogen(feed, phase)];
  if (own === null || other === null) return strength;
  return { kind: 'nitrogen', mgPerLitre: ((strength.mgPerLitre as number) * other) / own } as Strength;
}
