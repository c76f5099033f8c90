import { atDoor } from '../door.js';
import type { PenOnCan } from '../advice/dosed-by-pen.js';
import type { Recipe } from '../advice/recipe.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import { type PenUse, warmth } from '../meter/batch.js';
import type { Batch, Reading } from '../meter/index.js';
import { problem } from '../problem.js';
import { shownSays } from '../report/says/pen.js';
import type { CodedBatch } from '../sheet/code.js';
import { type Litres, milliSiemensPerCm } from '../units/index.js';
import type { BenchFiles } from './bench-files.js';
import { ofSheet, planOfCode } from './coded-batch.js';
import type { Collected } from './collected.js';
import { dosedRecipe, recipeReadBy } from './dosed-recipe.js';
import { askedOfMix, feedRequests, refuseUnsized, unjudged } from './feed-requests.js';
import { WHICH_FEED, feedWishes } from './feed-wishes.js';
import { type Planned, planOfRecipe, planOfSheet } from './meter-plan.js';
import { type OpenBench, opened } from './opened.js';
import { dashed } from './options/option.js';
import { momentOf, type StepReading } from './options/pen.js';
import { penFactor, penUse } from './pen.js';
import { learnedOfFeed, taughtBy } from './journal/learned.js';
import { made, type Wishes } from './wishes.js';

/** A can that was mixed, as wishes tell it: by the code of a sheet, by a recipe, or by the doses of `sheet` for the same wishes. */
export interface AskedCan {
  open: OpenBench;
  pen: PenUse | undefined;
  readings: StepReading[];
  /** What readings are multiplied by. */
  factor: number;
  /** The water that was measured in the can. */
  measured: Litres | undefined;
  recipe: Recipe | undefined;
  coded: CodedBatch | undefined;
  /** Litres in the can, as far as that is told by now. */
  litres: Litres | null | undefined;
  /** What was to go in; to be asked once every problem is settled. */
  planned: () => Promise<Planned>;
}

/** Reads bench, shelf and the wishes that tell of a can; problems are collected. */
export async function askedCan(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog,
  collected: Collected,
): Promise<AskedCan> {
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
  const which = feedWishes(wishes, collected);
  const readBy = recipeReadBy(open, catalog, pen?.scale ?? null);
  const told = collected.wish(wishes, 'recipe', readBy);
  const recipe = await dosedRecipe(told, open, collected, penOnCan(readings, pen, factor));
  const request = requestOf(wishes, open, measured, collected);
  if (bare) refuseBeside('recipe', ['mix', 'sheet', ...WHICH_FEED], wishes, collected);
  else if (wishes.sheet !== undefined) refuseBeside('sheet', ['mix', ...WHICH_FEED], wishes, collected);
  const planned = async (): Promise<Planned> => {
    const plan = recipe
      ? planOfRecipe(recipe, request!, open)
      : coded
        ? planOfCode(coded, request!, open)
        : await planOfSheet(request!, open, which);
    return taughtPlan(plan, files, open);
  };
  const litres = measured ?? recipe?.volumeLitres ?? request?.header.batchLitres;
  return { open, pen, readings, factor, measured, recipe, coded, litres, planned };
}

/** A plan with what the journal of the bench tells of its readings, where it tells enough. */
function taughtPlan(plan: Planned, { journal }: BenchFiles, open: OpenBench): Planned {
  const learned = journal ? learnedOfFeed(taughtBy(journal, open), plan.request.header.name) : undefined;
  if (learned === undefined) return plan;
  const { batches, from, to } = learned;
  const note = { kind: 'learned', batches, from, to } as const;
  return { ...plan, batch: { ...plan.batch, learned }, notes: [...plan.notes, note] };
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
        atDoor({ typed: `Name one with --feed: ${names}.`, page: `Choose one: ${names}.` }),
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
export const warmthOf = (pen: PenUse | undefined): number =>
  pen && pen.temperatureC !== null && pen.compensates === false ? warmth(pen.temperatureC) : 1;

/** Readings at their moments, corrected to 25 °C where the pen does not do it. @throws Refusal where one is of no step */
export function placed(
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
