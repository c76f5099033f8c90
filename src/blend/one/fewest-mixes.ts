import type { Hands } from '../handed.js';
import type { FeedAlone } from './one-types.js';
import { sharings } from './shared-request.js';
import { type NotShared, planShared, type SharedPlan } from './shared-plan.js';

/** Beyond so many feeds not every way of sharing is tried. */
const MOST_FEEDS = 6;

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
  const groups = new Groups(feeds, hands);
  if (feeds.length > MOST_FEEDS) return inTurn(feeds, groups);
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

async function inTurn(feeds: readonly FeedAlone[], groups: Groups): Promise<FewestMixes> {
  const chosen: number[][] = [];
  for (const i of feeds.keys()) {
    let place = 0;
    while (place < chosen.length && !(await groups.planOf([...chosen[place]!, i])).shares) place += 1;
    chosen[place] = [...(chosen[place] ?? []), i];
  }
  return { mixes: (await groups.plansOf(chosen)) ?? [], apart: groups.apart(), isFewest: chosen.length === 1 };
}

/** Mixes of groups of feeds, each worked out once; what a part of a group cannot share, the group cannot. */
class Groups {
  private readonly known = new Map<string, SharedPlan | NotShared>();
  constructor(
    private readonly feeds: readonly FeedAlone[],
    private readonly hands: Hands,
  ) {}

  async planOf(group: readonly number[]): Promise<SharedPlan | NotShared> {
    const within = [...this.known].find(
      ([key, plan]) =>
        !plan.shares && plan.why.kind === 'limits' && key.split(' ').every((i) => group.includes(Number(i))),
    );
    if (within) return within[1];
    const key = [...group].sort((a, b) => a - b).join(' ');
    const before = this.known.get(key);
    if (before) return before;
    const feeds = group.map((i) => this.feeds[i]!);
    const inOrder = sharings(feeds.map(({ request, plan }) => ({ request, own: plan.near.asked })));
    const alone = inOrder.map(({ request }) => feeds.find((feed) => feed.request === request)!.plan.share);
    const plan = await planShared(inOrder, alone, this.hands);
    this.known.set(key, plan);
    return plan;
  }

  /** Null as soon as one of the groups cannot share. */
  async plansOf(partition: readonly (readonly number[])[]): Promise<SharedPlan[] | null> {
    const plans: SharedPlan[] = [];
    // large groups are the likeliest not to
    for (const group of [...partition].sort((a, b) => b.length - a.length)) {
      const plan = await this.planOf(group);
      if (!plan.shares) return null;
      plans.push(plan);
    }
    return plans;
  }

  /** What was refused, without groups of which a part was refused too. */
  apart(): NotShared[] {
    const refused = [...this.known.values()].flatMap((plan) => (plan.shares ? [] : [plan]));
    return refused.filter(
      (one) =>
        !refused.some(
          (other) => other.feeds.length < one.feeds.length && other.feeds.every((name) => one.feeds.includes(name)),
        ),
    );
  }
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

/** Every way of putting things into so many groups, none of them empty. */
export function partitionsInto<T>(things: readonly T[], count: number): T[][][] {
  const [first, ...rest] = things;
  if (first === undefined) return count === 0 ? [[]] : [];
  if (count === 0) return [];
  return [
    ...partitionsInto(rest, count - 1).map((groups) => [[first], ...groups]),
    ...partitionsInto(rest, count).flatMap((groups) =>
      groups.map((_, i) => groups.map((group, j) => (i === j ? [first, ...group] : group))),
    ),
  ];
}
