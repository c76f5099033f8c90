import { type Batch, itemsAt, type PenUse, type Reading } from './batch.js';
import type { Fault } from './cause.js';
import { type Expected, expectedReadings } from './expected.js';
import { type Effect, type Hypothesis, hypothesesOf } from './hypotheses.js';
import { inverse } from './matrix.js';
import { SPREADS } from './spreads.js';
import { isPlan, SAID, type Told } from './told.js';
import { freshSpread } from '../chance/lasting.js';
import { learnedKey, PEN_KEY, rootOf } from '../chance/learned.js';
import { exp, hypot, log, pow } from '../units/elementary.js';

/** One hypothesis at one value of its open figure, weighed against the readings. */
export interface Point {
  hypothesis: Hypothesis;
  value: number;
  effect: Effect;
  /** Share of the whole, given the readings. */
  probability: number;
  /** Readings' covariance with what hands, labels and pen do by chance; see `Noise`. */
  noise: Noise;
  /** The water that it was made with, where that is another than planned. */
  waters: Batch['waters'];
}

/** How chance moves the readings: one column per source, each with its standard deviation already in it. */
export interface Noise {
  /** Per moment: each item's amount, each item's label, the water, the pen's common error. */
  columns: number[][];
  /** Inverse of the covariance of the readings. */
  precision: number[][];
}

/** Everything the readings say. */
export interface Weighed {
  batch: Batch;
  readings: readonly Reading[];
  pen: PenUse;
  told: Told | null;
  expected: Expected;
  points: Point[];
  /** Standard deviation of each reading where nothing went wrong, mS/cm. */
  sd: number[];
  /** Squared distance of the readings from the plan in standard deviations; as many degrees of freedom as readings. */
  distance: number;
}

/**
 * Weighs every hypothesis by all readings jointly: Gaussian errors of hands, labels, water, pen and model, carried through by the slopes of
 * the conductivity; one open figure per hypothesis is summed over a grid (Bayes' rule). What the grower said is a batch of its own, with
 * which something else can be wrong as well; without readings there is nothing else.
 */
export function weigh(batch: Batch, readings: readonly Reading[], pen: PenUse, told: Told | null = null): Weighed {
  const moments = readings.map((r) => r.moment);
  const expected = expectedReadings(batch, moments);
  const seen = readings.map((r) => r.mSPerCm);
  const logs: { point: Omit<Point, 'probability'>; log: number }[] = [];
  let plan: { noise: Noise; sd: number[]; distance: number } | null = null;
  for (const { own, prior, hypotheses } of worldsOf(batch, readings, pen, told)) {
    const there = expectedReadings(own, moments);
    const lasts = ownErrors(own, there);
    for (const hypothesis of hypotheses(there)) {
      for (const { value, weight } of hypothesis.values) {
        const effect = taught(hypothesis.at(value), there, own, lasts);
        const { noise, logDeterminant, sd } = noiseOf(own, there, effect, lasts);
        const off = seen.map((x, j) => x - effect.mean[j]!);
        const distance = quadratic(noise.precision, off);
        if (hypothesis.fault === null) plan = { noise, sd, distance };
        const logOfChance = log(prior * hypothesis.prior * weight) - 0.5 * (distance + logDeterminant);
        const point = { hypothesis, value, effect: onPlan(effect, own, batch), noise, waters: own.waters };
        logs.push({ point, log: logOfChance });
      }
    }
  }
  plan ??= planAlone(batch, expected, seen);
  const most = Math.max(...logs.map(({ log }) => log));
  const total = logs.reduce((sum, { log }) => sum + exp(log - most), 0);
  const points = logs.map(({ point, log }) => ({ ...point, probability: exp(log - most) / total }));
  return { batch, readings, pen, told, expected, points, sd: plan.sd, distance: plan.distance };
}

/** A batch that may be in the can, how likely before any reading, and what may be wrong with it. */
interface World {
  own: Batch;
  prior: number;
  hypotheses: (expected: Expected) => Hypothesis[];
}

function worldsOf(batch: Batch, { length }: readonly Reading[], pen: PenUse, told: Told | null): World[] {
  const all = (own: Batch) => (expected: Expected) =>
    hypothesesOf(own, expected, pen).filter(({ fault }) => !isOfNothing(fault, own));
  const none = (own: Batch) => (expected: Expected) => all(own)(expected).filter(({ fault }) => fault === null);
  if (told === null) return [{ own: batch, prior: 1, hypotheses: all(batch) }];
  const said = told.ways.map((way, k): World => {
    const { batch: own, share } = way;
    if (isPlan(way)) return { own, prior: share, hypotheses: none(own) };
    const of = length === 0 ? none(own) : all(own);
    return { own, prior: share, hypotheses: (expected) => of(expected).map(asSaid(k)) };
  });
  // words alone are all that is known
  if (length === 0) return said;
  const unsaid: World = { own: batch, prior: 1 - SAID, hypotheses: all(batch) };
  return [...said.map((world) => ({ ...world, prior: SAID * world.prior })), unsaid];
}

/** With an item of which nothing is in, nothing more can be wrong. */
const isOfNothing = (fault: Fault | null, { items }: Batch): boolean =>
  fault !== null && 'item' in fault && items[fault.item]!.planned === 0;

/** A hypothesis on top of what was said. */
const asSaid =
  (way: number) =>
  (hypothesis: Hypothesis): Hypothesis => {
    const { fault, cause } = hypothesis;
    const besides = fault?.kind === 'said' ? null : fault;
    return {
      ...hypothesis,
      cause: fault === null ? `said:${way}` : `said:${way}+${cause}`,
      fault: { kind: 'said', way, besides },
    };
  };

/** An effect on a batch as one on the plan: by its amounts and its water. */
const onPlan = (effect: Effect, own: Batch, plan: Batch): Effect =>
  own === plan
    ? effect
    : {
        ...effect,
        factors: effect.factors.map((factor, i) => factor * ratio(own.items[i]!.planned, plan.items[i]!.planned)),
        volume: (effect.volume * own.litres) / plan.litres,
      };

const ratio = (x: number, of: number): number => (of > 0 ? x / of : 1);

function planAlone(batch: Batch, expected: Expected, seen: readonly number[]) {
  const ones = batch.items.map(() => 1);
  const lasts = ownErrors(batch, expected);
  const plain = { mean: expected.planned, factors: ones, volume: 1, gain: 1 };
  const { mean } = taught(plain, expected, batch, lasts);
  const { noise, sd } = noiseOf(batch, expected, { ...plain, mean }, lasts);
  const off = seen.map((x, j) => x - mean[j]!);
  return { noise, sd, distance: quadratic(noise.precision, off) };
}

/** Squared distance of the readings from what a point expects, in its own standard deviations. */
export function distanceOf({ effect, noise }: Pick<Point, 'effect' | 'noise'>, seen: readonly number[]): number {
  return quadratic(
    noise.precision,
    seen.map((x, j) => x - effect.mean[j]!),
  );
}

/** Whether a squared distance is no surprise: one in twenty right batches lies beyond (Wilson & Hilferty's cube root, from memory). */
export function unsurprising(distance: number, readings: number): boolean {
  const spread = 2 / (9 * readings);
  return (pow(distance / readings, 1 / 3) - (1 - spread)) / Math.sqrt(spread) < 1.645;
}

function noiseOf(
  batch: Batch,
  expected: Expected,
  effect: Effect,
  lasts: OwnErrors | null,
): { noise: Noise; logDeterminant: number; sd: number[] } {
  const { items } = batch;
  const columns = expected.moments.map((moment, j) => {
    const there = itemsAt(batch, moment);
    // what an item adds grows with its amount and falls with the water
    const slope = (i: number): number => (i < there ? slopeOf(expected, effect, j, i) : 0);
    const scale = expected.planned[j]! > 0 ? effect.mean[j]! / expected.planned[j]! : 1;
    const volume = expected.volumeSlopes[j]! * scale * SPREADS.water;
    const spread = (item: Batch['items'][number]): number => (item.planned > 0 ? item.sd / item.planned : 0);
    if (lasts === null)
      return [
        ...items.map((item, i) => slope(i) * spread(item)),
        ...items.map((_, i) => slope(i) * expected.labelSpreads[i]!),
        volume,
        effect.mean[j]! * hypot(SPREADS.penCommon, SPREADS.model),
      ];
    // what lasts of doses, labels and pen is known together: as many columns as there were for labels and pen
    const along = [...items.map((_, i) => slope(i)), effect.mean[j]!];
    const lasting = along.map((_, c) => along.reduce((sum, x, k) => sum + x * lasts.root[k]![c]!, 0));
    return [
      ...items.map((item, i) => slope(i) * freshSpread(spread(item), item.lasting ?? 0)),
      ...lasting.slice(0, -1),
      volume,
      lasting.at(-1)!,
    ];
  });
  const own = effect.mean.map((mean) => (mean * SPREADS.penEach) ** 2 + SPREADS.lastDigit ** 2);
  const covariance = columns.map((a, j) =>
    columns.map((b, k) => a.reduce((sum, x, c) => sum + x * b[c]!, 0) + (j === k ? own[j]! : 0)),
  );
  const { inverse: precision, logDeterminant } = inverse(covariance);
  return { noise: { columns, precision }, logDeterminant, sd: covariance.map((row, j) => Math.sqrt(row[j]!)) };
}

/** mS/cm that a unit of an item's share brings under a hypothesis: it grows with its amount and falls with the water. */
const slopeOf = (expected: Expected, effect: Effect, moment: number, item: number): number =>
  (expected.slopes[moment]![item]! * effect.factors[item]! * effect.gain) / effect.volume;

/** What was learned of the items of a batch, in their order, and of the pen, the last. */
interface OwnErrors {
  mean: number[];
  /** Cholesky root of their covariance. */
  root: number[][];
}

/** Null where nothing was learned, or an item is new. */
function ownErrors({ items, learned }: Batch, expected: Expected): OwnErrors | null {
  if (!learned) return null;
  const keys = [...items.map(({ product, bySpoon }) => learnedKey(product.id, bySpoon)), PEN_KEY];
  const places = keys.map((key) => learned.keys.indexOf(key));
  if (places.some((place) => place < 0)) return null;
  const covariance = places.map((a) => places.map((b) => learned.covariance[a]![b]!));
  return expected.moments.length === 0 ? null : { mean: places.map((k) => learned.mean[k]!), root: rootOf(covariance) };
}

/** A hypothesis with its readings moved by what these jars, spoons and pen are off on the average. */
function taught(effect: Effect, expected: Expected, batch: Batch, own: OwnErrors | null): Effect {
  if (own === null) return effect;
  const mean = effect.mean.map((x, j) => {
    const there = itemsAt(batch, expected.moments[j]!);
    const items = batch.items.slice(0, there);
    return (
      x * (1 + own.mean.at(-1)!) + items.reduce((sum, _, i) => sum + slopeOf(expected, effect, j, i) * own.mean[i]!, 0)
    );
  });
  return { ...effect, mean };
}

const quadratic = (matrix: readonly number[][], x: readonly number[]): number =>
  x.reduce((sum, a, j) => sum + a * matrix[j]!.reduce((s, m, k) => s + m * x[k]!, 0), 0);
