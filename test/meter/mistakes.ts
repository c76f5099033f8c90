import { milliSiemensPerCm } from '../../src/units/index.js';
import type { Batch, Moment, Reading } from '../../src/meter/batch.js';
import { ecOf } from '../../src/meter/expected.js';
import type { seeded } from '../../src/meter/matrix.js';
import { SPREADS, labelSpread } from '../../src/meter/spreads.js';

/** A batch made with a mistake, as it is in truth, and what the pen showed. */
export interface Mishap {
  /** `item:2`, `volume` or `none`. */
  cause: string;
  factor: number;
  amounts: number[];
  litres: number;
  readings: Reading[];
}

type Random = ReturnType<typeof seeded>;

/**
 * A dose × 0.3–3, an item forgotten, or the water wrong by up to 30 %, one in three each; besides, every dose is off as the kit makes it,
 * the water by 2 %, each label by what it leaves open, and the pen by 2 % (half of the variance its own, half of each dip).
 * Read in the water, after every item and at the end, as the sheet asks.
 */
export function mishap(batch: Batch, random: Random): Mishap {
  const which = Math.floor(random.uniform() * 3);
  const item = Math.floor(random.uniform() * batch.items.length);
  const factor = which === 0 ? 0.3 * 10 ** random.uniform() : which === 1 ? 0 : 0.7 + 0.6 * random.uniform();
  return which === 2
    ? made(batch, random, 'volume', factor, () => 1, factor)
    : made(batch, random, `item:${item}`, factor, (i) => (i === item ? factor : 1), 1);
}

/** A batch in which nothing went wrong but what kit, labels and pen do. */
export const rightBatch = (batch: Batch, random: Random): Mishap => made(batch, random, 'none', 1, () => 1, 1);

function made(
  batch: Batch,
  random: Random,
  cause: string,
  factor: number,
  onItem: (i: number) => number,
  onVolume: number,
): Mishap {
  const hands = batch.items.map(({ planned, sd }) => Math.max(0.2, 1 + (sd / planned) * random.normal()));
  const labels = batch.items.map(({ product }) => 1 + labelSpread(product) * random.normal());
  const factors = hands.map((h, i) => h * onItem(i));
  const volume = onVolume * (1 + SPREADS.water * random.normal());
  const pen = 1 + SPREADS.penCommon * random.normal();
  const moments: Moment[] = [0, ...batch.items.map((_, i) => i + 1), 'end'];
  const readings = moments.map((moment): Reading => {
    const ec = ecOf(
      batch,
      moment,
      factors.map((f, i) => f * labels[i]!),
      volume,
    );
    // the pen prints two decimals
    const mSPerCm = Math.round(100 * ec * pen * (1 + SPREADS.penEach * random.normal())) / 100;
    return {
      moment,
      shown: { figure: `${mSPerCm}`, unit: 'mS/cm', scale: null },
      mSPerCm: milliSiemensPerCm(Math.max(0, mSPerCm)),
    };
  });
  return {
    cause,
    factor,
    amounts: batch.items.map(({ planned }, i) => planned * factors[i]!),
    litres: batch.litres * volume,
    readings,
  };
}
