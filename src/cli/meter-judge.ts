import { meterJson } from '../report/json/meter.js';
import type { Kit } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { closeRecipe, parseRecipe } from '../advice/recipe.js';
import type { FeedRequest } from '../feed/request.js';
import { type PenUse, warmth } from '../meter/batch.js';
import { type Batch, meter, type Reading } from '../meter/index.js';
import { problem } from '../problem.js';
import { meterSheet } from '../report/meter.js';
import { formatNumber } from '../units/index.js';
import type { Collected } from './collect.js';
import type { Given, Outcome } from './command.js';
import { type FeedInputs, feedInputs, feedRequests } from './feed-input.js';
import type { Io } from './io.js';
import { momentOf, parseStepReading, type StepReading } from '../desk/options/pen.js';
import { planOfRecipe, planOfSheet } from './meter-plan.js';
import { parseCount } from '../desk/options/number.js';
import { penFactor, penUse } from './pen-input.js';
import { recipeProducts } from './recipe-input.js';
import { parseSure } from '../desk/options/share.js';
import { parseCan } from '../desk/options/volume.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { unjudged } from './unjudged.js';

/** How much more than the batch a can is taken to hold where nothing is said (common practice, no source). */
const ROOM = 1.25;

/** Readings of a can: judged against the doses of the sheet, or against a recipe. */
export async function judgeReadings(given: Given, io: Io, collected: Collected): Promise<Outcome> {
  const catalog = shippedCatalog();
  const words = given.text('recipe');
  const inputs = await feedInputs(given, io, catalog, collected, {
    feed: words === undefined,
    shelf: words === undefined,
  });
  const kit: Kit = inputs.bench?.kit ?? { spoons: [] };
  const pen = penUse(given, inputs, collected);
  const readings = given
    .texts('reading')
    .map((text) => collected.take(parseStepReading(text, pen?.scale ?? null, { field: '--reading' })));
  const factor = penFactor(given, collected);
  const cans = cansOf(given, kit, collected);
  const sure = collected.option(given, 'sure', (text) => parseSure(text, { field: '--sure' }));
  const recipe =
    words === undefined
      ? undefined
      : collected.take(parseRecipe(words, recipeProducts(inputs, catalog), kit, { field: '--recipe' }));
  const hasProgramme = inputs.specs.length === 1;
  const request = requestOf(given, inputs, catalog, cans, collected);
  if (words !== undefined) refuseBesideRecipe(given, collected);
  refuseSmallCan(cans.room, cans.litres ?? recipe?.volumeLitres ?? request?.header.batchLitres, collected);
  const warnings = collected.settle();
  const planned = recipe
    ? planOfRecipe(await closeRecipe(recipe), request!, inputs)
    : await planOfSheet(request!, kit, sure, catalog);
  const { litres: meantFor } = planned.batch;
  const batch: Batch = { ...planned.batch, litres: cans.litres ?? meantFor, meantFor };
  const capacity = cans.room ?? roomOf(kit, batch.litres)[0] ?? ROOM * batch.litres;
  const result = await meter({
    ...planned,
    batch,
    hasProgramme,
    recipe: recipe?.text ?? null,
    readings: placed(readings as StepReading[], batch, factor, pen!, collected),
    pen: pen!,
    kit,
    capacityLitres: Math.max(capacity, batch.litres),
    notes: [
      ...planned.notes,
      ...(factor === 1 ? [] : [`Every reading was multiplied by the pen’s factor ${factor}.`]),
      ...(batch.litres === planned.batch.litres
        ? []
        : [`The doses are those for ${planned.batch.litres} L; ${batch.litres} L were measured.`]),
    ],
  });
  return {
    exit: result.remedy?.status === 'do not feed' || result.judgement.beyond.length > 0 ? 3 : 0,
    json: meterJson(result),
    sheets: [meterSheet(result)],
    warnings,
  };
}

/** Litres that were measured in the can, that the doses were for, and that the can holds to the brim. */
function cansOf(given: Given, kit: Kit, collected: Collected) {
  const read = (name: string): number | undefined =>
    collected.option(given, name, (text) => parseCan(text, kit, { field: `--${name}` }));
  // feedInputs has read it once as the batch of a feed
  const refused = collected.problems.some((p) => p.where.field === '--volume' && p.severity === 'error');
  return { refused, litres: refused ? undefined : read('volume'), mixed: read('batch'), room: read('can') };
}

/** The one feed that the can is judged by, or none at all. */
function requestOf(
  given: Given,
  inputs: FeedInputs,
  catalog: Catalog,
  { refused, litres, mixed }: ReturnType<typeof cansOf>,
  collected: Collected,
): FeedRequest | undefined {
  const atMost = collected.option(given, 'at-most', (text) => parseCount(text, { field: '--at-most' }));
  if (inputs.specs.length > 1) {
    const names = inputs.specs.map((spec) => spec.name).join(', ');
    collected.add(
      problem(
        'one-feed',
        { field: '--feed' },
        `${inputs.specs.length} feeds`,
        'one feed',
        `Name one with --feed: ${names}.`,
      ),
    );
  }
  if (inputs.specs.length !== 1) return unjudged(inputs);
  const goal = given.flag('closest') ? 'closest' : 'cheapest';
  const [request] = feedRequests(inputs, catalog, collected, goal, atMost);
  if (given.text('recipe') !== undefined || request === undefined) return request;
  // doses are those of the sheet's can, whatever water they went into
  const own = inputs.bench?.feeds.find((feed) => feed.name === request.header.name)?.batchLitres;
  const batchLitres = mixed ?? own ?? litres ?? null;
  if (batchLitres === null && !refused && given.text('batch') === undefined)
    collected.add(
      problem(
        'volume-missing',
        { field: '--volume' },
        'no batch size',
        'how much was mixed',
        'Say --volume "4 L", or give the feed a batch in bench.yaml.',
      ),
    );
  return { ...request, header: { ...request.header, batchLitres } };
}

/** A can that does not hold the batch: one of the two is mistaken. */
function refuseSmallCan(room: number | undefined, litres: number | null | undefined, collected: Collected): void {
  if (room === undefined || litres === undefined || litres === null || room >= litres * (1 - 1e-6)) return;
  collected.add(
    problem(
      'can-too-small',
      { field: '--can' },
      `a can of ${formatNumber(room, 4)} L for a batch of ${formatNumber(litres, 4)} L`,
      'what the can holds to the brim',
      'Say --can with the whole can, --volume with the water in it, or --batch with what was mixed.',
    ),
  );
}

/** Options that choose doses of the sheet have no say beside a recipe. */
function refuseBesideRecipe(given: Given, collected: Collected): void {
  for (const name of ['batch', 'closest', 'at-most', 'sure'].filter((option) => given.named().includes(option)))
    collected.add(
      problem(
        'beside-recipe',
        { field: `--${name}` },
        `--${name} beside --recipe`,
        'a recipe, or the doses of the sheet',
        `Leave --${name} out.`,
      ),
    );
}

/** Readings at their moments, corrected to 25 °C where the pen does not do it. */
function placed(
  read: readonly StepReading[],
  batch: Batch,
  factor: number,
  pen: PenUse,
  collected: Collected,
): Reading[] {
  const ids = batch.items.map(({ product }) => product.id);
  const at25 = pen.temperatureC !== null && pen.compensates === false ? warmth(pen.temperatureC) : 1;
  const readings = read.flatMap(({ step, mSPerCm, shown }): Reading[] => {
    const moment = collected.take(momentOf(step, ids, { field: '--reading' }));
    return moment === undefined ? [] : [{ moment, shown, mSPerCm: (mSPerCm * factor) / at25 }];
  });
  readings.forEach(({ moment }, i) => {
    if (readings.findIndex((r) => r.moment === moment) < i)
      collected.add(
        problem(
          'reading-twice',
          { field: '--reading' },
          `${readings[i]!.shown} at a step that has a reading`,
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
