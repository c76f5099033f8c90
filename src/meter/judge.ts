import type { MilliSiemensPerCm } from '../units/index.js';
import type { Conductivity } from '../can/part.js';
import { type Dosed, readingOfCan } from '../chance/reading.js';
import { type Batch, itemsAt, litresAt, type Moment, type PenUse, type Reading, type Shown } from './batch.js';
import { beyondBelief, type LookAt } from './beyond.js';
import type { Cause } from './cause.js';
import { causesOf } from './causes.js';
import { type PossibleCan, possibleCans, quantiles } from './posterior.js';
import { distanceOf, type Point, unsurprising, type Weighed, weigh } from './likelihood.js';
import { isPlan, type Told } from './told.js';
import type { Way } from '../advice/slips/types.js';
import { expectedReadings } from './expected.js';

/** One reading against what the plan should show. */
export interface ReadingLine {
  moment: Moment;
  shown: Shown;
  /** At 25 °C. */
  mSPerCm: MilliSiemensPerCm;
  /** Nine of ten right batches show this. */
  expected: Span;
  within: boolean;
}

/** Nine of ten such batches show this. */
export interface Span {
  mSPerCm: MilliSiemensPerCm;
  low: MilliSiemensPerCm;
  high: MilliSiemensPerCm;
}

/** `within`: the readings are no surprise; `off`: something happened; `unexplained`: off, and nothing considered explains it well. */
export type Judgement = Judging & ({ verdict: 'within' | 'off' | 'unexplained' } | Beyond);

interface Judging {
  readings: ReadingLine[];
  /** Likeliest first; mistakes only, also where the readings are within tolerance. Of `beyond` none is to be believed. */
  causes: Cause[];
  /** Share, given the readings, that nothing went wrong. */
  asPlanned: number;
  /** What the grower said, beside the readings; null where he said nothing. */
  told: ToldJudged | null;
}

/** What was said, weighed against the readings. */
export interface ToldJudged {
  text: string;
  /** In the order told; each with its share given the readings, whatever else went wrong, and with what they should show. */
  ways: (Way & { probability: number; expected: Span[] })[];
  /** Without readings, where the pen would tell the ways apart: what each of them shows in the full can. Null else. */
  apart: Span[] | null;
  /** Whether the readings are no surprise under one of the ways at least; null without readings. */
  agrees: boolean | null;
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

/**
 * Judges readings of a batch: within tolerance, or what probably happened; with what the grower said, if he did, which without readings is all
 * there is. Pure and repeatable.
 */
export function judge(batch: Batch, readings: readonly Reading[], pen: PenUse, told: Told | null = null): Judged {
  const weighed = weigh(batch, readings, pen, told);
  const lines = readings.map((reading): ReadingLine => {
    const expected = spanOf(batch, reading.moment);
    return { ...reading, expected, within: isWithin(reading, expected) };
  });
  // of several readings each may be within and yet all together be a surprise
  const fits = (distance: number, within: boolean): boolean =>
    readings.length === 0 || unsurprising(distance, readings.length) || (readings.length === 1 && within);
  const said = told && toldJudged(told, weighed, fits);
  const asPlanned = weighed.points.reduce((sum, p) => sum + (p.hypothesis.fault === null ? p.probability : 0), 0);
  const within = lines.every((line) => line.within);
  const fine = fits(weighed.distance, within) && doubtOf(weighed, asPlanned) <= DOUBT;
  const causes = causesOf(weighed);
  const explained = causes.some((cause) => cause.explains);
  const lookAt = fine || explained ? [] : beyondBelief(weighed);
  const judging = { readings: lines, causes, asPlanned, told: said };
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
  readingOfCan(dosedAt(batch, moment), batch.waters, {
    full: fullAt(batch, moment),
    ...(batch.learned ? { learned: batch.learned } : {}),
  });

/** The same, with the very figure of the plan where nothing was learned. */
function spanOf(batch: Batch, moment: Moment): Span {
  if (batch.learned) return rightReading(batch, moment);
  const { planned } = expectedReadings(batch, [moment]);
  return { ...rightReading(batch, moment), mSPerCm: planned[0]! };
}

const isWithin = ({ mSPerCm }: Reading, { low, high }: Span): boolean => mSPerCm >= low && mSPerCm <= high;

function toldJudged(
  { text, ways }: Told,
  { points, readings }: Weighed,
  fits: (distance: number, within: boolean) => boolean,
): ToldJudged {
  const seen = readings.map((r) => r.mSPerCm);
  const spans = ways.map(({ batch }) => readings.map(({ moment }) => spanOf(batch, moment)));
  const fitting = ways.some((way, k) => {
    const own = points.find(({ hypothesis: { fault } }) =>
      isPlan(way) ? fault === null : fault?.kind === 'said' && fault.way === k && fault.besides === null,
    );
    const within = readings.every((reading, j) => isWithin(reading, spans[k]![j]!));
    return own !== undefined && fits(distanceOf(own, seen), within);
  });
  return {
    text,
    ways: ways.map(({ share, slips }, k) => ({
      share,
      slips,
      probability: points.reduce((sum, point) => sum + (isOfWay(point, ways[k]!, k) ? point.probability : 0), 0),
      expected: spans[k]!,
    })),
    apart: readings.length === 0 ? readApart(ways) : null,
    agrees: readings.length === 0 ? null : fitting,
  };
}

/** What two or three ways show in the full can where none is among what nine of ten cans of another show; else null. */
function readApart(ways: Told['ways']): Span[] | null {
  if (ways.length < 2 || ways.length > MOST_READ_APART) return null;
  const spans = ways.map(({ batch }) => spanOf(batch, 'end'));
  const apart = spans.every((one, k) => spans.every((other, l) => k === l || isApart(one.mSPerCm, other)));
  return apart ? spans : null;
}

/** More figures than this are no help beside a can. */
const MOST_READ_APART = 3;
/** Twice the 2 % that a pen is good to. */
const TWICE_THE_PEN = 0.04;

const isApart = (mSPerCm: number, { mSPerCm: other, low, high }: Span): boolean =>
  (mSPerCm < low || mSPerCm > high) && Math.abs(mSPerCm - other) > TWICE_THE_PEN * Math.max(mSPerCm, other);

/** Of what was said and what was planned together, the share of the first. */
function doubtOf({ points, told }: Weighed, asPlanned: number): number {
  if (told === null) return 0;
  const said = points.reduce((sum, p) => sum + (p.hypothesis.fault?.kind === 'said' ? p.probability : 0), 0);
  return said === 0 ? 0 : said / (said + asPlanned);
}

/** As much doubt as is left where a can counts as planned all the same. */
const DOUBT = 0.1;

const isOfWay = ({ hypothesis: { fault } }: Point, way: Way, k: number): boolean =>
  isPlan(way) ? fault === null : fault?.kind === 'said' && fault.way === k;

/** What is in at a moment, as it stands in a litre of the full can. */
const dosedAt = (batch: Batch, moment: Moment): Dosed[] =>
  batch.items.slice(0, itemsAt(batch, moment)).map(({ product, planned, sd, lasting, bySpoon }) => ({
    product,
    perLitre: planned / batch.litres,
    spread: planned > 0 ? sd / planned : 0,
    ...(lasting === undefined ? {} : { lasting }),
    bySpoon,
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
