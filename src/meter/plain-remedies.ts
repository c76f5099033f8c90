import type { Kit } from '../catalog/bench-types.js';
import { toolsOf } from '../dose/tools.js';
import type { FeedRequest } from '../feed/request.js';
import { type Batch, plannedLitres } from './batch.js';
import type { Action } from './can-limits.js';
import type { PossibleCan } from './posterior.js';
import { byMarks, doesNothing, mainWater, nearestMeasure } from './remedy-action.js';
import type { Room } from './by-steps.js';

/** A remedy that a person would think of. */
export interface PlainRemedy {
  action: Action;
  /** How near the plan the likeliest can then is: 1 = as planned, 0 = further off than hands tell. */
  asPlanned: number;
}

/**
 * What a person would think of, with nothing that was not in the plan: fill up to a mark, add what is missing for as much as there then is, pour some
 * off first; over the brim that is two jugs. All that hands can do of it, to be weighed.
 */
export function plainRemedies(
  can: PossibleCan,
  request: FeedRequest,
  batch: Batch,
  kit: Kit,
  room: Room,
): PlainRemedy[] {
  const meant = plannedLitres(batch);
  const { litres, mark } = room;
  const found: PlainRemedy[] = [];
  for (const keep of [1, ...POURED]) {
    for (const level of levels(keep, room, meant)) {
      const water = onMain(Math.max(0, level - keep * litres), request, batch);
      const filled = byMarks({ keep, water, add: none(request) }, room);
      if (filled.keep * litres < mark / 2) continue;
      const batches = (filled.fillTo ?? filled.keep * litres) / meant;
      const missing = missingFor(batches, filled.keep, can, request, batch, kit, room);
      const count = missing.filter((x) => x > 0).length;
      const singles = count > 1 ? missing.flatMap((x, i) => (x > 0 ? [only(i, missing)] : [])) : [];
      for (const add of [...(count > 0 ? [none(request)] : []), missing, ...singles]) {
        const action = { ...filled, add };
        if (doesNothing(action)) continue;
        found.push({ action, asPlanned: nearPlan(batches, action, can, request, batch) });
      }
    }
  }
  return found;
}

/** By the item that is furthest from what so many batches hold. */
function nearPlan(
  batches: number,
  { keep, add }: Action,
  can: PossibleCan,
  { shelf }: FeedRequest,
  batch: Batch,
): number {
  const off = batch.items.map(({ product, planned }, k) => {
    const i = shelf.findIndex(({ id }) => id === product.id);
    return Math.abs((keep * can.amounts[k]! + (add[i] ?? 0)) / (batches * planned) - 1);
  });
  return Math.max(0, 1 - Math.max(...off) / EXACT);
}

const POURED = [0.75, 0.5, 0.25];

/** Levels worth filling to: as it is, and every mark to the brim of two jugs; after pouring off, only as far as was meant. */
function levels(keep: number, { litres, mark, capacityLitres }: Room, meant: number): number[] {
  const least = keep * litres;
  const most = keep < 1 ? Math.max(meant, least) : 2 * capacityLitres;
  const first = Math.floor(least / mark) + 1;
  const marks = Array.from(
    { length: Math.max(0, Math.floor(most / mark + 1e-9) - first + 1) },
    (_, i) => (first + i) * mark,
  );
  return [least, ...marks.filter((level) => keep === 1 || level > meant - 2 * mark)];
}

const none = ({ shelf }: FeedRequest): number[] => shelf.map(() => 0);
const only = (i: number, of: readonly number[]): number[] => of.map((x, k) => (k === i ? x : 0));

const onMain = (litres: number, request: FeedRequest, batch: Batch): number[] => {
  const main = mainWater(request, batch);
  return request.waters.map((_, i) => (i === main ? litres : 0));
};

/** Of each item what is missing for so many batches, by the kit; none where it is hardly anything or more than is left. */
function missingFor(
  batches: number,
  kept: number,
  can: PossibleCan,
  { shelf }: FeedRequest,
  { items }: Batch,
  kit: Kit,
  { left }: Room,
): number[] {
  const tools = toolsOf(kit);
  return shelf.map((product, i) => {
    const at = items.findIndex((item) => item.product.id === product.id);
    if (at < 0) return 0;
    const want = batches * items[at]!.planned;
    const missing = want - kept * can.amounts[at]!;
    if (!(missing > HARDLY * want)) return 0;
    // what was forgotten goes in as it was to go in
    const amount =
      missing > (1 - NEARLY) * want && Math.abs(batches - 1) < NEARLY
        ? items[at]!.planned
        : nearestMeasure(product, missing, kit, tools);
    return amount <= left[i]! ? amount : 0;
  });
}

/** Further off than this no can is as planned. */
const EXACT = 0.1;
/** Less than this share of a dose is left as it is. */
const HARDLY = 0.15;
/** What a dose that was forgotten may look like by chance, and a level that is as good as the mark. */
const NEARLY = 0.08;
