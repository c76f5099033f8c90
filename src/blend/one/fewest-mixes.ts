import type { Hands } from '../handed.js';
import { Groups, MOST_FEEDS, partitionsInto } from './groups.js';
import type { FeedAlone } from './one-types.js';
import { sharings } from './shared-request.js';
import { type NotShared, planShared, type SharedPlan } from './shared-plan.js';

export interface FewestMixes {
  mixes: SharedPlan[];
  apart: NotShared[];
  isFewest: boolean;
}

/**
 * The fewest mixes for a number of feeds: every way of sharing with one mix, then with two, and so on, the cheapest of the first that does;
 * beyond six feeds, each feed in turn joins the first mix that takes it.
 */
export async function fewestMixes(feeds: readonly FeedAlone[], hands: Hands): Promise<FewestMixes> {
  const groups = planning(feeds, hands);
  if (feeds.length > MOST_FEEDS) {
    const chosen = await groups.inTurn(feeds.length);
    return { mixes: (await groups.plansOf(chosen)) ?? [], apart: groups.apart(), isFewest: chosen.length === 1 };
  }
  for (let count = 1; count <= feeds.length; count += 1) {
    let best: { mixes: SharedPlan[]; cost: number } | null = null;
    for (const partition of partitionsInto(
      feeds.map((_, i) => i),
      count,
    )) {
      const mixes = await groups.plansOf(partition);
      if (mixes === null) continue;
      const cost = costOf(mixes, feeds);
      if (best === null || cost < best.cost) best = { mixes, cost };
    }
    if (best !== null) return { mixes: best.mixes, apart: groups.apart(), isFewest: true };
  }
  throw new Error('a feed that has a mix by itself shares it with nobody');
}

/** Each group planned with the tools at hand. */
function planning(feeds: readonly FeedAlone[], hands: Hands): Groups<SharedPlan> {
  return new Groups(async (group) => {
    const members = group.map((i) => feeds[i]!);
    const inOrder = sharings(members.map(({ request, plan }) => ({ request, own: plan.near.asked })));
    const alone = inOrder.map(({ request }) => members.find((feed) => feed.request === request)!.plan.share);
    return planShared(inOrder, alone, hands);
  });
}

/** Money for all feeds: over a year where everybody says how much is used, else for a can of each. */
export function costOf(mixes: readonly SharedPlan[], feeds: readonly FeedAlone[]): number {
  const litres = litresOf(feeds);
  return mixes
    .flatMap(({ cans }) => cans)
    .reduce((sum, { sharing, mix }) => sum + mix.costPerLitre * litres(sharing.request.header.name), 0);
}

/** Litres of each feed over which money is compared. */
export function litresOf(feeds: readonly FeedAlone[]): (name: string) => number {
  const yearly = feeds.every(({ litresPerYear }) => litresPerYear !== null);
  const by = new Map(
    feeds.map(({ request, litresPerYear }) => [
      request.header.name,
      (yearly ? litresPerYear : request.header.batchLitres) ?? 1,
    ]),
  );
  return (name) => by.get(name) ?? 0;
}
