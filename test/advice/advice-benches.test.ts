import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { translateAdvice } from '../../src/advice/translate-advice.js';
import { mixNearAims } from './near-mix.js';
import type { OwnFeed } from '../../src/advice/own-feed.js';
import { parseAdvice } from '../../src/advice/parse.js';
import { ecCap, type FeedRequest } from '../../src/feed/request.js';
import { unwrap } from '../../src/problem.js';
import { atStrength, resolveProgramme } from '../../src/programme/index.js';
import type { Medium, Phase } from '../../src/programme/programme.js';
import { benches } from '../feed/random-benches.js';

/** A random bench as the grower's own feed at any strength. */
function ownFeed(request: FeedRequest): OwnFeed {
  const { plants, medium, phase, strengthFactor } = request.header;
  const full = unwrap(resolveProgramme(shippedCatalog(), plants, medium as Medium, phase as Phase));
  const at = (percent: number): FeedRequest => ({
    ...request,
    programme: unwrap(atStrength(full, { kind: 'percent', percent })).programme,
  });
  return { at, mix: mixNearAims, percent: 100 * strengthFactor, full, header: request.header };
}

describe('advice on random benches', async () => {
  const asked = await benches(24, true, 900);

  const seen = { reached: 0, capped: 0, mixed: 0 };

  it.each(asked)(
    'bench $seed: as advised or with a reason, never past the programme, and near its aims',
    async ({ request }) => {
      const feed = ownFeed(request);
      const aim = feed.full.bands.N?.aim ?? 0;
      // plants that take no nitrogen at their roots have no aim for it
      const nitrogen = aim > 0 ? [`${(aim / 3).toFixed(1)}-${(aim * 1.4).toFixed(1)} ppm N`] : [];
      for (const text of [...nitrogen, 'EC 0.25-1.1']) {
        const result = unwrap(await translateAdvice(unwrap(parseAdvice(text)), feed));
        const match = result.status === 'no feed' ? null : result.own.matches[0]!;
        if (match === null) throw new Error(`${text} is held against nothing`);
        expect(match.low.percent).toBeLessThanOrEqual(match.high.percent);
        for (const end of [match.low, match.high]) {
          // what level spoons never reach: 2 %
          if (end.limitedBy === null) {
            expect(Math.abs(end.reached / end.wanted - 1)).toBeLessThanOrEqual(0.02);
            seen.reached += 1;
          }
          expect(end.percent).toBeLessThanOrEqual(100);
          if (end.percent === 0) continue;
          for (const { element, mgPerLitre } of end.elements)
            expect(mgPerLitre, element).toBeLessThanOrEqual(
              (feed.full.bands[element]?.max ?? Number.POSITIVE_INFINITY) * (1 + 1e-5),
            );
          const cap = ecCap(request);
          if (cap !== null) {
            expect(end.ec).toBeLessThanOrEqual(cap * (1 + 1e-5));
            seen.capped += 1;
          }
          const asked = feed.at(end.percent)!;
          const mixed = (await mixNearAims(asked))!;
          expect(mixed.items).toEqual(end.items);
          seen.mixed += 1;
        }
      }
    },
  );

  it('are not all of one kind', () => {
    expect(seen.reached).toBeGreaterThan(20);
    expect(seen.capped).toBeGreaterThan(20);
    expect(seen.mixed).toBeGreaterThan(40);
  });
});
