import type { MeterResult } from '../../meter/index.js';
import { causeBriefly } from './cause.js';
import { lookAtSays } from './meter.js';
import { lookSays } from './verdict.js';

/** What the last reading of a can says while more is still to go in: whether to go on, in one sentence, and what to look at. */
export interface StepVerdict {
  tone: 'good' | 'open' | 'bad';
  says: string;
  look: string[];
}

/** Of a can that is not full yet; judged together with what was read before. */
export function stepVerdict(result: MeterResult): StepVerdict {
  const { judgement } = result;
  const last = judgement.readings.at(-1)!;
  const side = last.mSPerCm < last.expected.mSPerCm ? 'low' : 'high';
  if (judgement.verdict === 'beyond')
    return {
      tone: 'bad',
      says: 'Stop: no single mistake explains this.',
      look: judgement.lookAt.map((look) => lookAtSays(look, result)),
    };
  const [likeliest] = judgement.causes;
  if (judgement.verdict === 'within' || judgement.asPlanned >= EVEN || likeliest === undefined)
    return last.within
      ? { tone: 'good', says: 'As it should be. Go on.', look: [] }
      : { tone: 'open', says: `A little ${side}, as one in ten good cans is. Go on.`, look: [] };
  const off = last.within ? 'Off, all readings taken together' : `Too ${side}`;
  return {
    tone: 'bad',
    says: `${off}. Stop: it looks as if ${causeBriefly(likeliest, result)}.`,
    look: [lookSays(likeliest, result)],
  };
}

/** From here on chance is likelier than every mistake together. */
const EVEN = 0.5;
