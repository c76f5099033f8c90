import { atDoor } from '../door.js';
import type { Kit } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { type Batch, meter, type MeterResult } from '../meter/index.js';
import { problem } from '../problem.js';
import { type Litres, formatNumber, litres } from '../units/index.js';
import type { Answer } from './answer.js';
import { askedCan, placed } from './asked-can.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { otherUses } from './other-uses.js';
import { toldSlips } from './told-slips.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

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
  const asked = await askedCan(files, wishes, catalog, collected);
  const { open, pen, factor, measured, recipe } = asked;
  const brim = collected.wish(wishes, 'brim');
  refuseSmallCan(brim, asked.litres, collected);
  const warnings = collected.settle();
  const planned = await asked.planned();
  const { litres: meantFor } = planned.batch;
  const inCan = measured ?? meantFor;
  const largest = brim ?? largestOf(open.kit, inCan);
  const batch: Batch = {
    ...planned.batch,
    litres: inCan,
    meantFor,
    ...(largest === undefined ? {} : { brimLitres: largest }),
  };
  const known = brim ?? roomOf(open.kit, batch.litres)[0];
  // where nobody said what the can holds, the batch is taken to fill it
  const capacity = known ?? meantFor;
  const seen = placed(asked.readings, batch, factor, pen!, collected);
  const beside = { batch, request: planned.request, readings: seen, measured, brimLitres: known ?? null };
  const { told: said, request: mendedBy } = toldSlips(wishes, open, beside, collected);
  const result = await meter({
    ...planned,
    request: mendedBy,
    batch,
    told: said,
    hasProgramme: open.feeds.length === 1,
    recipe: recipe?.text ?? null,
    readings: seen,
    pen: pen!,
    kit: open.kit,
    capacityLitres: Math.max(capacity, batch.litres),
    brimKnown: known !== undefined,
    others: otherUses(open),
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

/** A can that does not hold the batch: one of the two is mistaken. */
function refuseSmallCan(brim: Litres | undefined, litres: Litres | null | undefined, collected: Collected): void {
  if (brim === undefined || litres === undefined || litres === null || brim >= litres * (1 - 1e-6)) return;
  collected.add(
    problem(
      'can-too-small',
      { field: '--brim' },
      `a can of ${formatNumber(brim, 4)} L for a batch of ${formatNumber(litres, 4)} L`,
      'what the can holds to the brim',
      atDoor({
        typed:
          'Say --brim with the whole can, --measured with the water in it, or --mix with how much was to be mixed.',
        page: 'Say how much the can holds to the brim.',
      }),
    ),
  );
}

/** The smallest can of the kit that takes the batch. */
function roomOf({ cans }: Kit, litres: number): number[] {
  const fitting = (cans ?? []).map((can) => can.millilitres / 1000).filter((size) => size >= litres * 1.02);
  return fitting.length === 0 ? [] : [Math.min(...fitting)];
}

/** The largest can of the kit, where it takes the batch at all. */
function largestOf({ cans }: Kit, batch: Litres): Litres | undefined {
  const largest = litres(Math.max(0, ...(cans ?? []).map((can) => can.millilitres / 1000)));
  return largest >= batch * (1 - 1e-6) ? largest : undefined;
}
