import type { Hands } from '../handed.js';
import { FRESH_WEEKS, WEEKS } from '../way-out.js';
import { Groups, MOST_FEEDS, partitionsInto } from './groups.js';
import type { FeedAlone } from './one-types.js';
import { sharedOnBench } from './shared-on-bench.js';
import type { NotShared, SharedPlan } from './shared-plan.js';
import { type Sharing, sharings } from './shared-request.js';

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

/** Each group planned with what stands on the bench; a feed that shares with none is given as it is by itself. */
function planning(feeds: readonly FeedAlone[], hands: Hands): Groups<SharedPlan> {
  return new Groups(async (group) => {
    const members = group.map((i) => feeds[i]!);
    if (members.length === 1) return ofItsOwn(members[0]!);
    const inOrder = sharings(members.map(({ request, plan }) => ({ request, own: plan.near.asked })));
    const alone = inOrder.map(({ request }) => members.find((feed) => feed.request === request)!.plan.share);
    return sharedOnBench(inOrder, alone, hands, freshLitres(inOrder, members));
  });
}

/** The mix of one feed, which is the feed that it is given by itself. */
function ofItsOwn({ request, plan: { plan, near, custom, share, proof }, wayOut }: FeedAlone): SharedPlan {
  const [sharing] = sharings([{ request, own: near.asked }]) as [Sharing];
  const violations = plan.status === 'kept' ? [] : plan.violations;
  const cans = [{ sharing, mix: plan.mix, violations, custom, sure: share }];
  return { shares: true, plan, cans, all: share, stretch: 1, costPerLitre: plan.mix.costPerLitre, wayOut, proof };
}

/** Litres of a mix that are used up while it is fresh: by a can of every feed, or by what the feeds take in so many weeks. */
function freshLitres(group: readonly Sharing[], members: readonly FeedAlone[]): number {
  const litres = (of: (feed: FeedAlone) => number): number =>
    group.reduce(
      (sum, { request, parts }) => sum + parts.share * of(members.find((feed) => feed.request === request)!),
      0,
    );
  return Math.max(
    litres(({ request }) => request.header.batchLitres ?? 0),
    litres(({ litresPerYear }) => ((litresPerYear ?? 0) / WEEKS) * FRESH_WEEKS),
  );
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
