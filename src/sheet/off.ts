import {
  type Litres,
  type MilliSiemensPerCm,
  type Millilitres,
  milliSiemensPerCm,
  millilitresOf,
  scaleBy,
} from '../units/index.js';
import type { Pen } from '../catalog/bench-types.js';
import type { FeedRequest } from '../feed/request.js';
import { likelyEc } from '../can/part.js';
import type { DosePlan } from '../dose/plan-types.js';
import { WHILE_MIXING } from '../can/sequence.js';
import { waterShift } from '../chance/reading.js';
import { blendOf, partsOf, type Reading } from './steps.js';

/** A slip and what the finished can would then read, mS/cm at 25 °C and on the pen's scale. */
export interface Slip {
  slip:
    | 'not topped up'
    | 'too much water'
    | 'too little water'
    | 'forgotten'
    | 'twice'
    | 'wrong scale'
    | 'not compensated';
  /** Product id, for `forgotten` and `twice`. */
  id: string | null;
  mSPerCm: MilliSiemensPerCm;
  /** On the pen's scale; for `wrong scale` on that other scale; null for a pen that shows EC. */
  pen: number | null;
  /** mL of water too much (+) or too little (−); null where no can holds so much more. */
  millilitres: Millilitres | null;
  /** The other scale, ppm per mS/cm. */
  scale: number | null;
  celsius: number | null;
  /** False where the reading stays within the tolerance of a right one: the pen cannot tell. */
  shows: boolean;
}

export interface SlipOptions {
  /** What the grower's meter reads in the water alone, mS/cm at 25 °C. */
  waterMSPerCm?: MilliSiemensPerCm | undefined;
  /** What good batches read beside what was predicted of them. */
  gain?: number;
  /** Litres to the brim of the largest can; absent where nobody says. */
  brimLitres?: number | undefined;
}

/** What common slips would make this very batch read at the end. */
export function slipsOf(
  plan: DosePlan,
  request: Pick<FeedRequest, 'waters' | 'temperatureC'>,
  pen: Pen,
  end: Reading,
  { waterMSPerCm, gain = 1, brimLitres = Number.POSITIVE_INFINITY }: SlipOptions = {},
): Slip[] {
  const parts = partsOf(plan);
  if (parts.length === 0) return [];
  const waters = blendOf(plan, request);
  const shift = waterShift(waters, waterMSPerCm);
  const read = (some: typeof parts, full = 1, temperatureC = 25): MilliSiemensPerCm =>
    milliSiemensPerCm(Math.max(0, gain * (likelyEc(some, waters, full, temperatureC) + shift)));
  const slip = (kind: Slip['slip'], mSPerCm: MilliSiemensPerCm, more: Partial<Slip> = {}): Slip => ({
    slip: kind,
    id: null,
    mSPerCm,
    pen: pen.reads === 'ppm' ? mSPerCm * pen.scale : null,
    millilitres: null,
    scale: null,
    celsius: null,
    shows: mSPerCm < end.low || mSPerCm > end.high,
    ...more,
  });
  const water = waterMSPerCm ?? likelyEc([], waters);
  return [
    // by the pen the can is full from the start
    ...(plan.byPen ? [] : [slip('not topped up', read(parts, WHILE_MIXING))]),
    ...[0.9, 1.1].flatMap((share): Slip[] => {
      const now = scaleBy(end.mSPerCm, share);
      const millilitres = waterOff(now, end.mSPerCm, water, plan.batchLitres);
      if (millilitres === null) return [];
      const fits = plan.batchLitres + millilitres / 1000 <= brimLitres;
      return [slip(share < 1 ? 'too much water' : 'too little water', now, { millilitres: fits ? millilitres : null })];
    }),
    ...parts.flatMap(({ product, perLitre }) => [
      slip('forgotten', read(parts.filter((p) => p.product !== product)), { id: product.id }),
      slip('twice', read([...parts, { product, perLitre }]), { id: product.id }),
    ]),
    ...otherScales(pen).map((scale) =>
      slip('wrong scale', end.mSPerCm, { scale, pen: end.mSPerCm * scale, shows: true }),
    ),
    ...(request.temperatureC === undefined ? [15, 30] : [request.temperatureC]).map((celsius) =>
      slip('not compensated', read(parts, 1, celsius), { celsius }),
    ),
  ];
}

/** µS/cm in one mS/cm. */
const MICROSIEMENS = 1000;
/** Scales that pens are sold with (common practice, no source), and what a pen set to conductivity shows instead. */
const SCALES = [500, 640, 700, MICROSIEMENS] as const;

const otherScales = (pen: Pen): number[] =>
  pen.reads === 'EC' ? [500, 700] : SCALES.filter((scale) => Math.abs(scale - pen.scale) > 1);

/**
 * mL of water in the can beyond its mark that make it read `now` instead of `right`: what the salts add goes with 1/volume, to
 * within a hundredth this near to the mark. Null where the reading is the water's own for the most part.
 */
function waterOff(
  now: MilliSiemensPerCm,
  right: MilliSiemensPerCm,
  water: MilliSiemensPerCm,
  litres: Litres,
): Millilitres | null {
  if (right - water < 0.5 * right) return null;
  return millilitresOf(scaleBy(litres, (right - water) / (now - water) - 1));
}
