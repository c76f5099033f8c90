import { type MilliSiemensPerCm, litres, milliSiemensPerCm, millilitres } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeProduct } from '../../src/label/close.js';
import { conductivity } from '../../src/chemistry/conductivity.js';
import { conductingIons, ionsOfWater, plus } from '../../src/can/ec.js';
import { weighSpoon } from '../../src/meter/calibrate.js';
import type { SpoonWeight } from '../../src/meter/spoon-weight.js';
import { seeded } from '../../src/meter/matrix.js';
import { labelSpread, SPREADS } from '../../src/meter/spreads.js';

const POWDERS = ['potassium-nitrate', 'calcium-nitrate', 'magnesium-sulfate', 'sample-base', 'sample-calcium'];
const RUNS = 500;

describe('the pen as a scale', () => {
  it('an exact reading gives the grams back', async () => {
    const catalog = shippedCatalog();
    const water = catalog.waters.find((w) => w.id === 'rain')!;
    for (const id of POWDERS) {
      const product = await closeProduct([...catalog.salts, ...catalog.products].find((p) => p.id === id)!);
      const ec = (grams: number): number =>
        conductivity(plus(ionsOfWater(water), conductingIons(product, 'value'), grams / 4));
      const weighed = weighSpoon({
        product,
        millilitres: millilitres(1.232),
        spoon: '1/4 tsp',
        count: 4,
        before: milliSiemensPerCm(ec(0)),
        after: milliSiemensPerCm(ec(5.2)),
        litres: litres(4),
        water,
      }) as SpoonWeight;
      expect(weighed.gramsTogether).toBeCloseTo(5.2, 4);
      expect(weighed.gramsEach).toBeCloseTo(1.3, 4);
      expect(weighed.bulkDensity).toBeCloseTo(1.3 / 1.232, 4);
      expect(weighed.low).toBeLessThan(1.3);
      expect(weighed.high).toBeGreaterThan(1.3);
    }
  });

  // what is asked for: 85 to 95 % of runs have the truth within the 90 % interval. 500 runs vary by ±1.3 % (binomial), well inside.
  it('the true grams lie within the stated interval in 85 to 95 of 100 trials', async () => {
    const catalog = shippedCatalog();
    const random = seeded(11);
    const pick = <T>(of: readonly T[]): T => of[Math.floor(random.uniform() * of.length)]!;
    let inside = 0;
    for (let run = 0; run < RUNS; run += 1) {
      const [source, powder] = [pick(['rain', 'pure', 'reverse-osmosis']), pick(POWDERS)];
      const water = catalog.waters.find((w) => w.id === source)!;
      const product = await closeProduct([...catalog.salts, ...catalog.products].find((p) => p.id === powder)!);
      const count = 2 + Math.floor(5 * random.uniform());
      const each = 0.4 + random.uniform();
      const volume = 3 + 2 * random.uniform();
      // level spoons repeat within 8 %, the mean of them is what the spoon weighs
      const spooned = Array.from({ length: count }, () => each * (1 + 0.08 * random.normal())).reduce((a, b) => a + b);
      const label = 1 + labelSpread(product) * random.normal();
      const really = volume * (1 + SPREADS.water * random.normal());
      const pen = 1 + SPREADS.penCommon * random.normal();
      const show = (ec: number): MilliSiemensPerCm =>
        milliSiemensPerCm(Math.round(100 * ec * pen * (1 + SPREADS.penEach * random.normal())) / 100);
      const ions = conductingIons(product, 'value');
      const weighed = weighSpoon({
        product,
        millilitres: millilitres(1.232),
        spoon: '1/4 tsp',
        count,
        before: show(conductivity(ionsOfWater(water))),
        after: show(conductivity(plus(ionsOfWater(water), ions, (spooned * label) / really))),
        litres: litres(volume),
        water,
      });
      if (!('reason' in weighed) && weighed.low <= each && each <= weighed.high) inside += 1;
    }
    if (process.env.TELL) console.log(inside / RUNS);
    expect(inside / RUNS).toBeGreaterThanOrEqual(0.85);
    expect(inside / RUNS).toBeLessThanOrEqual(0.95);
  });

  it('a trial that tells nothing is refused, with the reason', async () => {
    const catalog = shippedCatalog();
    const of = async (id: string) => closeProduct([...catalog.salts, ...catalog.products].find((p) => p.id === id)!);
    const trial = { millilitres: millilitres(1.232), spoon: '1/4 tsp', count: 4, litres: litres(4) };
    const nitrate = await of('potassium-nitrate');
    expect(
      weighSpoon({ ...trial, product: nitrate, before: milliSiemensPerCm(0.5), after: milliSiemensPerCm(0.4) }),
    ).toMatchObject({ reason: 'no rise' });
    expect(
      weighSpoon({ ...trial, product: nitrate, before: milliSiemensPerCm(0.01), after: milliSiemensPerCm(0.03) }),
    ).toMatchObject({
      reason: 'too small',
    });
    // urea and most organics do not show on a pen (facts of the trade)
    const urea = await of('urea');
    expect(
      weighSpoon({ ...trial, product: urea, before: milliSiemensPerCm(0.01), after: milliSiemensPerCm(0.2) }),
    ).toMatchObject({
      reason: 'does not conduct',
    });
  });
});
