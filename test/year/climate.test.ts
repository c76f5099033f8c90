import { describe, expect, it } from 'vitest';
import type { FeedSpec, MonthWords, SeasonFigures } from '../../src/catalog/bench-types.js';
import { climateOf, restsOf } from '../../src/year/climate.js';
import { compiledPractice } from '../../src/year/compiled-practice.js';
import { planMonths } from '../../src/year/plan-months.js';
import { litres, mgPerLitre } from '../../src/units/index.js';

const { rests } = compiledPractice;
const climate = (figures: SeasonFigures) => climateOf(figures, rests);
const resting = (figures: SeasonFigures, plants = 'phalaenopsis') =>
  [...restsOf(plants, climate(figures), rests)].sort((a, b) => a - b);

/** mol/m² and day behind a window, invented. */
const WINDOW = [3, 4, 7, 9, 10, 11, 11, 10, 8, 6, 3, 2];
const turned = (year: readonly number[]): number[] => [...year.slice(6), ...year.slice(0, 6)];

describe('months of rest', () => {
  it('are winter, or what light and warmth say', () => {
    expect(resting({ hemisphere: 'north' })).toEqual([1, 2, 11, 12]);
    expect(resting({ hemisphere: 'south' })).toEqual([5, 6, 7, 8]);
    // below half of the brightest, 5.5: January, February, November, December
    expect(resting({ light: WINDOW })).toEqual([1, 2, 11, 12]);
    expect(resting({ light: WINDOW.map((x) => x * 1000) })).toEqual([1, 2, 11, 12]);
    // lamps all the year, and a cold January
    expect(resting({ light: Array(12).fill(12), temperature: [14, ...Array(11).fill(20)] })).toEqual([1]);
    expect(resting({ temperature: Array(12).fill(15) })).toEqual([]);
  });

  it('are six months later in the south, for every plant', () => {
    for (const plants of ['phalaenopsis', 'dendrobium-nobile', 'deciduous-orchid']) {
      const south = resting({ hemisphere: 'north' }, plants).map((month) => ((month + 5) % 12) + 1);
      expect(resting({ hemisphere: 'south' }, plants)).toEqual(south.sort((a, b) => a - b));
    }
    expect(resting({ light: turned(WINDOW) })).toEqual(resting({ hemisphere: 'south' }));
  });

  it('tell the half of the world by light, then by warmth, and say where nobody told', () => {
    expect(climate({ light: turned(WINDOW) })).toMatchObject({ hemisphere: 'south', hemisphereBy: 'light' });
    expect(climate({ light: Array(12).fill(9), temperature: turned(WINDOW) })).toMatchObject({
      hemisphere: 'south',
      hemisphereBy: 'temperature',
    });
    expect(climate({ light: WINDOW, hemisphere: 'south' })).toMatchObject({ hemisphereBy: 'said', isOwn: true });
    expect(climate({})).toMatchObject({ hemisphere: 'north', hemisphereBy: 'assumed', isOwn: false });
    // deciduous plants go by the calendar of their half, under lamps too
    expect(resting({ light: Array(12).fill(9), hemisphere: 'south' }, 'dendrobium-nobile')).toEqual([4, 5, 6, 7]);
  });
});

const spec = (name: string, more: Partial<FeedSpec> = {}): FeedSpec => ({
  name,
  plants: 'cattleya',
  medium: 'bark',
  phase: 'growth',
  strength: { kind: 'percent', percent: 80 },
  rules: [],
  where: {},
  ...more,
});

const planned = (feeds: FeedSpec[], figures: SeasonFigures = { hemisphere: 'north' }) =>
  planMonths(
    feeds,
    climate(figures),
    rests,
    () => litres(10),
    (_, phase) => (phase === 'rest' ? 45 : 100),
  );

describe('a feed through the months', () => {
  it('becomes one for rest in months of rest, at the same share of full strength', () => {
    const months = planned([spec('a', { strength: { kind: 'nitrogen', mgPerLitre: mgPerLitre(60) } })]).get('a')!;
    expect(months[0]).toEqual({
      kind: 'fed',
      phase: 'rest',
      strength: { kind: 'nitrogen', mgPerLitre: 27 },
      weeklyLitres: 10,
    });
    expect(months[5]).toMatchObject({ phase: 'growth', strength: { mgPerLitre: 60 } });
  });

  it('shares the year with a feed for rest of the same plants in the same medium', () => {
    const plans = planned([spec('summer'), spec('winter', { phase: 'rest' }), spec('moss', { medium: 'sphagnum' })]);
    expect(
      plans
        .get('summer')!
        .map(({ kind }) => kind)
        .join(' '),
    ).toBe('other other fed fed fed fed fed fed fed fed other other');
    expect(plans.get('winter')!.filter(({ kind }) => kind === 'fed')).toHaveLength(4);
    expect(plans.get('moss')!.every(({ kind }) => kind === 'fed')).toBe(true);
    // alone it is what the season makes of it
    const alone = planned([spec('winter', { phase: 'rest' })]).get('winter')!;
    expect(alone.map((plan) => (plan.kind === 'fed' ? plan.phase : plan.kind)).slice(0, 3)).toEqual([
      'rest',
      'rest',
      'growth',
    ]);
  });

  it('does as the grower says of a month', () => {
    const months = new Map<number, MonthWords>([
      [1, { fed: false }],
      [2, { fed: true, phase: 'growth', weeklyLitres: litres(3) }],
      [7, { fed: true, strength: { kind: 'percent', percent: 50 } }],
    ]);
    const plans = planned([spec('a', { months })]).get('a')!;
    expect(plans[0]).toEqual({ kind: 'none' });
    expect(plans[1]).toMatchObject({ phase: 'growth', weeklyLitres: 3 });
    expect(plans[6]).toMatchObject({ phase: 'growth', strength: { percent: 50 }, weeklyLitres: 10 });
  });
});
