import { type Blend, type Conductivity, ecOfPart, likelyEc, MODEL_ERROR, type Part, watersOf } from '../can/part.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { SteeredStep, SteeringPen } from '../dose/by-pen-types.js';
import { FILLING_SPREAD } from '../dose/tools.js';
import type { Mix } from '../feed/results.js';
import { hypot } from '../units/elementary.js';
import { type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import { NINETY } from './deviates.js';
import { freshSpread, lastingSpread } from './lasting.js';
import { type Learned, learnedKey, learnedOf } from './learned.js';

/** A product in a can as hands measure it. */
export interface Dosed extends Part {
  /** Relative standard deviation of the dose. */
  spread: number;
  /** What of it is the same each time (`lastingSpread`); absent where nobody knows. */
  lasting?: number;
  bySpoon?: boolean;
}

export interface ReadingAsked {
  /** How full the can is: 1 = to the mark, the default. */
  full?: number;
  /** What the grower's meter reads in the water alone, mS/cm at 25 °C. */
  waterMSPerCm?: MilliSiemensPerCm;
  /** Of a meter without correction; default 25 °C. */
  temperatureC?: number;
  /** What good batches have told; then the range is that of these hands, jars and pen, at 25 °C only. */
  learned?: Learned;
}

/**
 * What a meter shows of a can, mS/cm: nine of ten good cans lie within low…high, by what labels leave open, the model, hands, filling and
 * the meter. The one range that `blend`, `sheet`, `meter` and `assess` tell.
 */
export function readingOfCan(
  items: readonly Dosed[],
  waters: readonly Blend[],
  asked: ReadingAsked = {},
): Conductivity {
  const { full = 1, waterMSPerCm, temperatureC } = asked;
  const { mSPerCm, low, high } = ecOfPart(items, waters, full, temperatureC);
  const shift = waterShift(waters, waterMSPerCm);
  const sd = hypot(spreadOf(items, mSPerCm, waters, full), PEN_SPREAD * (mSPerCm + shift), LAST_DIGIT);
  const at = Math.max(0, mSPerCm + shift);
  const own = asked.learned && temperatureC === undefined ? ownReading(items, waters, full, at, asked.learned) : null;
  // the error of model and labels and that of hands and meter are independent: their half-widths add in squares
  const predicted = {
    mSPerCm: milliSiemensPerCm(at),
    low: milliSiemensPerCm(Math.max(0, at - hypot(mSPerCm - low, NINETY * sd))),
    high: milliSiemensPerCm(at + hypot(high - mSPerCm, NINETY * sd)),
  };
  // what is learned never makes a range wider than what was predicted before anything was
  if (own === null || 2 * NINETY * own.sd >= predicted.high - predicted.low) return predicted;
  return {
    mSPerCm: milliSiemensPerCm(own.mSPerCm),
    low: milliSiemensPerCm(Math.max(0, own.mSPerCm - NINETY * own.sd)),
    high: milliSiemensPerCm(own.mSPerCm + NINETY * own.sd),
  };
}

/** What a reading is by what was learned, and its standard deviation; null where a product in it is new. */
function ownReading(
  items: readonly Dosed[],
  waters: readonly Blend[],
  full: number,
  at: number,
  learned: Learned,
): { mSPerCm: number; sd: number } | null {
  const slopes = slopesOf(items, waters, full);
  const told = learnedOf(
    items.map(({ product, bySpoon }, i) => ({ key: learnedKey(product.id, bySpoon ?? false), slope: slopes[i]! })),
    at,
    learned,
  );
  if (told === null) return null;
  const mSPerCm = Math.max(0, at + told.shift);
  const fresh = items.map(({ spread, lasting = 0 }, i) => slopes[i]! * freshSpread(spread, lasting));
  const filling = FILLING_SPREAD * slopes.reduce((sum, slope) => sum + slope, 0);
  return { mSPerCm, sd: hypot(told.sd, ...fresh, filling, PEN_SPREAD * Math.SQRT1_2 * mSPerCm, LAST_DIGIT) };
}

/** mS/cm that a unit of each item's share brings, where the can is so full. */
function slopesOf(items: readonly Dosed[], waters: readonly Blend[], full: number): number[] {
  const at = (i: number, factor: number): number =>
    likelyEc(
      items.map((item, k) => (k === i ? { ...item, perLitre: factor * item.perLitre } : item)),
      waters,
      full,
    );
  return items.map((_, i) => (at(i, 1 + NUDGE) - at(i, 1 - NUDGE)) / (2 * NUDGE));
}

const NUDGE = 0.02;

/** What a can is stopped at: the same pen dipped once more reads it again, but for the errors of two dips. */
export function stoppedAt({ after }: Pick<SteeredStep, 'after'>, { each, digit, scale }: SteeringPen): Conductivity {
  const sd = Math.SQRT2 * hypot(each * after, digit / 2 / (scale ?? 1));
  return {
    mSPerCm: after,
    low: milliSiemensPerCm(Math.max(0, after - NINETY * sd)),
    high: milliSiemensPerCm(after + NINETY * sd),
  };
}

/** The items of a plan as they stand in a litre of the full can. */
export const dosedOf = ({ items, batchLitres, tools }: Pick<DosePlan, 'items' | 'batchLitres' | 'tools'>): Dosed[] =>
  items.map(({ product, chosen: { amount, sd, tool } }) => ({
    product,
    perLitre: amount / batchLitres,
    spread: sd / Math.max(amount, 1e-12),
    lasting: lastingSpread(product, tool, tools),
    bySpoon: tool === 'spoon',
  }));

/** The mix of a plan with the EC that a meter shows of it. */
export function withReading(
  mix: Mix,
  plan: Pick<DosePlan, 'items' | 'batchLitres' | 'amounts' | 'byPen' | 'tools'>,
  { waters }: { waters: Parameters<typeof watersOf>[1] },
): Mix {
  const last = plan.byPen?.steps.at(-1);
  if (plan.byPen && last?.by === 'pen') {
    const { low, high } = stoppedAt(last, plan.byPen.pen);
    return { ...mix, ec: { ...mix.ec, low, high } };
  }
  return withReadingOf(mix, dosedOf(plan), watersOf(plan.amounts, waters));
}

/** A mix of doses with the EC that a meter shows of it, and what one without correction shows. */
export function withReadingOf(mix: Mix, items: readonly Dosed[], waters: readonly Blend[]): Mix {
  const { low, high } = readingOfCan(items, waters);
  const at = mix.ecAtTemperature;
  const ec = { ...mix.ec, low, high };
  if (!at) return { ...mix, ec };
  const there = readingOfCan(items, waters, { temperatureC: at.celsius });
  return { ...mix, ec, ecAtTemperature: { ...at, low: there.low, high: there.high } };
}

/** Products without a list of salts whose make-up leaves the reading of the can more open than this, as a share of it, either way. */
const WIDE = 0.05;

/** Those whose labels, by naming no salts, make the range of readings wide. */
export function undeclaredIn(items: readonly Part[], waters: readonly Blend[]): ClosedProduct[] {
  const open = items.filter(({ product: { ec, ions } }) => ec === undefined && ions.from === 'label alone');
  if (open.length === 0) return [];
  const whole = likelyEc(items, waters);
  return open.flatMap((part) => {
    const { mSPerCm, low, high } = ecOfPart([part], waters);
    const model = (high + low) * MODEL_ERROR;
    return high - low - model > 2 * WIDE * whole && mSPerCm > 0 ? [part.product] : [];
  });
}

/** What the water reads beyond what its analysis says, mS/cm. */
export const waterShift = (waters: readonly Blend[], waterMSPerCm: MilliSiemensPerCm | undefined): number =>
  waterMSPerCm === undefined ? 0 : waterMSPerCm - likelyEc([], waters);

/** Relative sd of a pocket meter that was checked with its standard: 2 % (common practice, no source). */
const PEN_SPREAD = 0.02;
/** Half of the last digit of a pen that shows two decimals of mS/cm. */
const LAST_DIGIT = 0.005;

/** Standard deviation of what the can really has, mS/cm: of measuring out and filling together. */
function spreadOf(items: readonly Dosed[], ec: number, waters: readonly Blend[], full: number): number {
  const water = likelyEc([], waters);
  // alone in the full can; close enough for a spread
  const added = (part: Part): number => Math.max(0, likelyEc([part], waters) - water) / full;
  return hypot(...items.map((item) => added(item) * item.spread), FILLING_SPREAD * (ec - water));
}
