import type { WayOut } from '../../blend/given-types.js';
import type { Bottle } from '../../dose/measure.js';
import { formatNumber } from '../../units/format.js';
import { volumeText } from '../volume.js';
import { canCount } from './given.js';
import { missName } from './limits.js';

/** What was chosen where the kit alone cannot make a feed, and why, in one line. */
export function wayOutSays({ way, byPen, without }: WayOut, share: number, forSeveral = false): string {
  const rest = byPen && way.kind !== 'pen' ? '; the rest by the pen' : '';
  return `${chosenSays(way, forSeveral)}${rest}. ${whySays(without)}, ${canCount(share)} so.`;
}

function chosenSays(way: WayOut['way'], forSeveral: boolean): string {
  switch (way.kind) {
    case 'pen':
      return 'Dosed by the pen';
    case 'batch':
      if (forSeveral)
        return `Mixed as ${volumeText(way.litres)} at a time instead of ${volumeText(way.instead)}, the rest for the other feeds and the next time`;
      return Math.round(way.litres / way.instead) === 2
        ? `Mixed double: ${volumeText(way.litres)} instead of ${volumeText(way.instead)}, half of it kept for the next time`
        : `Mixed for several times: ${volumeText(way.litres)} instead of ${volumeText(way.instead)}, the rest kept and used up in two weeks`;
    case 'item stock':
      return `${way.bottles.length === 1 ? 'A stock bottle' : 'Stock bottles'} of ${way.bottles.map(({ name, dose }) => `${name}: ${dose} per can`).join('; of ')}`;
    default:
      return way satisfies never;
  }
}

/** Of cans by the kit alone, as half a sentence. */
function whySays({ unmeasured, misses, share }: WayOut['without']): string {
  const cans = `${canCount(share)} cans would keep the limits`;
  if (unmeasured.length > 0) return `Your kit alone cannot measure ${named(unmeasured)}: ${cans}`;
  if (misses.length > 0)
    return `Your kit alone cannot measure it: ${named(misses.map(({ limit }) => missName(limit)))} would be missed, and ${cans}`;
  return `By your kit alone only ${cans}`;
}

const NAMED = 3;
const named = (names: readonly string[]): string =>
  names.length <= NAMED ? names.join(', ') : `${names.slice(0, NAMED).join(', ')} and ${names.length - NAMED} more`;

/** How a bottle is made, step by step. */
export function bottleSteps(
  name: string,
  { millilitres, holds, dose }: Bottle,
  { water, form }: { water: string; form: 'powder' | 'liquid' },
): string[] {
  const size = `${formatNumber(millilitres, 4)} mL`;
  return [
    `${holds.words} ${name} into a bottle of ${size}.`,
    `${water}, lukewarm, up to the ${size} mark; shake until ${form === 'powder' ? 'it is wholly clear' : 'it is one colour'}.`,
    `Write on it: ${name}, stock, ${dose.words} per can, the date, NOT FOR DRINKING. Cool, dark and closed; shake before use. It does for ${formatNumber(Math.floor(millilitres / dose.amount), 3)} cans.`,
  ];
}

/** Heading of those steps. */
export const bottleTitle = (name: string): string => `First, once: a stock bottle of ${name}`;
