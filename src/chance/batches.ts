import { deviates, FARTHEST } from './deviates.js';
import type { Figure, Part, Source, VaryingCan } from './varying.js';

/** Mean and standard deviation of a figure, with what it was meant to be. */
export interface Moments {
  nominal: number;
  mean: number;
  sd: number;
}

/**
 * Mean and standard deviation of a figure, from the slope in every factor at the mean: exact where doses alone vary, because figures are
 * linear in them; of the products of two spreads it leaves out what is of second order.
 */
export function momentsOf(can: VaryingCan, figure: Figure): Moments {
  const slopes = new Map<string, number>();
  const add = ({ factor, by }: Part, times: number): void => {
    slopes.set(factor, (slopes.get(factor) ?? 0) + by * times);
  };
  let mean = 0;
  let nominal = figure.constant;
  can.items.forEach((item, i) => {
    const coefficient = figure.items[i]!;
    mean += item.perLitre * coefficient.mean;
    nominal += item.perLitre * coefficient.nominal;
    for (const part of item.dose) add(part, coefficient.mean);
    for (const part of coefficient.parts) add(part, item.perLitre);
  });
  add(can.volume, -mean);
  mean += figure.constant;
  const last = figure.waters.at(-1) ?? 0;
  can.waters.forEach(({ share, part }, j) => {
    mean += share * figure.waters[j]!;
    nominal += share * figure.waters[j]!;
    if (part) add(part, figure.waters[j]! - last);
  });
  return { nominal, mean, sd: Math.sqrt([...slopes.values()].reduce((sum, slope) => sum + slope ** 2, 0)) };
}

/** Batches drawn by chance; the doses, volumes and shares of water of each. */
export interface Batches {
  count: number;
  seed: number;
  without: ReadonlySet<Source>;
  /** By item: dose per litre really filled. */
  doses: Float64Array[];
  waters: Float64Array[];
}

/** So many batches of a can; a source in `without` does not vary (for labels: the jar holds what its label says). */
export function drawBatches(
  can: VaryingCan,
  count: number,
  seed: number,
  without: ReadonlySet<Source> = new Set(),
): Batches {
  const vary = (values: Float64Array, part: Part, times = 1): void => {
    if (without.has(part.source)) return;
    const z = deviates(seed, part.factor, count);
    for (let b = 0; b < count; b += 1) values[b]! += times * part.by * z[b]!;
  };
  const volume = new Float64Array(count).fill(1);
  vary(volume, can.volume);
  const doses = can.items.map(({ perLitre, dose }) => {
    const values = new Float64Array(count).fill(perLitre);
    for (const part of dose) vary(values, part);
    for (let b = 0; b < count; b += 1) values[b] = Math.max(0, values[b]!) / volume[b]!;
    return values;
  });
  const waters = can.waters.map(({ share }) => new Float64Array(count).fill(share));
  can.waters.forEach(({ part }, j) => {
    if (!part) return;
    vary(waters[j]!, part);
    vary(waters.at(-1)!, part, -1);
  });
  return { count, seed, without, doses, waters };
}

/** Ends that a figure passes in no batch, found without drawing what labels vary by. */
export function endsIn(
  { without, doses, waters }: Batches,
  { constant, ...figure }: Figure,
): { least: number; most: number } {
  let [least, most] = [constant, constant];
  const add = (values: Float64Array, coefficient: number, stray = 0): void => {
    const { low, high } = endsOf(values);
    least += Math.min(low * coefficient, high * coefficient) - stray * high;
    most += Math.max(low * coefficient, high * coefficient) + stray * high;
  };
  figure.items.forEach(({ nominal, mean, parts }, i) => {
    if (without.has('labels')) add(doses[i]!, nominal);
    else add(doses[i]!, mean, FARTHEST * parts.reduce((sum, { by }) => sum + Math.abs(by), 0));
  });
  figure.waters.forEach((coefficient, j) => {
    add(waters[j]!, coefficient);
  });
  return { least, most };
}

function endsOf(values: Float64Array): { low: number; high: number } {
  const before = ENDS.get(values);
  if (before) return before;
  const ends = { low: Number.POSITIVE_INFINITY, high: Number.NEGATIVE_INFINITY };
  for (const value of values) {
    if (value < ends.low) ends.low = value;
    if (value > ends.high) ends.high = value;
  }
  ENDS.set(values, ends);
  return ends;
}

/** Every limit of a can asks for those of its doses; nothing changes them once they are drawn. */
const ENDS = new WeakMap<Float64Array, { low: number; high: number }>();

/** A figure in each batch. */
export function figureIn({ count, seed, without, doses, waters }: Batches, figure: Figure): Float64Array {
  const values = new Float64Array(count).fill(figure.constant);
  figure.items.forEach(({ nominal, mean, parts }, i) => {
    const dose = doses[i]!;
    const labels = !without.has('labels');
    const coefficient = labels ? mean : nominal;
    if (coefficient !== 0) for (let b = 0; b < count; b += 1) values[b]! += dose[b]! * coefficient;
    for (const { factor, by } of labels ? parts : []) {
      const z = deviates(seed, factor, count);
      for (let b = 0; b < count; b += 1) values[b]! += dose[b]! * by * z[b]!;
    }
  });
  figure.waters.forEach((coefficient, j) => {
    const share = waters[j]!;
    if (coefficient !== 0) for (let b = 0; b < count; b += 1) values[b]! += share[b]! * coefficient;
  });
  return values;
}
