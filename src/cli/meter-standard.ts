import { checkPen } from '../meter/index.js';
import { problem } from '../problem.js';
import { type StandardResult, standardSheet } from '../report/meter-tools.js';
import type { Collected } from './collect.js';
import type { Given, Outcome } from './command.js';
import { parsePenValue, parseScale } from '../desk/options/pen.js';
import { penFactor, penWarmth } from './pen-input.js';

/** The pen in a standard solution. */
export function standard(given: Given, collected: Collected): Outcome {
  const scale = collected.take(parseScale(given.text('scale'), undefined, { field: '--scale' })) ?? null;
  const bottle = collected.option(given, 'standard', (text) => parsePenValue(text, null, { field: '--standard' }));
  const reads = given.text('reads');
  if (reads === undefined)
    collected.add(
      problem(
        'reads-missing',
        { field: '--reads' },
        'no --reads',
        'what the pen shows in the standard',
        'Add --reads 1350.',
      ),
    );
  // a bare number is in the standard's unit, or in ppm on a pen with a scale
  const bare = scale === null ? (bottle?.unit ?? undefined) : 'ppm';
  const shown =
    reads === undefined ? undefined : collected.take(parsePenValue(reads, scale, { field: '--reads' }, bare));
  const factor = penFactor(given, collected);
  if (bottle && !(bottle.mSPerCm > 0))
    collected.add(
      problem(
        'pen-reading',
        { field: '--standard' },
        'a standard of nothing',
        'its conductivity at 25 °C',
        'Read it on the bottle: "1413 µS".',
      ),
    );
  if (shown && !(shown.mSPerCm > 0))
    collected.add(
      problem(
        'pen-reading',
        { field: '--reads' },
        'a pen that shows nothing',
        'a reading above zero',
        'Switch it on, rinse it, dip it to the mark; a flat battery shows 0 too.',
      ),
    );
  const { celsius, compensates } = penWarmth(given, collected);
  const warnings = collected.settle();
  const trial = {
    standard: bottle!.mSPerCm,
    reads: shown!.mSPerCm * (scale ?? 1) * factor,
    scale,
    temperatureC: celsius ?? null,
    compensates: compensates ?? null,
  };
  const result: StandardResult = { schema: 'velamen.standard/1', status: 'checked', ...trial, ...checkPen(trial) };
  return { exit: 0, json: result, sheets: [standardSheet(result)], warnings };
}
