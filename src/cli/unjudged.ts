import type { FeedRequest } from '../feed/request.js';
import type { FeedInputs } from './feed-input.js';

/** A request that asks for nothing: what is mixed is only read out. */
export function unjudged(inputs: Pick<FeedInputs, 'currency' | 'waters'>): FeedRequest {
  return {
    header: {
      name: 'recipe',
      plants: '',
      medium: '',
      phase: '',
      strength: '',
      strengthFactor: 1,
      batchLitres: null,
      currency: inputs.currency,
    },
    programme: { plants: '', medium: 'sphagnum', phase: 'growth', bands: {}, rules: [], evidence: [] },
    rules: [],
    shelf: [],
    waters: inputs.waters,
    goal: 'cheapest',
  };
}
