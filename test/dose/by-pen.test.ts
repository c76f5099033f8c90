import { describe, expect, it } from 'vitest';
import { amountFor } from '../../src/can/amount-for-reading.js';
import { likelyEc, type Part } from '../../src/can/part.js';
import { staysClear } from '../../src/can/sequence.js';
import { momentsOf } from '../../src/chance/batches.js';
import { varyingCan } from '../../src/chance/varying.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { type CanByPen, measureByPen, type StepByPen, stepsByPen, usualPen } from '../../src/dose/by-pen.js';
import type { Measure } from '../../src/dose/measure.js';
import { orderForPen } from '../../src/dose/pen-order.js';
import { FILLING_SPREAD, toolsOf } from '../../src/dose/tools.js';
import { closeShelf } from '../../src/label/close.js';
import { litres, milliSiemensPerCm } from '../../src/units/index.js';
import { pure } from '../feed/fixtures.js';
import { dice } from '../solver/dice.js';
import { SPOONS } from './kits.js';

const catalog = shippedCatalog();
const market = await closeShelf([...catalog.products, ...catalog.salts]);
const product = (id: string) => market.find((p) => p.id === id)!;
const water = [{ water: catalog.waters.find(({ id }) => id === 'rain')!, share: 1 }];
const tools = toolsOf(SPOONS);
/** 2 % of calibration and a whole ppm, nothing else. */
const PEN = { scale: 500, digit: 1, common: 0.02, each: 0 };

const canOf = (grams: Record<string, number>, more: Partial<CanByPen> = {}): CanByPen => ({
  items: Object.entries(grams).map(([id, amount]) => ({ product: product(id), amount })),
  waters: water,
  litres: litres(4),
  pen: PEN,
  tools,
  known: [...catalog.products, ...catalog.salts],
  ...more,
});
const FOUR = {
  'calcium-nitrate': 0.6,
  'magnesium-sulfate': 0.4,
  'monopotassium-phosphate': 0.3,
  'potassium-nitrate': 0.8,
};

describe('steps by the pen', () => {
  it('each has a measure to start with, a whole reading to reach, and comes to the dose within half a digit', () => {
    const can = canOf(FOUR);
    const parts: Part[] = [];
    for (const step of stepsByPen(can)) {
      if (step.by !== 'pen') throw new Error(`${step.product.id} goes by measure: ${step.why}`);
      parts.push({ product: step.product, perLitre: step.amount / can.litres });
      expect(Number.isInteger(step.until.shown)).toBe(true);
      // amounts follow the rounded readings
      expect(likelyEc(parts, water) * 500).toBeCloseTo(step.until.shown, 5);
      // two readings are rounded by half a digit each
      expect(Math.abs(step.amount / step.wanted - 1) * (step.after - step.before) * 500).toBeLessThan(1.05);
      expect(step.start!.amount).toBeLessThanOrEqual(0.8 * step.wanted);
      expect(step.start!.amount + 2 * step.start!.sd).toBeLessThanOrEqual(step.wanted);
      expect(step.until.tolerance).toBe(1);
      expect(measureByPen(step, PEN)).toMatchObject({
        tool: 'pen',
        words: `${step.start!.words}, then pinches until ${step.until.shown} ppm`,
        sd: step.sd,
      });
    }
  });

  it('urea, kelp and traces go by measure, each with its reason', () => {
    const can = canOf({ urea: 0.5, 'sample-kelp': 2, 'zinc-sulfate': 0.004, 'potassium-nitrate': 1 });
    expect(stepsByPen(can).map((step) => [step.by, step.by === 'measure' ? step.why : null])).toEqual([
      ['measure', 'does not conduct'],
      ['measure', 'organic'],
      ['measure', 'too little'],
      ['pen', null],
    ]);
  });

  it('the calibration moves all doses alike, whatever the order; the digit does not pile up', () => {
    for (const ids of [Object.keys(FOUR), Object.keys(FOUR).reverse()]) {
      const grams = Object.fromEntries(ids.map((id) => [id, FOUR[id as keyof typeof FOUR]]));
      const steps = stepsByPen(canOf(grams, { waterMSPerCm: milliSiemensPerCm(0.03) }));
      steps.forEach((step) => {
        if (step.by !== 'pen') throw new Error('by measure');
        const by = new Map(step.parts.map((part) => [part.factor, part.by]));
        // 2 % of every increment is 2 % of every dose and somewhat more, for conductivity bends: by a fifth where magnesium pairs with sulfate
        expect(-by.get('pen')! / step.amount).toBeGreaterThan(0.02);
        expect(-by.get('pen')! / step.amount).toBeLessThan(0.025);
        // two dips of half a digit, of what a digit is worth in grams
        const digit = (1.25 * step.amount * 0.002) / (step.after - step.before);
        expect(step.sd).toBeLessThan(Math.hypot(0.025 * step.amount, digit));
      });
    }
  });

  it('a pen that shows mS/cm stops at hundredths', () => {
    const steps = stepsByPen(canOf(FOUR, { pen: usualPen(null) }));
    for (const step of steps)
      if (step.by === 'pen')
        expect(Math.abs(step.until.shown * 100 - Math.round(step.until.shown * 100))).toBeLessThan(1e-9);
    expect(steps.some(({ by }) => by === 'pen')).toBe(true);
  });
});

describe('the order', () => {
  const salts = market.filter((p) => p.formula !== undefined && (p.maxRate ?? 1) >= 0.2 && p.kind !== 'acid');
  it.each([1, 2, 3, 4, 5, 6])('shelf %i: no clear order is told better, by trying them all', (seed) => {
    const d = dice(seed);
    const chosen = [...new Set(Array.from({ length: 4 }, () => d.pick(salts)))];
    const can = canOf(Object.fromEntries(chosen.map(({ id }) => [id, d.between(0.1, 2)])), { pen: usualPen(500) });
    const found = orderForPen(can);
    const clear = staysClear(
      found.items.map(({ product: p, amount }) => ({ product: p, perLitre: amount / 4 })),
      water,
    );
    let best = Number.POSITIVE_INFINITY;
    for (const order of permutations(found.items.map((_, i) => i))) {
      if (!order.every((_, i) => clear(order.slice(0, i + 1)))) continue;
      best = Math.min(best, errorOf({ ...can, items: order.map((i) => found.items[i]!) }));
    }
    expect(errorOf({ ...can, items: found.items })).toBeCloseTo(found.error, 9);
    // the usual order stands where no other is a twentieth better
    expect(found.error).toBeLessThanOrEqual(best / 0.95 + 1e-9);
    expect(found.error).toBeLessThanOrEqual(found.usual + 1e-9);
  });

  it('a small increment comes before a large one where a share of the reading is what the pen is off by', () => {
    const { items, error, usual } = orderForPen(
      canOf(
        { 'potassium-nitrate': 3, 'magnesium-sulfate': 0.3 },
        { pen: usualPen(500), waters: [{ water: pure, share: 1 }] },
      ),
    );
    expect(items.map((item) => item.product.id)).toEqual(['magnesium-sulfate', 'potassium-nitrate']);
    expect(error).toBeLessThan(usual);
  });

  /** Squares of relative errors, told anew from the readings. */
  function errorOf(can: CanByPen): number {
    const { each, digit, scale } = can.pen;
    const at = can.items.map((_, i) =>
      likelyEc(
        can.items.slice(0, i + 1).map(({ product: p, amount }) => ({ product: p, perLitre: amount / can.litres })),
        can.waters,
      ),
    );
    return at.reduce((sum, ec, i) => {
      const before = at[i - 1] ?? likelyEc([], can.waters);
      const sd = Math.hypot(each * ec, each * before, digit / 2 / scale!, digit / 2 / scale!);
      return sum + Math.min(0.2, sd / (ec - before)) ** 2;
    }, 0);
  }
});

describe('hands that stop when the pen shows the figure', () => {
  // 400 cans: the standard error of a standard deviation is 3.5 %, three of them stay within 11 %
  const CANS = 400;
  const spoon = (amount: number, sd: number): Measure => ({ tool: 'spoon', words: 'a spoon', amount, actions: 1, sd });
  const can: CanByPen = {
    ...canOf(FOUR),
    items: [{ product: product('sample-kelp'), amount: 2, measure: spoon(2, 0.3) }, ...canOf(FOUR).items],
  };
  const steps = stepsByPen(can);
  const litresDrawn = (d: ReturnType<typeof dice>) => can.litres * (1 + FILLING_SPREAD * normal(d));

  /** g or mL per litre really there, step by step: the pen draws its calibration once and `dip` at each reading, mS/cm. */
  function mix(d: ReturnType<typeof dice>, dip: () => number, real: boolean): number[] {
    const model = real ? MODEL * normal(d) : 0;
    const calibration = PEN.common * normal(d) + model;
    const filled = litresDrawn(d);
    const parts: Part[] = [];
    const doses: number[] = [];
    for (const step of steps) {
      if (step.by === 'measure') {
        doses.push((step.amount + step.measure!.sd * normal(d)) / filled);
        parts.push({ product: step.product, perLitre: doses.at(-1)! });
        continue;
      }
      const stop = step.until.shown / PEN.scale + dip();
      const reads = (perLitre: number) =>
        likelyEc([...parts, { product: step.product, perLitre }], water) * (1 + calibration);
      const { amount } = amountFor((x) => reads(x) - stop, 2, step.amount / can.litres);
      // what conducts is what is in the jar, whatever its label says
      doses.push(real ? amount / (1 + GRADE * normal(d)) : amount);
      parts.push({ product: step.product, perLitre: amount });
    }
    return doses;
  }
  const draw = (seed: number, dip: (d: ReturnType<typeof dice>) => number, real = false): number[][] => {
    const d = dice(seed);
    return Array.from({ length: CANS }, () => mix(d, () => dip(d), real));
  };
  /** A model of conductivity off by 3 % at most, a salt by its grade: as two standard deviations. */
  const [MODEL, GRADE] = [0.015, 0.01];
  const half = PEN.digit / 2 / PEN.scale;
  const normals = draw(11, (d) => half * normal(d));
  // a rounded display first shows its figure half a digit before it, and a pinch goes up to a digit further
  const rounded = draw(12, (d) => half * (2 * d.unit() - 1));

  it.each(steps.map((step, i) => [step.product.id, i] as const))('%s varies as it is said to', (_, i) => {
    const step = steps[i]!;
    const said = sdOf(step) / can.litres;
    expect(sdIn(normals.map((doses) => doses[i]!)) / said).toBeGreaterThan(0.89);
    expect(sdIn(normals.map((doses) => doses[i]!)) / said).toBeLessThan(1.11);
    // half a digit for a standard deviation is more than a display's rounding
    expect(sdIn(rounded.map((doses) => doses[i]!)) / said).toBeLessThan(1.11);
    const mean = normals.reduce((sum, doses) => sum + doses[i]!, 0) / CANS;
    expect(Math.abs(mean - step.amount / can.litres)).toBeLessThan((4 * said) / Math.sqrt(CANS));
  });

  const jars = draw(13, (d) => half * normal(d), true);
  const chosen = steps.map((step) => ({
    product: step.product,
    wanted: step.amount,
    chosen: step.by === 'pen' ? measureByPen(step, PEN) : step.measure!,
    alternatives: [],
  }));
  const plan = { items: chosen, batchLitres: can.litres, tools: [], amounts: { products: [], waters: [1] } };
  const varying = varyingCan(plan, { waters: [water[0]!.water] });

  it.each(['NO3-N', 'K', 'P', 'Ca', 'Mg', 'S'] as const)(
    '%s of the can varies as it is said to, and less than by the spoon',
    (element) => {
      const content = steps.map((step) => step.product.composition.content[element].stated ?? 0);
      const figure = { items: content.map((mean) => ({ mean, nominal: mean, parts: [] })), waters: [0], constant: 0 };
      const said = momentsOf(varying, figure);
      const held = jars.map((doses) => doses.reduce((sum, dose, i) => sum + dose * content[i]!, 0));
      expect(sdIn(held) / said.sd).toBeGreaterThan(0.89);
      expect(sdIn(held) / said.sd).toBeLessThan(1.11);
      const spooned = chosen.map((item) => ({ ...item, chosen: spoon(item.wanted, 0.1 * item.wanted) }));
      const bySpoon = momentsOf(varyingCan({ ...plan, items: spooned }, { waters: [water[0]!.water] }), figure);
      expect(said.sd / said.mean).toBeLessThan(bySpoon.sd / bySpoon.mean);
    },
  );
});

const sdOf = (step: StepByPen): number =>
  step.by === 'pen' ? step.sd : Math.hypot(step.measure!.sd, FILLING_SPREAD * step.amount);

function sdIn(values: readonly number[]): number {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (values.length - 1));
}

/** Box and Muller. */
const normal = (d: ReturnType<typeof dice>): number =>
  Math.sqrt(-2 * Math.log(1 - d.unit())) * Math.cos(2 * Math.PI * d.unit());

function* permutations(items: readonly number[]): Generator<number[]> {
  if (items.length === 0) yield [];
  for (const first of items) for (const rest of permutations(items.filter((i) => i !== first))) yield [first, ...rest];
}
