import { withCan } from '../can/can-cautions.js';
import { type Caution, cautionsFor } from '../can/cautions.js';
import { cautioned } from '../can/in-the-can.js';
import type { FeedRequest } from '../feed/request.js';
import type { Kit } from '../catalog/bench-types.js';
import { type Batch, itemsAt, type PenUse, plannedLitres, type Reading } from './batch.js';
import { expectedReadings } from './expected.js';
import { judge, type Judged } from './judge.js';
import { type MeterNote, type MeterResult, plannedBatch } from './meter-types.js';
import { completionOf } from './complete-recipe.js';
import { elsewhere, type OtherUse } from './elsewhere.js';
import { doingOf, rescue } from './rescue.js';
import type { Told } from './told.js';
import { verdictOf } from './verdict.js';

export interface MeterRequest {
  batch: Batch;
  /** Labels closed. */
  request: FeedRequest;
  /** False where no programme says what the plants want: then only the reading is judged. */
  hasProgramme: boolean;
  recipe: string | null;
  readings: readonly Reading[];
  pen: PenUse;
  /** What the grower said he did; none where he said nothing. */
  told?: Told | null;
  kit: Kit;
  /** Litres to the brim. */
  capacityLitres: number;
  /** False where nobody said so, and the batch is taken for it; default true. */
  brimKnown?: boolean;
  notes: readonly MeterNote[];
  /** Who else may have the can. */
  others?: readonly OtherUse[];
}

/** Judges readings of a can and, where a programme says what the plants want, works out the remedy. */
export async function meter(asked: MeterRequest): Promise<MeterResult> {
  const { batch, request, readings, pen, kit, capacityLitres } = asked;
  const judged = judge(batch, readings, pen, asked.told ?? null);
  const remedy: MeterResult['remedy'] = !asked.hasProgramme
    ? { status: 'none', why: 'no programme' }
    : judged.judgement.verdict === 'beyond'
      ? { status: 'none', why: 'beyond' }
      : await rescue(judged, request, { capacityLitres, brimKnown: asked.brimKnown ?? true, kit });
  const completion = asked.hasProgramme ? null : completionOf(batch, judged.judgement);
  return {
    status: 'judged',
    verdict: verdictOf(judged, remedy, completion),
    feed: asked.hasProgramme ? request.header : null,
    recipe: asked.recipe,
    ...plannedBatch(batch, pen, asked.told ?? null),
    judgement: judged.judgement,
    actual: judged.actual,
    remedy,
    completion,
    elsewhere: isLeftOver(remedy) ? elsewhere(judged, request, asked.others ?? []) : [],
    capacityLitres,
    unseen: unseen(batch),
    notes: [...asked.notes, ...unfinished(judged)],
    cautions: cautionsOf(batch, request),
  };
}

/** Whether some or all of the can is not for these plants. */
function isLeftOver(remedy: MeterResult['remedy']): boolean {
  if (remedy.status === 'none') return false;
  const settled = remedy.status === 'check first' ? remedy.unknowing : remedy;
  return settled.status === 'do not feed' || (doingOf(settled)?.pourTo ?? null) !== null;
}

/** Of the can as planned. */
function cautionsOf(batch: Batch, { header, temperatureC }: FeedRequest): Caution[] {
  const products = batch.items.map((item) => item.product);
  const parts = batch.items.map(({ product, planned }) => ({ product, perLitre: planned / plannedLitres(batch) }));
  return withCan(cautionsFor(products, header), cautioned(parts, batch.waters, header.medium, temperatureC));
}

/** Less of the reading at the end than this is lost in the pen's error. */
const SEEN = 0.04;

function unseen(batch: Batch): string[] {
  const { planned, slopes } = expectedReadings(batch, ['end']);
  return batch.items.flatMap(({ product }, i) => (slopes[0]![i]! < SEEN * planned[0]! ? [product.name] : []));
}

function unfinished({ weighed: { batch, readings } }: Judged): MeterNote[] {
  if (
    readings.length === 0 ||
    readings.some((r) => r.moment === 'end' || itemsAt(batch, r.moment) === batch.items.length)
  )
    return [];
  return [{ kind: 'not read to the end' }];
}
