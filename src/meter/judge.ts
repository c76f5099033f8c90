import type { MilliSiemensPerCm } from '../units/index.js';
import type { Conductivity } from '../can/part.js';
import { type Dosed, readingOfCan } from '../chance/reading.js';
import { type Batch, itemsAt, litresAt, type Moment, type PenUse, type Reading, type Shown } from './batch.js';
import { beyondBelief, type LookAt } from './beyond.js';
import type { Cause } from './cause.js';
import { causesOf } from './causes.js';
import { type PossibleCan, possibleCans, quantiles } from './posterior.js';
import { unsurprising, type Weighed, weigh } from './likelihood.js';

/** One reading against what the plan should show. */
export interface ReadingLine {
  moment: Moment;
  shown: Shown;
  /** At 25 °C. */
  mSPerCm: MilliSiemensPerCm;
  /** Nine of ten right batches show this. */
  expected: { mSPerCm: MilliSiemensPerCm; low: MilliSiemensPerCm; high: MilliSiemensPerCm };
  within: boolean;
}

/** `within`: the readings are no surprise; `off`: something happened; `unexplained`: off, and nothing considered explains it well. */
export type Judgement = Judging & ({ verdict: 'within' | 'off' | 'unexplained' } | Beyond);

interface Judging {
  readings: ReadingLine[];
  /** Likeliest first; mistakes only, also where the readings are within tolerance. Of `beyond` none is to be believed. */
  causes: Cause[];
  /** Share, given the readings, that nothing went wrong. */
  asPlanned: number;
}

/** The readings come near no mistake considered, so that neither a cause nor a remedy can be told. */
interface Beyond {
  verdict: 'beyond';
  /** What to look at. */
  lookAt: LookAt[];
}

/** What is really in the can, by the readings. */
export interface ActualLine {
  id: string;
  name: string;
  unit: 'g' | 'mL' | 'L';
  planned: number;
  likely: number;
  /** Nine of ten. */
  low: number;
  high: number;
}

export interface Judged {
  weighed: Weighed;
  judgement: Judgement;
  actual: ActualLine[];
  /** Cans that would show these readings, as likely as they are. */
  cans: PossibleCan[];
}

/** Judges readings of a batch: within tolerance, or what probably happened. Pure and repeatable. */
export function judge(batch: Batch, readings: readonly Reading[], pen: PenUse): Judged {
  const weighed = weigh(batch, readings, pen);
  const { expected, distance } = weighed;
  const lines = readings.map((reading, j): ReadingLine => {
    const right = rightReading(batch, reading.moment);
    const within = reading.mSPerCm >= right.low && reading.mSPerCm <= right.high;
    return { ...reading, expected: { ...right, mSPerCm: expected.planned[j]! }, within };
  });
  // of several readings each may be within and yet all together be a surprise
  const fine = unsurprising(distance, readings.length) || (lines.length === 1 && lines[0]!.within);
  const causes = causesOf(weighed);
  const explained = causes.some((cause) => cause.explains);
  const lookAt = fine || explained ? [] : beyondBelief(weighed);
  const asPlanned = weighed.points.reduce((sum, p) => sum + (p.hypothesis.fault === null ? p.probability : 0), 0);
  const judging = { readings: lines, causes, asPlanned };
  const cans = possibleCans(weighed, CANS);
  return {
    weighed,
    judgement:
      lookAt.length > 0
        ? { ...judging, verdict: 'beyond', lookAt }
        : { ...judging, verdict: fine ? 'within' : explained ? 'off' : 'unexplained' },
    actual: actualOf(batch, cans),
    cans,
  };
}

/** What nine of ten right batches read at a moment. */
export const rightReading = (batch: Batch, moment: Moment): Conductivity =>
  readingOfCan(dosedAt(batch, moment), batch.waters, { full: fullAt(batch, moment) });

/** What is in at a moment, as it stands in a litre of the full can. */
const dosedAt = (batch: Batch, moment: Moment): Dosed[] =>
  batch.items.slice(0, itemsAt(batch, moment)).map(({ product, planned, sd }) => ({
    product,
    perLitre: planned / batch.litres,
    spread: planned > 0 ? sd / planned : 0,
  }));

const fullAt = (batch: Batch, moment: Moment): number => litresAt(batch, moment) / batch.litres;

/** Enough for the tails that a remedy hedges against. */
const CANS = 300;

function actualOf(batch: Batch, cans: readonly PossibleCan[]): ActualLine[] {
  const line = (id: string, name: string, unit: ActualLine['unit'], planned: number, values: number[]): ActualLine => {
    const [low, likely, high] = quantiles(values, [0.05, 0.5, 0.95]);
    return { id, name, unit, planned, likely: likely!, low: low!, high: high! };
  };
  return [
    ...batch.items.map(({ product, planned }, i) =>
      line(
        product.id,
        product.name,
        product.composition.per,
        planned,
        cans.map((can) => can.amounts[i]!),
      ),
    ),
    line(
      'water',
      'water',
      'L',
      batch.litres,
      cans.map((can) => can.litres),
    ),
  ];
}
