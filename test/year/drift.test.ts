import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/meter/matrix.js';
import { type Drift, driftOf, type Seen } from '../../src/year/journal/drift.js';

/** A season: a can every week of one feed or two, a standard every other week, and from the tenth week on a drift. */
function season(seed: number, moved: 'nothing' | 'pen' | 'jars', standards: boolean, feeds = ['moss']): Seen[] {
  const { normal } = seeded(seed);
  const offset = new Map(feeds.map((feed) => [feed, 0.04 * normal()]));
  const pen = 0.02 * normal();
  const size = (seed % 2 === 0 ? 1 : -1) * 0.1;
  const seen: Seen[] = [];
  for (let week = 0; week < 18; week += 1) {
    const drift = week >= 10 && moved !== 'nothing' ? size : 0;
    const date = `2026-${String(1 + Math.floor(week / 4)).padStart(2, '0')}-10`;
    for (const feed of feeds) {
      const own = moved === 'pen' || feed === feeds[0] ? drift : 0;
      seen.push({ entry: seen.length + 1, date, feed, off: offset.get(feed)! + own + 0.029 * normal(), sd: 0.029 });
    }
    if (standards && week % 2 === 0)
      seen.push({
        entry: seen.length + 1,
        date,
        feed: null,
        off: pen + (moved === 'pen' ? drift : 0) + 0.0145 * normal(),
        sd: 0.0145,
      });
  }
  return seen;
}

const verdicts = (of: (seed: number) => Seen[]): Map<Drift['verdict'], number> => {
  const counts = new Map<Drift['verdict'], number>();
  for (let seed = 0; seed < 40; seed += 1) {
    const { verdict, none, pen, jars } = driftOf(of(seed));
    expect(none + pen + jars).toBeCloseTo(1, 9);
    counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  }
  return counts;
};

describe('a drift', () => {
  it('is not seen where there is none', () => {
    for (const standards of [true, false])
      expect(verdicts((seed) => season(seed, 'nothing', standards)).get('none')).toBeGreaterThanOrEqual(37);
  });

  it('of the pen is told from one of the jars by the standard', () => {
    expect(verdicts((seed) => season(seed, 'pen', true)).get('pen')).toBeGreaterThanOrEqual(37);
    expect(verdicts((seed) => season(seed, 'jars', true)).get('jars')).toBeGreaterThanOrEqual(37);
  });

  it('is told by another feed too, and by neither where there is but one and no standard', () => {
    const two = ['moss', 'bark'];
    const jars = Array.from({ length: 40 }, (_, seed) => driftOf(season(seed, 'jars', false, two)));
    expect(jars.filter(({ verdict, feed }) => verdict === 'jars' && feed === 'moss').length).toBeGreaterThanOrEqual(37);
    const alone = verdicts((seed) => season(seed, 'pen', false));
    expect(alone.get('either')).toBeGreaterThanOrEqual(35);
    expect(alone.get('pen') ?? 0).toBe(0);
  });

  it('has a size and a day', () => {
    const { share, sd, since } = driftOf(season(4, 'pen', true));
    expect(Math.abs(share - (Math.exp(0.1) - 1))).toBeLessThan(3 * sd);
    // the fifteenth reading or so is the first of the eleventh week
    expect(Math.abs(since!.entry - 16)).toBeLessThanOrEqual(3);
  });

  it('is none by one can that is off, and none by three cans', () => {
    const seen = season(1, 'nothing', true);
    seen[10] = { ...seen[10]!, feed: 'moss', off: seen[10]!.off + 0.25 };
    expect(driftOf(seen).verdict).toBe('none');
    expect(driftOf(seen.slice(0, 4)).verdict).toBe('none');
    expect(driftOf([]).verdict).toBe('none');
  });
});
