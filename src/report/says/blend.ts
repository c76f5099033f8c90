import type { BlendNote, BlendResult, FrontierResult, Silence } from '../../feed/results.js';
import { disagreementSays } from './disagreement.js';
import { formatNumber } from '../../units/index.js';

/** What is worth knowing beside a blend. */
export function blendNoteSays(note: BlendNote, currency: string): string {
  switch (note.kind) {
    case 'no prices':
      return 'No product on this shelf has a price and a pack size, so the lightest mix was sought instead of the cheapest.';
    case 'price assumed':
      return `No price is known for ${note.products.join(', ')}: counted at the dearest known price, ${formatNumber(note.dearest)} ${currency} per g or mL; the cost shown leaves it out.`;
    case 'sources disagree':
      return `${note.product}: ${disagreementSays(note.off)}.`;
  }
}

/** What a label's silence costs. */
export function silenceSays(
  { label, kindest, found }: Silence,
  { goal, feed }: Pick<BlendResult, 'goal' | 'feed'>,
): string {
  const who = label === null ? 'every label' : `the label of ${label}`;
  const subject = `If ${who} stated what it now leaves open`;
  const closest = goal === 'closest';
  const show = (x: number): string =>
    closest ? `${formatNumber(100 * x)} %` : `${formatNumber(x)} ${feed.currency}/L`;
  if (found === null)
    return `${subject}, a mix might be possible (at best ${show(kindest)}${closest ? ' off its aims' : ''}).`;
  return closest
    ? `${subject}, the feed might come within ${show(kindest)} of its aims instead of ${show(found)}.`
    : `${subject}, the feed might cost as little as ${show(kindest)} instead of ${show(found)}.`;
}

/** What is worth knowing beside cost against nearness. */
export const frontierNotes = ({ assumed }: FrontierResult): string[] =>
  assumed.length === 0 ? [] : [`No price is known for ${assumed.join(', ')}: counted at the dearest known price.`];
