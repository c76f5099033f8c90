import { amountFor } from '../can/amount-for-reading.js';
import { isOrganic } from '../can/organic.js';
import { likelyEc, type Part } from '../can/part.js';
import { roundDigits, type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import { hypot } from '../units/elementary.js';
import type {
  CanByPen,
  ItemByPen,
  MeasuredStep,
  PenPart,
  SteeredStep,
  SteeringPen,
  StepByPen,
} from './by-pen-types.js';
import { type Measure, measuresWithin } from './measure.js';
import { leastStep } from './told-by-pen.js';
import { FILLING_SPREAD } from './tools.js';

export type * from './by-pen-types.js';

/**
 * A pen that was checked with its standard is good to 2 % (common practice: what leaflets print), half of its variance the same for all its
 * readings, half new with each dip; it shows whole ppm, or hundredths of mS/cm.
 */
export const usualPen = (scale: number | null): SteeringPen => ({
  scale,
  digit: scale === null ? 0.01 : 1,
  common: 0.02 * Math.SQRT1_2,
  each: 0.02 * Math.SQRT1_2,
});

/** mS/cm for each g/L or mL/L below which nothing is told by a pen: salts bring 0.5 to 2 a gram. */
const BLIND = { g: 0.02, mL: 0.002 } as const;
/** How much of a dose hands start with. */
const START = 0.8;

/**
 * The steps of a can that is dosed by the pen, in the order of its items: those that the pen can steer with a measure to start with, the
 * reading to reach and how surely that meets the dose; the others by measure. Readings are totals, so what one step is off the next makes
 * good: a dose is off by the error of two dips, and by the calibration, which all doses share.
 */
export function stepsByPen(can: CanByPen): StepByPen[] {
  const steps: StepByPen[] = [];
  const parts: Part[] = [];
  const moved: Moved[] = [];
  let dip = can.waterMSPerCm === undefined ? 0 : dipSd(can.pen, can.waterMSPerCm);
  let before = shows(can, parts);
  for (const item of can.items) {
    const { product, amount } = item;
    const part = { product, perLitre: amount / can.litres };
    const planned = shows(can, [...parts, part]);
    const why = whyNotSteered(item, can, { before, planned, dip });
    if (why !== null) {
      steps.push({ by: 'measure', why, product, amount, measure: item.measure ?? null, before, after: planned });
      parts.push(part);
      moved.push(measured(item, can));
      before = planned;
      continue;
    }
    const shown = roundDigits(Math.round((planned * unitOf(can.pen)) / can.pen.digit) * can.pen.digit, 12);
    const reached = reachedBy(can, parts, part, shown / unitOf(can.pen), [before, planned]);
    parts.push(reached);
    const after = shows(can, parts);
    dip = dipSd(can.pen, after);
    moved.push(steered(can, parts, moved, after));
    steps.push({
      by: 'pen',
      product,
      wanted: amount,
      amount: reached.perLitre * can.litres,
      before,
      after,
      start: startOf(item, can),
      until: { shown, tolerance: toleranceOf(can.pen, dip) },
      ...spreadOf(moved.at(-1)!, reached, can),
      measure: item.measure ?? null,
    });
    before = after;
  }
  return steps;
}

/** A steered step as a measure of its dose: what to start with, and the reading to stop at. */
export function measureByPen(
  { product, start, until, amount, sd, parts }: SteeredStep,
  { scale }: SteeringPen,
): Measure {
  const reading = `${until.shown} ${scale === null ? 'mS/cm' : 'ppm'}`;
  const more = `${product.form === 'powder' ? 'pinches' : 'drops'} until ${reading}`;
  const words = start === null ? more : `${start.words}, then ${more}`;
  return { tool: 'pen', words, amount, actions: (start?.actions ?? 0) + PINCHES, sd, parts };
}

/** Pinches and dips that a reading takes (judgement). */
const PINCHES = 3;

/** What moves what is really in a litre: a unit of each factor, g or mL. */
type Moved = Map<string, number>;

const unitOf = ({ scale }: SteeringPen): number => scale ?? 1;

/** Standard deviation of one dip, its last digit counted half, mS/cm. */
const dipSd = ({ each, digit, scale }: SteeringPen, mSPerCm: number): number =>
  hypot(each * mSPerCm, digit / 2 / (scale ?? 1));

/** What a can reads; a reading of the water itself is right about the water. */
export function shows({ waters, waterMSPerCm }: CanByPen, parts: readonly Part[]): MilliSiemensPerCm {
  const model = likelyEc(parts, waters);
  return waterMSPerCm === undefined ? model : milliSiemensPerCm(waterMSPerCm + model - likelyEc([], waters));
}

/** The least increment that the pen tells above a reading, mS/cm. */
export function leastSteered(pen: SteeringPen, before: number): number {
  let least = leastStep(dipSd(pen, before) * Math.SQRT2);
  // the error grows with what is read
  for (let i = 0; i < 8; i += 1) least = leastStep(hypot(dipSd(pen, before), dipSd(pen, before + least)));
  return least * 1.02;
}

/** Why the pen cannot steer an item; null where it can. */
function whyNotSteered(
  { product, amount }: ItemByPen,
  { litres, pen }: CanByPen,
  { before, planned, dip }: { before: number; planned: number; dip: number },
): MeasuredStep['why'] | null {
  const increment = planned - before;
  if (increment * litres < BLIND[product.composition.per] * amount) return 'does not conduct';
  if (isOrganic(product)) return 'organic';
  return increment < leastStep(hypot(dipSd(pen, planned), dip)) ? 'too little' : null;
}

/** The part at which the can reads what is shown, near what was wanted of it. @param known what it reads without it, and with what was wanted */
function reachedBy(
  can: CanByPen,
  parts: readonly Part[],
  part: Part,
  mSPerCm: number,
  [none, wanted]: readonly [number, number],
): Part {
  const reading = (perLitre: number): number => {
    if (perLitre === 0) return none;
    return perLitre === part.perLitre ? wanted : shows(can, [...parts, { ...part, perLitre }]);
  };
  const at = (perLitre: number): number => reading(perLitre) - mSPerCm;
  const { kind, amount } = amountFor(at, 2 * part.perLitre, part.perLitre);
  return kind === 'found' ? { ...part, perLitre: amount } : part;
}

function startOf({ product, amount }: ItemByPen, { tools, known = [] }: CanByPen): Measure | null {
  const hand = tools.filter(({ kind }) => kind !== 'scale');
  const found = measuresWithin(product, hand.length > 0 ? hand : tools, 0, START * amount, known);
  return found.filter((m) => m.amount > 0 && m.amount + 2 * m.sd <= amount).at(-1) ?? null;
}

/** Whole digits within which a reading is as good as the one to reach. */
const toleranceOf = ({ digit, scale }: SteeringPen, dip: number): number =>
  roundDigits(Math.max(1, Math.round((dip * (scale ?? 1)) / digit)) * digit, 12);

/** What goes by measure varies by its own spread, and with the water that it went into. */
function measured({ product, amount, measure }: ItemByPen, { litres }: CanByPen): Moved {
  const perLitre = amount / litres;
  return new Map([
    [`measured ${product.id}`, (measure?.sd ?? BY_HAND * amount) / litres],
    ['filling', -FILLING_SPREAD * perLitre],
  ]);
}

/** Relative standard deviation of a dose of which nobody says how it is measured: a small level spoon (from memory). */
const BY_HAND = 0.15;

/**
 * What moves the last of the parts where the total is held to a reading: with E the error of the reading, E = Σ dEC/dx · x over all
 * that is in, which is solved for the last x.
 */
function steered(can: CanByPen, parts: readonly Part[], before: readonly Moved[], after: number): Moved {
  const { pen, waterMSPerCm } = can;
  const slopes = parts.map((_, j) => slopeOf(can, parts, j));
  const id = parts.at(-1)!.product.id;
  const moved: Moved = new Map([
    ['pen', -pen.common * (after - (waterMSPerCm ?? 0))],
    [`pen after ${id}`, dipSd(pen, after)],
  ]);
  if (waterMSPerCm !== undefined) moved.set('pen in the water', dipSd(pen, waterMSPerCm));
  before.forEach((earlier, j) => {
    for (const [factor, by] of earlier) moved.set(factor, (moved.get(factor) ?? 0) - slopes[j]! * by);
  });
  for (const [factor, by] of moved) moved.set(factor, by / slopes.at(-1)!);
  return moved;
}

/** mS/cm for each g/L or mL/L of one of the parts, by the full model. */
function slopeOf(can: CanByPen, parts: readonly Part[], j: number): number {
  const at = (factor: number): number =>
    shows(
      can,
      parts.map((part, i) => (i === j ? { ...part, perLitre: part.perLitre * factor } : part)),
    );
  return (at(1 + STEP) - at(1 - STEP)) / (2 * STEP * parts[j]!.perLitre);
}

const STEP = 0.01;

/** Parts in g or mL of the can: more water takes more to the same reading. */
function spreadOf(moved: Moved, { perLitre }: Part, { litres }: CanByPen): { sd: number; parts: PenPart[] } {
  const sd = litres * hypot(...moved.values());
  const parts = new Map([...moved].map(([factor, by]) => [factor, by * litres]));
  parts.set('filling', (parts.get('filling') ?? 0) + FILLING_SPREAD * perLitre * litres);
  return { sd, parts: [...parts].map(([factor, by]) => ({ factor, by })) };
}
