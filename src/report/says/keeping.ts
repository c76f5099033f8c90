import type { Keeping, KeepingCause } from '../../can/keeping.js';
import { formatNumber } from '../../units/format.js';

/** A week, h: what stands longer is another question. */
const WEEK = 168;

/** Whether a jug of last week may still be used, in one line, with the grade of what stands behind it. */
export function keepingSays({ hours, causes: [first] }: Keeping): string {
  if (first.why === 'plain water') return 'Last week’s jug: yes. Plain water: nothing in it goes off.';
  const answer =
    hours >= WEEK ? 'yes, if it stood closed, cool and dark, for 7 days at most' : `no. Use it ${withinSays(hours)}`;
  return `Last week’s jug: ${answer}: ${causeSays(first)} (${gradeSays(first)}).`;
}

/** Each thing that ends it, with how long it lets a can stand and where that is from. */
export const keepingInFull = ({ causes }: Keeping): string[] =>
  causes.map(
    (cause) =>
      `${sentence(causeSays(cause))}: ${withinSays(cause.hours)}. ${sentence(cause.source)}; ${gradeSays(cause)}.`,
  );

/** `at once`, `within 24 hours`, `within 2 days`. */
export const withinSays = (hours: number): string =>
  hours === 0 ? 'at once' : hours < 48 ? `within ${hours} hours` : `within ${formatNumber(hours / 24)} days`;

/** What ends it, as a clause. */
export function causeSays(cause: KeepingCause): string {
  switch (cause.why) {
    case 'plain water':
      return 'nothing in it goes off';
    case 'organic matter':
      return `${cause.products.join(', ')} feeds microbes, and the can begins to smell`;
    case 'unnamed nitrogen':
      return `what form the nitrogen of ${cause.products.join(', ')} has is unknown, so it is taken as urea`;
    case 'urea':
      return 'microbes split urea into ammonia, and the pH climbs';
    case 'clouds':
      return `${cause.verdict === 'will cloud' ? 'it clouds' : 'it may cloud'} at ${cause.celsius} °C (${cause.mineral}, saturation index ${formatNumber(cause.index, 2)}); stir before use`;
    case 'iron not held':
      return `no chelate in it holds iron at pH ${formatNumber(cause.pH, 2)}, so iron falls out; the rest is as good`;
    case 'light':
      return cause.chelates.length > 0
        ? `light breaks down the iron chelate${agents(cause.chelates)} and feeds algae`
        : 'light feeds algae';
    default:
      return cause satisfies never;
  }
}

/** ` (EDTA, DTPA)`; a label that names none leaves it unknown. */
function agents(chelates: readonly (string | null)[]): string {
  const named = chelates.filter((agent) => agent !== null);
  if (named.length === 0) return ', which no label names,';
  return ` (${named.join(', ')})`;
}

const gradeSays = ({ evidence }: KeepingCause): string =>
  evidence === 'computed' ? 'computed' : evidence === 'grower practice' ? 'common practice, no source' : evidence;

const sentence = (clause: string): string => clause.charAt(0).toUpperCase() + clause.slice(1);
