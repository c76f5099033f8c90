import type { NotShared } from './shared-plan.js';

/** Beyond so many feeds not every way of sharing is tried. */
export const MOST_FEEDS = 6;

/** Mixes of groups of feeds, each worked out once; what a part of a group cannot share, the group cannot. */
export class Groups<Shared extends { shares: true }> {
  private readonly known = new Map<string, Shared | NotShared>();
  /** @param plan the mix of a group of feeds, which go by their places */
  constructor(private readonly plan: (group: readonly number[]) => Promise<Shared | NotShared>) {}

  async planOf(group: readonly number[]): Promise<Shared | NotShared> {
    const within = [...this.known].find(
      ([key, plan]) =>
        !plan.shares && plan.why.kind === 'limits' && key.split(' ').every((i) => group.includes(Number(i))),
    );
    if (within) return within[1];
    const key = [...group].sort((a, b) => a - b).join(' ');
    const before = this.known.get(key);
    if (before) return before;
    const plan = await this.plan(group);
    this.known.set(key, plan);
    return plan;
  }

  /** Null as soon as one of the groups cannot share. */
  async plansOf(partition: readonly (readonly number[])[]): Promise<Shared[] | null> {
    const plans: Shared[] = [];
    // large groups are the likeliest not to
    for (const group of [...partition].sort((a, b) => b.length - a.length)) {
      const plan = await this.planOf(group);
      if (!plan.shares) return null;
      plans.push(plan);
    }
    return plans;
  }

  /** Each in turn joins the first group that takes it. */
  async inTurn(count: number): Promise<number[][]> {
    const chosen: number[][] = [];
    for (let i = 0; i < count; i += 1) {
      let place = 0;
      while (place < chosen.length && !(await this.planOf([...chosen[place]!, i])).shares) place += 1;
      chosen[place] = [...(chosen[place] ?? []), i];
    }
    return chosen;
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
