import { atDoor } from '../../door.js';
import { volumeText } from '../volume.js';
import type { LookAt, MeterNote, PlannedBatch } from '../../meter/index.js';
import { shownSays } from './pen.js';
import { formatNumber } from '../../units/index.js';

/** What to look at where the readings are beyond every mistake considered. */
export function lookAtSays(look: LookAt, { pen }: Pick<PlannedBatch, 'pen'>): string {
  switch (look.kind) {
    case 'less than the water': {
      const water =
        pen.scale === null
          ? `${formatNumber(look.waterMSPerCm, 2)} mS/cm`
          : `${formatNumber(look.waterMSPerCm * pen.scale, 2)} ppm`;
      return `${shownSays(look.shown)} is less than the water alone reads (${water}): the pen is dry, flat, switched off or not in to its mark. Rinse it and read again.`;
    }
    case 'unit of the pen':
      return atDoor({
        typed:
          'Look at the unit that the pen shows: mS/cm, µS/cm or ppm, and of which scale (--scale). A pen may change it by itself when a reading is high.',
        page: 'Look at the unit that the pen shows: mS/cm, µS/cm or ppm, and of which scale. A pen may change it by itself when a reading is high.',
      });
    case 'read once more':
      return 'Read once more, stirred, in a clean cup. If it says the same, more than one thing went wrong: do not feed this can; mix anew and read after each step.';
    default:
      return look satisfies never;
  }
}

/** How the question was taken. */
export function meterNoteSays(note: MeterNote): string {
  switch (note.kind) {
    case 'nearest plan':
      return 'No feed keeps every limit: the nearest one is the plan.';
    case 'equal waters':
      return 'Several waters are given: taken in equal shares.';
    case 'pen factor':
      return `Every reading was multiplied by the pen’s factor ${note.factor}.`;
    case 'learned':
      return `Judged by what ${note.batches} good batches of this feed read (${note.from} to ${note.to}), so more narrowly than by labels alone.`;
    case 'other volume':
      return `The doses are those for ${volumeText(note.plannedLitres)}; ${volumeText(note.litres)} were measured.`;
    case 'not read to the end':
      return 'Nothing was read after the last item: what was still to go in is taken to go in as planned.';
    default:
      return note satisfies never;
  }
}
