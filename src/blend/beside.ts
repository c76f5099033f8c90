import { aimsOf } from '../feed/near.js';
import type { Mix } from '../feed/results.js';
import type { FeedRequest } from '../feed/request.js';
import { cheapest } from '../formulation/index.js';
import type { Beside } from './given-types.js';
import { handed, type Hands } from './handed.js';
import { type FeedAsked, planFeed } from './feed-plan.js';

/** The cheapest mix inside the limits, and how it would fare in the same hands; null where there is none. */
export async function bareBeside(request: FeedRequest, hands: Hands): Promise<Beside | null> {
  const answer = await cheapest(request);
  if (answer.answer !== 'found') return null;
  const { plan, share } = await handed(request, { near: [], far: [request] }, answer.amounts, hands);
  return { ...besideOf(plan.mix, request, share), costPerLitre: answer.figure };
}

/** The mix as near as the shelf comes, measured out. */
export async function closestBeside(request: FeedRequest, asked: FeedAsked): Promise<Beside | null> {
  const planned = await planFeed(request, { ...asked, want: 'closest', offers: false });
  return 'plan' in planned ? besideOf(planned.plan.mix, request, planned.share) : null;
}

export function besideOf(mix: Mix, { programme }: Pick<FeedRequest, 'programme'>, share: number): Beside {
  const misses = aimsOf(programme).map(([element, aim]) => {
    const held = mix.elements.find((line) => line.element === element)?.mgPerLitre ?? 0;
    return { element, share: Math.abs(held / aim - 1) };
  });
  const [largest] = misses.sort((a, b) => b.share - a.share);
  return { costPerLitre: mix.costPerLitre, largestMiss: largest ?? null, share, items: mix.items.length };
}
