import { type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import type { Pen } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import { NINETY } from '../chance/deviates.js';
import type { SteeredStep, SteeringPen } from '../dose/by-pen-types.js';
import type { Measure } from '../dose/measure.js';
import { type Blend, type Conductivity, ecOfPart, likelyEc, type Part, watersOf } from '../can/part.js';
import type { Alternative, DosePlan } from '../dose/plan-types.js';
import { FILLING_SPREAD } from '../dose/tools.js';
import { hypot } from '../units/elementary.js';

/** What a meter shows at 25 °C: mS/cm, and on the pen's own scale; low…high is where nine of ten readings lie. */
export interface Reading {
  mSPerCm: MilliSiemensPerCm;
  /** ppm of the pen's scale; null for a pen that shows EC. */
  pen: number | null;
  low: MilliSiemensPerCm;
  high: MilliSiemensPerCm;
}

/** One product going into the can. */
export interface Step {
  product: ClosedProduct;
  measure: Measure;
  alternatives: Alternative[];
  /** g or mL for the batch that the blend (or the nearest feed) wants. */
  wanted: number;
  /** How full the can is by then: 1 = to the mark. */
  full: number;
  /** Of everything up to here. */
  reading: Reading;
}

export interface StepOptions {
  /** What the grower's meter reads in the water alone, mS/cm at 25 °C. */
  waterMSPerCm?: MilliSiemensPerCm;
}

/** The items of a plan in an order that does not cloud, with the reading to expect after each. */
export function stepsOf(
  plan: DosePlan,
  request: Pick<FeedRequest, 'waters'>,
  pen: Pen,
  options: StepOptions = {},
): Step[] {
  const { sequence } = plan;
  const readings = readingsOf(sequence.turns, plan, request, pen, options.waterMSPerCm);
  return sequence.turns.map(({ product, full }, i) => {
    const item = plan.items.find((it) => it.product.id === product.id)!;
    return {
      product,
      measure: item.chosen,
      alternatives: item.alternatives,
      wanted: item.wanted,
      full,
      reading: readings[i]!,
    };
  });
}

/** The planned items as they stand in a litre of the full can. */
export const partsOf = (plan: DosePlan): Part[] =>
  plan.items.map(({ product, chosen }) => ({ product, perLitre: chosen.amount / plan.batchLitres }));

/** The waters of a plan with their shares. */
export const blendOf = (plan: DosePlan, { waters }: Pick<FeedRequest, 'waters'>): Blend[] =>
  watersOf(plan.amounts, waters);

/** The reading of the can with some of the products, `full` of its mark. */
export function readingOf(
  parts: readonly Part[],
  plan: DosePlan,
  request: Pick<FeedRequest, 'waters'>,
  pen: Pen,
  options: { full?: number; waterMSPerCm?: MilliSiemensPerCm; temperatureC?: number } = {},
): Reading {
  const { full = 1, waterMSPerCm, temperatureC } = options;
  const waters = blendOf(plan, request);
  const ec = ecOfPart(parts, waters, full, temperatureC);
  const shift = waterShift(waters, waterMSPerCm);
  const own = spreadOf(parts, ec.mSPerCm, plan, waters, full);
  return toReading(ec, shift, hypot(own, PEN_SPREAD * (ec.mSPerCm + shift), LAST_DIGIT), pen);
}

/** What a can is stopped at: the same pen dipped once more reads it again, but for the errors of two dips. */
function stoppedAt({ after, until }: SteeredStep, { each, digit, scale }: SteeringPen): Reading {
  const sd = Math.SQRT2 * hypot(each * after, digit / 2 / (scale ?? 1));
  return {
    mSPerCm: after,
    pen: scale === null ? null : until.shown,
    low: milliSiemensPerCm(Math.max(0, after - NINETY * sd)),
    high: milliSiemensPerCm(after + NINETY * sd),
  };
}

function readingsOf(
  turns: readonly (Part & { full: number })[],
  plan: DosePlan,
  request: Pick<FeedRequest, 'waters'>,
  pen: Pen,
  waterMSPerCm?: MilliSiemensPerCm,
): Reading[] {
  const options = waterMSPerCm === undefined ? {} : { waterMSPerCm };
  return turns.map(({ product, full }, i) => {
    const step = plan.byPen?.steps.find((one) => one.product.id === product.id);
    return step?.by === 'pen'
      ? stoppedAt(step, plan.byPen!.pen)
      : readingOf(turns.slice(0, i + 1), plan, request, pen, { full, ...options });
  });
}

/** What the water reads beyond what its analysis says, mS/cm. */
export const waterShift = (waters: readonly Blend[], waterMSPerCm: MilliSiemensPerCm | undefined): number =>
  waterMSPerCm === undefined ? 0 : waterMSPerCm - likelyEc([], waters);

/** Relative sd of a pocket meter that was checked with its standard: 2 % (common practice, no source). */
const PEN_SPREAD = 0.02;
/** Half of the last digit of a pen that shows two decimals of mS/cm, as `meter` counts it. */
const LAST_DIGIT = 0.005;

/** Standard deviation of what the can really has, mS/cm: of measuring out and filling together. */
function spreadOf(parts: readonly Part[], ec: number, plan: DosePlan, waters: readonly Blend[], full: number): number {
  const water = likelyEc([], waters);
  const own = parts.map(({ product, perLitre }) => {
    const { chosen } = plan.items.find((item) => item.product.id === product.id)!;
    return (addedBy(product, perLitre, waters, water) / full) * (chosen.sd / Math.max(chosen.amount, 1e-12));
  });
  return hypot(...own, FILLING_SPREAD * (ec - water));
}

/** mS/cm that a dose adds to the water, alone in the full can; close enough for a spread. */
function addedBy(product: ClosedProduct, perLitre: number, waters: readonly Blend[], water: number): number {
  return Math.max(0, likelyEc([{ product, perLitre }], waters) - water);
}

/** The error of model and labels and that of hands and pen are independent: their half-widths add in squares. */
function toReading({ mSPerCm, low, high }: Conductivity, shift: number, sd: number, pen: Pen): Reading {
  const at = milliSiemensPerCm(Math.max(0, mSPerCm + shift));
  return {
    mSPerCm: at,
    pen: pen.reads === 'ppm' ? at * pen.scale : null,
    low: milliSiemensPerCm(Math.max(0, at - hypot(mSPerCm - low, NINETY * sd))),
    high: milliSiemensPerCm(at + hypot(high - mSPerCm, NINETY * sd)),
  };
}
