import { mgPerLitre } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import type { BlendResult, FrontierMade, Prices, Relaxation } from '../../src/feed/results.js';
import { blendSheet } from '../../src/report/blend.js';
import { frontierSheet } from '../../src/report/frontier.js';
import { frontierSvg } from '../../src/report/frontier-svg.js';
import { frontierJson } from '../../src/report/json/frontier.js';
import { frontierShape } from '../../src/report/schemas.js';
import { renderText } from '../../src/report/text.js';
import { bandEnd, blendResult, header, infeasibleResult, mix } from './fixtures.js';

const said = (result: BlendResult, all = false): string =>
  renderText(blendSheet(result, null, all), { columns: 80, colour: false }).replace(/\s+/g, ' ');

const magnesium = { limit: bandEnd('Mg', 'most', 12), from: 12, to: 14.2, ratio: null, wanted: null };
const single: Relaxation = { kind: 'single', move: magnesium };
const total: Relaxation = {
  kind: 'together',
  total: 0.4,
  moves: [
    { limit: bandEnd('Ca', 'least', 24), from: 24, to: 20, ratio: null, wanted: null },
    { ...magnesium, to: 13 },
  ],
};

describe('why not', () => {
  it('says first what is missing, and not the same again as a conflict', () => {
    const text = said({
      ...infeasibleResult,
      absent: [
        { element: 'Fe', min: mgPerLitre(0.2), broughtBy: [{ kind: 'micro' }, { kind: 'nitrate' }] },
        { element: 'Mo', min: mgPerLitre(0.01), broughtBy: [{ kind: 'micro' }, { kind: 'nitrate' }] },
        { element: 'Si', min: mgPerLitre(1), broughtBy: [] },
      ],
      conflict: [{ limit: bandEnd('Fe', 'least', 0.2), because: [{ kind: 'no source', nutrient: 'Fe', inWater: [] }] }],
      relaxations: [total],
    });
    expect(text).toContain('Why Nothing on this shelf is known to hold Fe, Mo and Si.');
    expect(text).toContain(
      '- Fe and Mo: would come from a trace-element mix, or a nitrate feed - Si: nothing on the market either',
    );
    expect(text).not.toContain('cannot all hold together');
    expect(text).toContain(
      'No single limit is enough; the least that together is - Ca ≥ 24 mg/L: 20 instead of 24 mg/L',
    );
  });

  it('spells the proof out, and claims that every limit is needed only where that is proved', () => {
    const limit = bandEnd('Ca', 'least', 20.4);
    const farkas = { terms: [{ limit, end: 'least' as const, bound: 20.4, times: 0.4 }], asked: 1.3, most: 0 };
    const proved = said({ ...infeasibleResult, irreducible: true, farkas, relaxations: [single, total] });
    expect(proved).toContain('0.4 × (Ca ≥ 20.4 mg/L) must come to at least 1.3');
    expect(proved).toContain('together they ask 0 ≥ 1.3.');
    expect(proved).toContain('without any one of them the rest could');
    expect(proved).toContain('Or a little of each, the least in total');
    expect(said({ ...infeasibleResult, irreducible: false })).not.toContain('without any one of them');
  });
});

describe('what it costs to insist', () => {
  const limit = (saves: number, n: number): Prices['limits'][number] => ({
    limit: bandEnd('K', 'most', n),
    end: 'most',
    bound: n,
    left: { pricePerUnit: null, limit: n },
    right: { pricePerUnit: -1, limit: null },
    lifted: { costPerLitre: 1, saves },
  });
  const product = {
    id: 'x',
    unit: 'g' as const,
    price: 0.02,
    pack: null,
    lowestPerPack: null,
    highestPerPack: null,
    isKnown: true,
  };
  const prices: Prices = {
    cost: 1,
    limits: [limit(0.5, 1), limit(0.4, 2), limit(0.3, 3), limit(0.2, 4), limit(0, 5)],
    used: [{ ...product, lowest: 0, highest: null }],
    unused: [{ ...product, id: 'y', lowest: null, highest: null }],
  };

  it('is short unless all is asked for', () => {
    const short = said({ ...blendResult, prices });
    expect(short).toContain(
      'K ≤ 3 mg/L (programme): no mix could keep a stricter one; each mg/L more saves 1 EUR/L without end; lifting it saves 30 %',
    );
    expect(short).not.toContain('K ≤ 4 mg/L (programme)');
    const all = said({ ...blendResult, prices }, true);
    expect(all).toContain('K ≤ 5 mg/L (programme)');
    expect(all).toContain('x 1 g 0.02 EUR nothing any price');
    expect(all).toContain('y 1 g 0.02 EUR never');
  });

  it('is not there where nothing costs anything', () => {
    const nothing = { cost: 1, limits: [limit(0, 1)], used: [], unused: [] };
    expect(said({ ...blendResult, prices: nothing })).not.toContain('insist');
    expect(said({ ...blendResult, prices: { cost: 1, limits: [], used: [], unused: [] } }, true)).toContain(
      'stands on no limit',
    );
  });
});

describe('the frontier', () => {
  const point = (near: number, cost: number, costOfCloser: number | null): FrontierMade['points'][number] => ({
    near,
    main: 1 + near,
    trace: 2,
    farthest: { element: 'K', mgPerLitre: 60, aim: 50 },
    cost,
    costPerLitre: cost,
    sure: 0.9,
    items: mix.items,
    waters: mix.waters,
    costOfCloser,
  });
  const result: FrontierMade = {
    status: 'made',
    feed: { ...header, name: '<b>&' },
    costUnit: 'EUR/L',
    points: [point(0, 0, null)],
    assumed: [],
    proof: blendResult.proof,
  };

  it('of one point, at no cost and no miss, is still a picture', () => {
    frontierShape.parse(frontierJson(result));
    const svg = frontierSvg(result);
    expect(svg).toContain('nearest and cheapest: 0 %, 0 EUR/L');
    expect(svg).not.toMatch(/NaN|Infinity|<b>/);
    expect(renderText(frontierSheet(result), { columns: 80, colour: false })).toContain('also the nearest');
  });

  it('stays inside its frame', () => {
    const svg = frontierSvg({ ...result, points: [point(0.1, 12_345, 1), point(3.7, 7, null)] });
    for (const [, x, y] of svg.matchAll(/cx="([\d.]+)" cy="([\d.]+)"/g)) {
      expect(Number(x)).toBeGreaterThanOrEqual(84);
      expect(Number(x)).toBeLessThanOrEqual(612);
      expect(Number(y)).toBeGreaterThanOrEqual(56);
      expect(Number(y)).toBeLessThanOrEqual(340);
    }
  });
});
