import type { OwnFeed } from '../../src/advice/own-feed.js';
import { nearMix } from '../../src/blend/near-width.js';
import { readOut } from '../../src/feed/readout.js';

/** The mix near the aims as it stands before any kit measures it out. */
export const mixNearAims: OwnFeed['mix'] = async (request) => {
  const answer = await nearMix(request);
  return answer.answer === 'found' ? readOut(answer.amounts, request) : null;
};
