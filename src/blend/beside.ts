import { aimsOf } from '../feed/near.js';
import type { Nutrient } from '../chemistry/nutrients.js';
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
  const held = (element: Nutrient): number => mix.elements.find((line) => line.element === element)?.mgPerLitre ?? 0;
  return { costPerLitre: mix.costPerLitre, largestMiss: largestMiss(programme, held), share, items: mix.items.length };
}

/** The element farthest from its aim, as a share of the aim, wherever such a share is told: |content − aim| / aim. Null without aims. */
export function largestMiss(
  programme: FeedRequest['programme'],
  held: (element: Nutrient) => number,
): Beside['largestMiss'] {
  const misses = aimsOf(programme).map(([element, aim]) => ({ element, share: Math.abs(held(element) / aim - 1) }));
  return misses.sort((a, b) => b.share - a.share)[0] ?? null;
}
