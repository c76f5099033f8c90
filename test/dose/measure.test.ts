import { describe, expect, it } from 'vitest';
import { measuresOf, measuresWithin } from '../../src/dose/measure.js';
import { toolsOf } from '../../src/dose/tools.js';
import { liquid, powder } from '../feed/fixtures.js';
import { TSP, USUAL, kitOf, spoonsDownTo } from './kits.js';

const dust = powder('dust', { K: 10 }, { bulkDensity: 0.8 });
const drink = liquid('drink', { K: 1 });

describe('tools', () => {
  it('say which teaspoon', () => {
    const kit = kitOf({
      spoons: [
        ...spoonsDownTo(4),
        { label: '1 metric tsp', millilitres: 5 },
        { label: 'pinch', millilitres: TSP / 16 },
      ],
    });
    expect(toolsOf(kit).map((t) => t.label)).toEqual(['metric tsp', 'US tsp', '1/2 US tsp', '1/4 US tsp', 'pinch']);
  });

  it('have the marks that are usual, or those of the grower', () => {
    const mark = (kit: object) => toolsOf({ spoons: [], ...kit })[0]!.step;
    expect(mark({ syringeMillilitres: 1 })).toBe(0.01);
    expect(mark({ syringeMillilitres: 5 })).toBe(0.2);
    expect(mark({ syringeMillilitres: 5, syringeStepMillilitres: 0.1 })).toBe(0.1);
  });

  it('a 0.01 g scale is within 0.025 g nineteen times of twenty (0.02–0.03 g, from memory), unless it says otherwise', () => {
    expect(2 * toolsOf(kitOf({ spoons: [], scaleStepGrams: 0.01 }))[0]!.error).toBeCloseTo(0.025, 12);
    expect(2 * toolsOf(kitOf({ spoons: [], scaleStepGrams: 0.01, scaleErrorGrams: 0.05 }))[0]!.error).toBeCloseTo(
      0.05,
      12,
    );
  });

  it('level spoons repeat within 5 to 15 % (from memory)', () => {
    for (const { spread } of toolsOf({ spoons: spoonsDownTo(64) })) {
      expect(spread).toBeGreaterThanOrEqual(0.05);
      expect(spread).toBeLessThanOrEqual(0.15);
    }
  });
});

describe('measures', () => {
  it('are at most three scoops of at most two sizes', () => {
    const all = measuresWithin(dust, toolsOf({ spoons: spoonsDownTo(8) }), 0, 100);
    // four sizes: 4 × 3 of one, 6 pairs × 3 of two; some come to the same amount, and the fewest scoops stay
    expect(all.every((m) => m.actions >= 1 && m.actions <= 3 && m.words.split(' + ').length <= 2)).toBe(true);
    expect(all.find((m) => Math.abs(m.amount - 0.8 * TSP) < 1e-9)!.words).toBe('1 level US tsp');
    expect(all.map((m) => m.words)).toContain('2 level US tsp + 1 level 1/8 US tsp');
    const amounts = all.map((m) => m.amount.toPrecision(9));
    expect(new Set(amounts).size).toBe(amounts.length);
  });

  it('of a powder weigh by its bulk density', () => {
    const [half] = measuresWithin(dust, toolsOf(kitOf({ spoons: [{ label: '1/2 tsp', millilitres: TSP / 2 }] })), 0, 2);
    expect(half!.amount).toBeCloseTo((0.8 * TSP) / 2, 12);
  });

  it('of a liquid are full spoons, marks and drops', () => {
    const tools = toolsOf(kitOf({ ...USUAL, dropsPerMillilitre: 20 }));
    const words = measuresOf(drink, tools, 0.35).map((m) => m.words);
    expect(words).toEqual(expect.arrayContaining(['0.35 mL', '7 drops', '1 full 1/16 US tsp']));
    expect(measuresWithin(drink, tools, 2.4, 2.4).map((m) => m.words)).toContain('2.40 mL (3 fills)');
  });

  it('begin where a scale tells something', () => {
    expect(
      measuresWithin(dust, toolsOf(kitOf({ spoons: [], scaleStepGrams: 0.01 })), 0, 0.1).map((m) => m.words),
    ).toEqual(['0.06 g', '0.07 g', '0.08 g', '0.09 g', '0.10 g']);
  });

  it('vary by the root of the sum of squares: two scoops by less than twice one', () => {
    const spoons = toolsOf(kitOf({ spoons: [{ label: '1/4 tsp', millilitres: TSP / 4 }] }));
    const [one, two] = measuresWithin(dust, spoons, 0, 10);
    expect(two!.sd).toBeGreaterThan(Math.SQRT2 * one!.sd);
    expect(two!.sd).toBeLessThan(2 * one!.sd);
  });
});
