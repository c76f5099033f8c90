import { atDoor } from '../door.js';
import type { Pen } from '../catalog/bench-types.js';
import type { PenUse } from '../meter/batch.js';
import { problem } from '../problem.js';
import type { Collected } from './collected.js';
import { scaleOf } from './options/pen.js';
import type { Wishes } from './wishes.js';

/** How the pen was used on a can; undefined where its scale was refused. */
export function penUse(wishes: Wishes, pen: Pen | undefined, collected: Collected): PenUse | undefined {
  const scale = wishes.scale === undefined ? scaleOf(pen) : collected.wish(wishes, 'scale');
  const { celsius = null, compensates = null } = penWarmth(wishes, collected);
  if (compensates === false && wishes.temperature === undefined)
    collected.add(
      problem(
        'temperature-missing',
        { field: '--temperature' },
        'a pen that does not correct, and no temperature',
        'the temperature of the can',
        atDoor({ typed: 'Add --temperature "15 °C".', page: 'Write it, such as 15 °C.' }),
      ),
    );
  return scale === undefined ? undefined : { scale, temperatureC: celsius, compensates };
}

/** How warm it was, and whether the pen corrects for that. */
export function penWarmth(wishes: Wishes, collected: Collected) {
  return {
    celsius: collected.wish(wishes, 'temperature'),
    compensates: collected.wish(wishes, 'compensates'),
  };
}

/** What every reading is multiplied by. */
export const penFactor = (wishes: Wishes, collected: Collected): number => collected.wish(wishes, 'penFactor') ?? 1;
