import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import { assess } from '../../src/advice/assess.js';
import { blend } from '../../src/blend/blend.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { dosedByPen } from '../../src/advice/dosed-by-pen.js';
import { parseRecipe } from '../../src/advice/recipe.js';
import { unwrap } from '../../src/problem.js';
import { atStrength, type Medium, PHASES, type Phase, resolveProgramme } from '../../src/programme/index.js';
import { request } from '../feed/fixtures.js';
import { made } from '../feed/answers.js';
import { linearRules } from '../../src/feed/request.js';
import { missesOf } from '../../src/feed/readout.js';

const catalog = shippedCatalog();
const salts = await closeShelf(catalog.salts);
const pureWater = catalog.waters.find((w) => w.id === 'pure')!;

function feed(
  plants: string,
  medium: Medium,
  phase: Phase,
  percent: number,
  more: Partial<FeedRequest> = {},
): FeedRequest {
  const full = unwrap(resolveProgramme(catalog, plants, medium, phase));
  const { programme } = unwrap(atStrength(full, { kind: 'percent', percent }));
  const base = request(
    salts.filter((s) => !['acid', 'alkali'].includes(s.kind ?? '')),
    {},
  );
  return { ...base, programme, waters: [pureWater], header: { ...base.header, plants, medium, phase }, ...more };
}

const everyProgramme = catalog.plants.flatMap((p) =>
  p.media.flatMap((m) => PHASES.map((phase) => [p.id, m, phase] as const)),
);

describe('common practice, no source', () => {
  it('1/8 level US teaspoon of horticultural calcium nitrate in one US gallon of pure water moves a 500-scale pen by about 100 ppm', async () => {
    const recipe = unwrap(dosedByPen(unwrap(parseRecipe('1/8 tsp calcium-ammonium-nitrate in 1 US gal', salts)), []));
    const { ec } = await assess(recipe, { ...feed('phalaenopsis', 'sphagnum', 'growth', 100), shelf: salts });
    const pen = ec.mSPerCm * 500;
    // 15 % is what the issue grants: spoons, bulk densities and pens differ by that much
    expect(pen).toBeGreaterThan(85);
    expect(pen).toBeLessThan(115);
  });

  it('winter feeds run weaker than summer’s, for every plant group and medium', () => {
    let compared = 0;
    for (const plants of catalog.plants) {
      for (const medium of plants.media) {
        const aim = (phase: Phase): number =>
          unwrap(resolveProgramme(catalog, plants.id, medium, phase)).bands.N?.aim ?? 0;
        // plants that take no nitrogen at their roots have no aim for it
        if (aim('growth') === 0) continue;
        expect(aim('rest'), `${plants.id} ${medium}`).toBeLessThan(aim('growth'));
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(20);
  });

  it('calcium goes in before the phosphate part', async () => {
    const { items } = made(await blend(feed('phalaenopsis', 'bark', 'growth', 100)));
    const place = (has: 'Ca' | 'P'): number[] =>
      items.flatMap((item, i) =>
        catalog.salts.find((s) => s.id === item.id)!.composition.content[has].low > 5 ? [i] : [],
      );
    expect(place('Ca').length).toBeGreaterThan(0);
    expect(place('P').length).toBeGreaterThan(0);
    expect(Math.max(...place('Ca'))).toBeLessThan(Math.min(...place('P')));
  });
});

describe('the shipped programmes', () => {
  it('ask half of the nitrogen as nitrate, and aim at three quarters in sphagnum (Wang 2008, HortScience 43:350: at least half, preferably three quarters)', () => {
    for (const [plants, medium, phase] of everyProgramme) {
      const programme = unwrap(resolveProgramme(catalog, plants, medium, phase));
      const floors = (aimed?: true): number[] =>
        linearRules({ programme, rules: [] }).flatMap((r) =>
          r.aimed === aimed && r.terms['NO3-N'] === 1 && r.lower === 0 && Object.keys(r.terms).length === 2
            ? [-(r.terms.N ?? 0)]
            : [],
        );
      expect(Math.max(...floors()), `${plants} ${medium}`).toBeGreaterThanOrEqual(0.5);
      if (medium === 'sphagnum') expect(Math.max(...floors(true)), plants).toBe(0.75);
      expect(programme.evidence.length).toBeGreaterThan(0);
    }
  });

  it('can each be met from plain salts in pure water, at half and at full strength, proved', async () => {
    expect(everyProgramme.length).toBeGreaterThanOrEqual(100);
    for (const [plants, medium, phase] of everyProgramme) {
      for (const percent of [50, 100]) {
        const result = made(await blend(feed(plants, medium, phase, percent), { prices: false }));
        expect(result.status, `${plants} ${medium} ${phase} ${percent} %`).toBe('made');
        expect(result.proof.verdict).toBe('optimal');
        expect(result.proof.figures.gap).toBeLessThanOrEqual(1e-6);
        expect(result.rules.every((r) => r.holds)).toBe(true);
        expect(missesOf(result)).toEqual([]);
      }
    }
  });
});
