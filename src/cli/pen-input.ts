import type { PenUse } from '../meter/batch.js';
import { problem } from '../problem.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import type { FeedInputs } from './feed-input.js';
import { parseFactor, parseScale, parseYesNo } from '../desk/options/pen.js';
import { parseTemperature } from '../desk/options/temperature.js';

/** How the pen was used on a can; undefined where its scale was refused. */
export function penUse(given: Given, { bench }: FeedInputs, collected: Collected): PenUse | undefined {
  const scale = collected.take(parseScale(given.text('scale'), bench?.pen, { field: '--scale' }));
  const { celsius = null, compensates = null } = penWarmth(given, collected);
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
  return scale === undefined ? undefined : { scale, temperatureC: celsius, compensates };
}

/** How warm it was, and whether the pen corrects for that. */
export function penWarmth(given: Given, collected: Collected) {
  return {
    celsius: collected.option(given, 'temperature', (text) => parseTemperature(text, { field: '--temperature' })),
    compensates: collected.option(given, 'compensates', (text) => parseYesNo(text, { field: '--compensates' })),
  };
}

/** What every reading is multiplied by. */
export const penFactor = (given: Given, collected: Collected): number =>
  collected.option(given, 'pen-factor', (text) => parseFactor(text, { field: '--pen-factor' })) ?? 1;
