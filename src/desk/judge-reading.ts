import { shownSays } from '../report/says/pen.js';
import type { PenOnCan } from '../advice/dosed-by-pen.js';
import type { Kit } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import { type PenUse, warmth } from '../meter/batch.js';
import { type Batch, meter, type MeterResult, type Reading } from '../meter/index.js';
import { problem } from '../problem.js';
import { type Litres, formatNumber, milliSiemensPerCm } from '../units/index.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { dosedRecipe, recipeReadBy } from './dosed-recipe.js';
import { WHICH_FEED, feedWishes } from './feed-wishes.js';
import { askedOfMix, feedRequests, refuseUnsized, unjudged } from './feed-requests.js';
import { planOfRecipe, planOfSheet } from './meter-plan.js';
import { ofSheet, planOfCode } from './coded-batch.js';
import { type OpenBench, opened } from './opened.js';
import { momentOf, type StepReading } from './options/pen.js';
import { penFactor, penUse } from './pen.js';
import { shippedCatalog } from './shipped-catalog.js';
import { dashed } from './options/option.js';
import { made, type Wishes } from './wishes.js';

/** How much more than the batch a can is taken to hold where nothing is said (common practice, no source). */
const ROOM = 1.25;

/**
 * Readings of a can, judged against the doses that `mixingSheets` gives for the same wishes (`mix` is how much was to be mixed, in both), or
 * against a recipe: within tolerance, or what probably happened and what to do. `measured` is the water that is really in the can, `brim`
 * what the can holds. `met` is false where nothing saves the can, or where no mistake explains the readings.
 * @throws Refusal with every problem of bench, shelf, wishes and readings
 */
export async function judgeReading(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<MeterResult>> {
  const collected = collecting(files, wishes);
  const bare = wishes.recipe !== undefined;
  const code = collected.wish(wishes, 'sheet');
  const { open, batch: coded } = ofSheet(
    await opened(files, wishes, catalog, collected, { feed: !bare, shelf: !bare }),
    code,
    collected,
  );
  const pen = penUse(wishes, open.bench?.pen, collected);
  const readings = collected.wishes(wishes, 'reading', { scale: pen?.scale ?? null });
  const factor = penFactor(wishes, collected);
  const measured = collected.wish(wishes, 'measured');
  const brim = collected.wish(wishes, 'brim');
  const which = feedWishes(wishes, collected);
  const readBy = recipeReadBy(open, catalog, pen?.scale ?? null);
  const told = collected.wish(wishes, 'recipe', readBy);
  const recipe = await dosedRecipe(told, open, collected, penOnCan(readings, pen, factor));
  const request = requestOf(wishes, open, measured, collected);
  if (bare) refuseBeside('recipe', ['mix', 'sheet', ...WHICH_FEED], wishes, collected);
  else if (wishes.sheet !== undefined) refuseBeside('sheet', ['mix', ...WHICH_FEED], wishes, collected);
  refuseSmallCan(brim, measured ?? recipe?.volumeLitres ?? request?.header.batchLitres, collected);
  const warnings = collected.settle();
  const planned = recipe
    ? planOfRecipe(recipe, request!, open)
    : coded
      ? planOfCode(coded, request!, open)
      : await planOfSheet(request!, open, which);
  const { litres: meantFor } = planned.batch;
  const batch: Batch = { ...planned.batch, litres: measured ?? meantFor, meantFor };
  const capacity = brim ?? roomOf(open.kit, batch.litres)[0] ?? ROOM * batch.litres;
  const result = await meter({
    ...planned,
    batch,
    hasProgramme: open.feeds.length === 1,
    recipe: recipe?.text ?? null,
    readings: placed(readings, batch, factor, pen!, collected),
    pen: pen!,
    kit: open.kit,
    capacityLitres: Math.max(capacity, batch.litres),
    notes: [
      ...planned.notes,
      ...(factor === 1 ? [] : [{ kind: 'pen factor', factor } as const]),
      ...(batch.litres === planned.batch.litres
        ? []
        : [{ kind: 'other volume', plannedLitres: planned.batch.litres, litres: batch.litres } as const]),
    ],
  });
  return {
    met: result.remedy.status !== 'do not feed' && result.judgement.verdict !== 'beyond',
    result,
    warnings,
  };
}

/** The one feed that the can is judged by, or none at all; undefined where it was refused. */
function requestOf(
  wishes: Wishes,
  open: OpenBench,
  measured: Litres | undefined,
  collected: Collected,
): FeedRequest | undefined {
  const { goal, atMost } = askedOfMix({ ...wishes, temperature: undefined }, collected);
  if (open.feeds.length > 1) {
    const names = open.feeds.map((spec) => spec.name).join(', ');
    collected.add(
      problem(
        'one-feed',
        { field: '--feed' },
        `${open.feeds.length} feeds`,
        'one feed',
        `Name one with --feed: ${names}.`,
      ),
    );
  }
  if (open.feeds.length !== 1) return unjudged(open);
  const [request] = feedRequests(open, collected, { goal, ...(atMost === undefined ? {} : { atMost }) });
  if (wishes.recipe !== undefined || request === undefined) return request;
  // doses are those of the sheet, whatever water they went into; where nobody says how much was to be mixed, what was measured is taken for it
  const batchLitres = request.header.batchLitres ?? measured ?? null;
  const sized = { ...request, header: { ...request.header, batchLitres } };
  // a volume that was refused is no missing one
  if (wishes.measured === undefined && wishes.sheet === undefined) refuseUnsized(wishes, [sized], collected);
  return sized;
}

/** A can that does not hold the batch: one of the two is mistaken. */
function refuseSmallCan(brim: Litres | undefined, litres: Litres | null | undefined, collected: Collected): void {
  if (brim === undefined || litres === undefined || litres === null || brim >= litres * (1 - 1e-6)) return;
  collected.add(
    problem(
      'can-too-small',
      { field: '--brim' },
      `a can of ${formatNumber(brim, 4)} L for a batch of ${formatNumber(litres, 4)} L`,
      'what the can holds to the brim',
      'Say --brim with the whole can, --measured with the water in it, or --mix with how much was to be mixed.',
    ),
  );
}

/** Wishes that choose doses have no say where a recipe, or the code of a sheet, says them. */
function refuseBeside(
  said: 'recipe' | 'sheet',
  others: readonly (keyof Wishes)[],
  wishes: Wishes,
  collected: Collected,
): void {
  const which =
    said === 'recipe' ? 'a recipe, or the doses of the sheet' : 'the code of a sheet, or what chooses doses';
  for (const option of made(wishes, others).map(dashed))
    collected.add(
      problem(`beside-${said}`, { field: option }, `${option} beside --${said}`, which, `Leave ${option} out.`),
    );
}

/** How a recipe that the pen told was read: by the same pen, from the water that it was dipped into first. */
function penOnCan(readings: readonly StepReading[], pen: PenUse | undefined, factor: number): PenOnCan {
  const water = readings.find(({ step }) => step === 1);
  const at25 = factor / warmthOf(pen);
  return { factor: at25, ...(water ? { waterMSPerCm: milliSiemensPerCm(water.mSPerCm * at25) } : {}) };
}

/** What the pen shows, as a share of the EC at 25 °C. */
const warmthOf = (pen: PenUse | undefined): number =>
  pen && pen.temperatureC !== null && pen.compensates === false ? warmth(pen.temperatureC) : 1;

/** Readings at their moments, corrected to 25 °C where the pen does not do it. */
function placed(
  read: readonly StepReading[],
  batch: Batch,
  factor: number,
  pen: PenUse,
  collected: Collected,
): Reading[] {
  const ids = batch.items.map(({ product }) => product.id);
  const at25 = warmthOf(pen);
  const readings = read.flatMap(({ step, mSPerCm, shown }): Reading[] => {
    const moment = collected.take(momentOf(step, ids, { field: '--reading' }));
    return moment === undefined ? [] : [{ moment, shown, mSPerCm: milliSiemensPerCm((mSPerCm * factor) / at25) }];
  });
  readings.forEach(({ moment }, i) => {
    if (readings.findIndex((r) => r.moment === moment) < i)
      collected.add(
        problem(
          'reading-twice',
          { field: '--reading' },
          `${shownSays(readings[i]!.shown)} at a step that has a reading`,
          'one reading for each step',
          'Keep the one you trust.',
        ),
      );
  });
  collected.settle();
  return readings;
}

/** The smallest can of the kit that takes the batch. */
function roomOf({ cans }: Kit, litres: number): number[] {
  const fitting = (cans ?? []).map((can) => can.millilitres / 1000).filter((size) => size >= litres * 1.02);
  return fitting.length === 0 ? [] : [Math.min(...fitting)];
}
