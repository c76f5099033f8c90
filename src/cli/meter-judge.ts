import type { Kit } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { closeProduct } from '../formulation/close.js';
import { parseRecipe, type Recipe } from '../formulation/recipe.js';
import type { FeedRequest } from '../formulation/request.js';
import { type Batch, batchOfPlan, batchOfRecipe, meter, type Reading } from '../meter/index.js';
import { warmth } from '../meter/batch.js';
import { type Checked, problem } from '../problem.js';
import { meterSheet } from '../report/meter.js';
import { formatNumber } from '../units/index.js';
import type { Collected } from './collect.js';
import type { Given, Outcome } from './command.js';
import { dosesOfFeed } from './doses-of-feed.js';
import { feedInputs, type FeedInputs, feedRequests } from './feed-input.js';
import type { Io } from './io.js';
import { momentOf, parseFactor, parseScale, parseStepReading, parseYesNo, type StepReading } from './meter-options.js';
import { parseCount, parseTemperature } from './parse-options.js';
import { recipeProducts } from './recipe-input.js';
import { parseCan, parseSure } from './sheet-options.js';
import { shippedCatalog } from './shipped.js';
import { unjudged } from './unjudged.js';

/** How much more than the batch a can is taken to hold where nothing is said (common practice, no source). */
const ROOM = 1.25;

/** Readings of a can: judged against the doses of the sheet, or against a recipe. */
export async function judgeReadings(given: Given, io: Io, collected: Collected): Promise<Outcome> {
  const catalog = shippedCatalog();
  const words = given.text('recipe');
  const inputs = feedInputs(given, io, catalog, collected, { feed: words === undefined, shelf: words === undefined });
  const kit: Kit = inputs.bench?.kit ?? { spoons: [] };
  const pen = penUse(given, inputs, collected);
  const readings = given
    .texts('reading')
    .map((text) => collected.take(parseStepReading(text, pen?.scale ?? null, { field: '--reading' })));
  const factor = optional(given, 'pen-factor', (text) => parseFactor(text, { field: '--pen-factor' }), collected) ?? 1;
  // feedInputs has read it once as the batch of a feed
  const refused = collected.problems.some((p) => p.where.field === '--volume' && p.severity === 'error');
  const litres = refused
    ? undefined
    : optional(given, 'volume', (text) => parseCan(text, kit, { field: '--volume' }), collected);
  const mixed = optional(given, 'batch', (text) => parseCan(text, kit, { field: '--batch' }), collected);
  const room = optional(given, 'can', (text) => parseCan(text, kit, { field: '--can' }), collected);
  const sure = optional(given, 'sure', (text) => parseSure(text, { field: '--sure' }), collected);
  const atMost = optional(given, 'at-most', (text) => parseCount(text, { field: '--at-most' }), collected);
  const recipe =
    words === undefined
      ? undefined
      : collected.take(parseRecipe(words, recipeProducts(inputs, catalog), kit, { field: '--recipe' }));
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
  const hasProgramme = inputs.specs.length === 1;
  const requests = hasProgramme
    ? feedRequests(inputs, catalog, collected, given.flag('closest') ? 'closest' : 'cheapest', atMost)
    : [unjudged(inputs)];
  if (words === undefined && hasProgramme && requests[0]) {
    // doses are those of the sheet's can, whatever water they went into
    const own = inputs.bench?.feeds.find((feed) => feed.name === requests[0]!.header.name)?.batchLitres;
    const batchLitres = mixed ?? own ?? litres ?? null;
    requests[0] = { ...requests[0], header: { ...requests[0].header, batchLitres } };
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
  }
  if (words !== undefined) refuseBesideRecipe(given, collected);
  refuseSmallCan(room, litres ?? recipe?.volumeLitres ?? requests[0]?.header.batchLitres, collected);
  const warnings = collected.settle();
  const planned = recipe
    ? await ofRecipe(recipe, requests[0]!, inputs)
    : await ofSheet(requests[0]!, kit, sure, catalog);
  const batch: Batch = litres === undefined ? planned.batch : { ...planned.batch, litres };
  const capacity = room ?? roomOf(kit, batch.litres)[0] ?? ROOM * batch.litres;
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
      ...(litres === undefined || litres === planned.batch.litres
        ? []
        : [`The doses are those for ${planned.batch.litres} L; ${litres} L were measured.`]),
    ],
  });
  return {
    exit: result.remedy?.status === 'do not feed' || result.judgement.beyond.length > 0 ? 3 : 0,
    json: result,
    sheets: [meterSheet(result)],
    warnings,
  };
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

interface Planned {
  batch: Batch;
  request: FeedRequest;
  notes: string[];
}

/** The doses that `sheet` prints for the same options. */
async function ofSheet(request: FeedRequest, kit: Kit, sure: number | undefined, catalog: Catalog): Promise<Planned> {
  const { result, plan } = await dosesOfFeed(request, kit, catalog, { sure, offers: false });
  const notes = result.status === 'optimal' ? [] : ['No feed keeps every limit: the nearest one is the plan.'];
  return { batch: batchOfPlan(plan), request: plan.request, notes };
}

/** A recipe as the plan; it is rescued with its own products and the shelf. */
async function ofRecipe(recipe: Recipe, request: FeedRequest, inputs: FeedInputs): Promise<Planned> {
  const named = [...new Set(recipe.lines.map((line) => line.product))];
  // a product of the recipe may be that of the shelf with the catalog's bulk density
  const others = inputs.shelf.products.filter(({ id }) => named.every((product) => product.id !== id));
  const products = [...named, ...others];
  const shelf = await Promise.all(products.map(closeProduct));
  const share = 1 / inputs.waters.length;
  const batch = batchOfRecipe(
    recipe.lines.map((line) => ({ ...line, product: shelf[products.indexOf(line.product)]! })),
    recipe.volumeLitres,
    inputs.waters.map((water) => ({ water, share })),
  );
  return {
    batch,
    request: { ...request, shelf },
    notes: inputs.waters.length > 1 ? ['Several waters are given: taken in equal shares.'] : [],
  };
}

/** Readings at their moments, corrected to 25 °C where the pen does not do it. */
function placed(
  read: readonly StepReading[],
  batch: Batch,
  factor: number,
  pen: NonNullable<ReturnType<typeof penUse>>,
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

function penUse(given: Given, inputs: FeedInputs, collected: Collected) {
  const scale = collected.take(parseScale(given.text('scale'), inputs.bench?.pen, { field: '--scale' }));
  const celsius = optional(
    given,
    'temperature',
    (text) => parseTemperature(text, { field: '--temperature' }),
    collected,
  );
  const compensates = optional(given, 'compensates', (text) => parseYesNo(text, { field: '--compensates' }), collected);
  if (compensates === false && given.text('temperature') === undefined)
    collected.add(
      problem(
        'temperature-missing',
        { field: '--temperature' },
        'a pen that does not correct, and no temperature',
        'the temperature of the can',
        'Add --temperature "15 °C".',
      ),
    );
  if (scale === undefined) return undefined;
  return { scale, temperatureC: celsius ?? null, compensates: compensates ?? null };
}

/** What an option says, read; undefined where it was not given. */
export function optional<T>(
  given: Given,
  name: string,
  parse: (text: string) => Checked<T>,
  collected: Collected,
): T | undefined {
  const text = given.text(name);
  return text === undefined ? undefined : collected.take(parse(text));
}

/** The smallest can of the kit that takes the batch. */
function roomOf({ cans }: Kit, litres: number): number[] {
  const fitting = (cans ?? []).map((can) => can.millilitres / 1000).filter((size) => size >= litres * 1.02);
  return fitting.length === 0 ? [] : [Math.min(...fitting)];
}
