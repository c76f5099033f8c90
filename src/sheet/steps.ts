import { dosedOf, readingOfCan, stoppedAt } from '../chance/reading.js';
import type { Learned } from '../chance/learned.js';
import type { MilliSiemensPerCm } from '../units/index.js';
import type { Pen } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import type { Measure } from '../dose/measure.js';
import { type Blend, type Conductivity, type Part, watersOf } from '../can/part.js';
import type { Alternative, DosePlan } from '../dose/plan-types.js';

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
  /** What good batches have told of the readings of this feed. */
  learned?: Learned;
}

/** The items of a plan in an order that does not cloud, with the reading to expect after each. */
export function stepsOf(
  plan: DosePlan,
  request: Pick<FeedRequest, 'waters'>,
  pen: Pen,
  options: StepOptions = {},
): Step[] {
  const { sequence } = plan;
  const readings = readingsOf(sequence.turns, plan, request, pen, options);
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
  options: StepOptions & { full?: number; temperatureC?: number } = {},
): Reading {
  const dosed = dosedOf(plan).filter(({ product }) => parts.some((part) => part.product === product));
  return toReading(readingOfCan(dosed, blendOf(plan, request), options), pen);
}

function readingsOf(
  turns: readonly (Part & { full: number })[],
  plan: DosePlan,
  request: Pick<FeedRequest, 'waters'>,
  pen: Pen,
  options: StepOptions,
): Reading[] {
  return turns.map(({ product, full }, i) => {
    const step = plan.byPen?.steps.find((one) => one.product.id === product.id);
    return step?.by === 'pen'
      ? {
          ...toReading(stoppedAt(step, plan.byPen!.pen), pen),
          ...(plan.byPen!.pen.scale === null ? {} : { pen: step.until.shown }),
        }
      : readingOf(turns.slice(0, i + 1), plan, request, pen, { full, ...options });
  });
}

const toReading = (ec: Conductivity, pen: Pen): Reading => ({
  ...ec,
  pen: pen.reads === 'ppm' ? ec.mSPerCm * pen.scale : null,
});
