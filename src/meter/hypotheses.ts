import { type Batch, type PenUse, warmth } from './batch.js';
import { type Fault, NO_FAULT, type Variant } from './cause.js';
import type { Expected } from './expected.js';
import { labelConducts } from './spreads.js';
import { pow } from '../units/elementary.js';

/** One way in which a batch or a reading can have gone wrong, with one figure left open (a factor) or settled. */
export interface Hypothesis {
  /** Hypotheses of one cause share it: `item:2`, `volume`, …; see `Cause`. */
  cause: string;
  /** null where nothing went wrong. */
  fault: Fault | null;
  /** Share of batches, before any reading. */
  prior: number;
  /** The figure left open, each value with its share of the prior. */
  values: { value: number; weight: number }[];
  at: (value: number) => Effect;
}

/** What a hypothesis makes of the can and of the reading. */
export interface Effect {
  /** Expected readings, mS/cm, per moment. */
  mean: number[];
  /** Factors on the amounts. */
  factors: number[];
  /** Factor on the water. */
  volume: number;
  /** Factor on every reading, already in `mean`. */
  gain: number;
}

/**
 * Of a hundred batches that a grower takes the pen to, how many go wrong in which way: from memory and judgement, no trial is known to
 * us. Every figure may be off by a factor of two; readings after each step soon outweigh them.
 */
const PRIORS = {
  none: 0.6,
  /** Shared by all items: an amount off by some factor, forgotten, counted twice or half. */
  amount: 0.12,
  forgotten: 0.06,
  doubled: 0.04,
  halved: 0.02,
  wrongSpoon: 0.01,
  volume: 0.08,
  /** Read at the end, but not topped up to the mark. */
  topping: 0.02,
  scale: 0.02,
  temperature: 0.015,
  pen: 0.01,
  water: 0.015,
  swap: 0.01,
  /** Shared by the items whose salts are not declared: one of them is of none of the make-ups that are likely. */
  label: 0.04,
} as const;

/** Every hypothesis about a batch. */
export function hypothesesOf(batch: Batch, expected: Expected, pen: PenUse): Hypothesis[] {
  const ones = batch.items.map(() => 1);
  const n = batch.items.length;
  const gained = (gain: number): Effect => ({
    mean: expected.planned.map((x) => x * gain),
    factors: ones,
    volume: 1,
    gain,
  });
  const list: Hypothesis[] = [
    { cause: NO_FAULT, fault: null, prior: PRIORS.none, values: SETTLED, at: () => gained(1) },
  ];

  batch.items.forEach((item, i) => {
    const of = (prior: number, values: Hypothesis['values'], variant: Variant | null = null): void => {
      const at = (factor: number): Effect => ({
        mean: expected.withItem(i, factor),
        factors: ones.map((one, k) => (k === i ? factor : one)),
        volume: 1,
        gain: 1,
      });
      list.push({
        cause: `item:${i}`,
        fault: { kind: 'item', item: i, variant },
        prior: prior / n,
        values,
        at,
      });
    };
    of(PRIORS.amount, AMOUNTS);
    of(PRIORS.forgotten, settled(0), 'forgotten');
    of(PRIORS.doubled, settled(2), 'doubled');
    of(PRIORS.halved, settled(0.5), 'halved');
    if (item.bySpoon) of(PRIORS.wrongSpoon, [...settled(4, 0.5), ...settled(0.25, 0.5)], 'wrong spoon');
  });

  const undeclared = batch.items.flatMap(({ product }, i) => (labelConducts(product) === null ? [] : [i]));
  for (const i of undeclared)
    list.push({
      cause: `label:${i}`,
      fault: { kind: 'label', item: i },
      prior: PRIORS.label / undeclared.length,
      values: strays(labelConducts(batch.items[i]!.product)!),
      // it is the salts that are others: the nutrients, and so the doses, are as planned
      at: (factor) => ({ mean: expected.withItem(i, factor), factors: ones, volume: 1, gain: 1 }),
    });

  list.push({
    cause: 'volume',
    fault: { kind: 'volume' },
    prior: PRIORS.volume,
    // no can holds more than to its brim; what is then left of the prior is the share of what can happen
    values: VOLUMES.filter(({ value }) => value * batch.litres <= (batch.brimLitres ?? Number.POSITIVE_INFINITY)),
    at: (volume) => ({ mean: expected.withVolume(volume), factors: ones, volume, gain: 1 }),
  });

  const full = batch.items.at(-1)?.full ?? 1;
  if (full < 1 && expected.moments.includes('end')) {
    const mean = expected.planned.map((x, j) => (expected.moments[j] === 'end' ? expected.withVolume(full)[j]! : x));
    list.push({
      cause: 'topping',
      fault: { kind: 'topping' },
      prior: PRIORS.topping,
      values: settled(full),
      at: () => ({ mean, factors: ones, volume: full, gain: 1 }),
    });
  }

  const scales = scaleGains(pen);
  for (const gain of scales)
    list.push({
      cause: 'scale',
      fault: { kind: 'scale' },
      prior: PRIORS.scale / scales.length,
      values: settled(gain),
      at: gained,
    });

  const warm = temperatureGains(pen);
  if (warm.length > 0)
    list.push({
      cause: 'temperature',
      fault: { kind: 'temperature' },
      prior: PRIORS.temperature,
      values: warm,
      at: gained,
    });

  list.push({ cause: 'pen', fault: { kind: 'pen' }, prior: PRIORS.pen, values: PEN_GAINS, at: gained });

  list.push({
    cause: 'water',
    fault: { kind: 'water' },
    prior: PRIORS.water,
    values: WATER_EC,
    at: (more) => ({ mean: expected.planned.map((x) => x + more), factors: ones, volume: 1, gain: 1 }),
  });

  const pairs = swaps(batch);
  for (const [a, b] of pairs) {
    const [x, y] = [batch.items[a]!.planned, batch.items[b]!.planned];
    const mean = expected.swapped(a, b);
    const factors = ones.map((one, i) => (i === a ? y / x : i === b ? x / y : one));
    list.push({
      cause: `swap:${a}:${b}`,
      fault: { kind: 'swap', item: a, other: b },
      prior: PRIORS.swap / pairs.length,
      values: SETTLED,
      at: () => ({ mean, factors, volume: 1, gain: 1 }),
    });
  }
  return list;
}

/** The scales that pens in use have: 500, 640 and 700 (two meter manuals; common practice). */
const PEN_SCALES: readonly number[] = [500, 640, 700];

/** µS/cm in one mS/cm: what a pen shows that was switched from ppm to conductivity. */
export const MICROSIEMENS = 1000;

/** What a reading is multiplied by where its scale was mistaken; a pen said to show EC may show thousands of ppm, one for ppm µS/cm. */
function scaleGains(pen: PenUse): number[] {
  if (pen.scale === null) return PEN_SCALES.map((scale) => scale / 1000);
  const said = pen.scale;
  return [...PEN_SCALES, MICROSIEMENS]
    .filter((scale) => Math.abs(scale / said - 1) > 0.03)
    .map((scale) => scale / said);
}

/** A pen that does not correct though it was said (or supposed) to, or the other way round; only where that shows. */
function temperatureGains({ temperatureC, compensates }: PenUse): Hypothesis['values'] {
  if (temperatureC === null) {
    // nobody measured it: any can from a cold shed to a warm bench
    const degrees = [5, 8, 11, 14, 17, 20, 29, 32, 35];
    return compensates === false ? [] : degrees.map((t) => ({ value: warmth(t), weight: 1 / degrees.length }));
  }
  const shown = warmth(temperatureC);
  if (Math.abs(shown - 1) < 0.02) return [];
  return settled(compensates === false ? 1 / shown : shown);
}

/** Two items of one form whose amounts differ enough to matter and not so much that nobody would mix them up. */
function swaps({ items }: Batch): [number, number][] {
  return items.flatMap((a, i) =>
    items.flatMap((b, k): [number, number][] => {
      const ratio = a.planned / b.planned;
      const alike = a.product.form === b.product.form && Math.max(ratio, 1 / ratio) < 5;
      return k > i && alike && Math.max(ratio, 1 / ratio) > 1.2 ? [[i, k]] : [];
    }),
  );
}

/** Values from low to high, evenly in parts of themselves, each as likely. */
function spread(low: number, high: number, count: number): Hypothesis['values'] {
  return Array.from({ length: count }, (_, i) => ({
    value: low * pow(high / low, i / (count - 1)),
    weight: 1 / count,
  }));
}

/** Twice as far either way as likely make-ups go. */
const strays = ({ low, high }: { low: number; high: number }): Hypothesis['values'] =>
  spread(pow(low, BEYOND), pow(high, BEYOND), 21);
const BEYOND = 2;

const settled = (value: number, weight = 1): Hypothesis['values'] => [{ value, weight }];
const SETTLED = settled(1);
const AMOUNTS = spread(0.15, 4, 57);
const VOLUMES = spread(0.6, 1.6, 41);
const PEN_GAINS = spread(0.8, 1.25, 21);
const WATER_EC = spread(0.02, 1.5, 31);
