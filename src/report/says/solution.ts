import type { AcidityLine, PhLine } from '../../can/can-lines.js';
import type { Meeting } from '../../can/meeting.js';
import { mineralName } from './clouding.js';
import { formatFixed } from '../../units/index.js';

/** `about 10.2 as mixed, 8.0 (7.9 to 8.2) after standing in air`; one figure where they are the same to the tenth that strips tell apart. */
export function phSays({ value, low, high, asMixed }: Omit<PhLine, 'buffered'>): string {
  const stood = `${tenth(value)} (${tenth(low)} to ${tenth(high)})`;
  return Math.abs(asMixed - value) < TOLD_APART
    ? `about ${stood}, as mixed and after standing in air`
    : `about ${tenth(asMixed)} as mixed, ${stood} after standing in air`;
}

const TOLD_APART = 0.1;
const tenth = (pH: number): string => formatFixed(pH, 1);

/** How far the pH can be trusted. */
export function phCaution({ buffered }: Pick<PhLine, 'buffered'>): string {
  return !buffered
    ? 'An estimate: nearly pure water has no buffer, so traces of acid or alkali move the pH; test it, and test it in the pot.'
    : 'An estimate: hard water gives off carbon dioxide for hours and its pH climbs; test a can that has stood.';
}

/** What the feed does to a medium over time. */
export const acidityLines = ({ drift }: AcidityLine): string[] => [DRIFT[drift]];

/** Sphagnum pH 4.0–4.5 and its exchange of H+ for cations: handbook; bark's buffer: from memory. */
const DRIFT: Readonly<Record<AcidityLine['drift'], string>> = {
  steady: 'Nearly neutral over time: it leaves the pH of moss and bark about where it is.',
  acid: 'Acid over time: bark is buffered for weeks to months; moss has no buffer, stands at pH 4 to 4.5 already and is left there or lower. Flush with plain water.',
  basic:
    'Basic over time: bark drifts upwards in weeks to months; moss has no buffer and leaves its pH of 4 to 4.5 sooner, as roots take nitrate.',
};

/** Two products that must not meet undiluted. */
export function meetingSays({ between: [calcium, other], minerals }: Meeting): string {
  return `Never stir ${calcium.name} and ${other.name} together in a little water: they cloud (${minerals.map(mineralName).join(', ')}). Dissolve each by itself in the full can, ${calcium.name} first.`;
}
