import { atDoor } from '../door.js';
import { checkPen } from '../meter/index.js';
import { type Problem, problem } from '../problem.js';
import type { StandardResult } from '../report/meter-tools.js';
import type { Answer } from './answer.js';
import { Collected } from './collected.js';
import { penFactor, penWarmth } from './pen.js';
import type { Wishes } from './wishes.js';
import { refuseUnlike } from '../wrong-type.js';

/**
 * The pen in a standard solution: whether it is right, and what to multiply its readings by (`reads` in the pen's own unit, `standard` in
 * mS/cm at 25 °C). @throws Refusal with every problem of the wishes
 */
export function checkPenWithStandard(wishes: Wishes, problems: readonly Problem[] = []): Answer<StandardResult> {
  refuseUnlike({ wishes, problems }, { wishes: 'object', problems: ['object'] });
  const collected = new Collected(problems);
  const scale = collected.wish(wishes, 'scale') ?? null;
  const bottle = collected.wish(wishes, 'standard');
  if (wishes.reads === undefined)
    collected.add(
      problem(
        'reads-missing',
        { field: '--reads' },
        atDoor({ typed: 'no --reads', page: 'no reading' }),
        'what the pen shows in the standard',
        atDoor({ typed: 'Add --reads 1350.', page: 'Write what it shows, such as 1350.' }),
      ),
    );
  // a bare number is in the standard's unit, or in ppm on a pen with a scale
  const shown = collected.wish(wishes, 'reads', { scale, bare: scale === null ? (bottle?.unit ?? undefined) : 'ppm' });
  const factor = penFactor(wishes, collected);
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
  const { celsius, compensates } = penWarmth(wishes, collected);
  const warnings = collected.settle();
  const trial = {
    standard: bottle!.mSPerCm,
    reads: shown!.mSPerCm * (scale ?? 1) * factor,
    scale,
    temperatureC: celsius ?? null,
    compensates: compensates ?? null,
  };
  return {
    met: true,
    result: { status: 'checked', ...trial, ...checkPen(trial) },
    warnings,
  };
}
