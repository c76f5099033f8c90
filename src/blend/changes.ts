import type { DosePlan } from '../dose/plan-types.js';
import { ratioOfRule } from '../feed/ratio.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendCannot } from '../feed/results.js';
import type { Relaxation } from '../feed/why-not.js';
import { mostAmmonium } from '../programme/rule.js';
import { scaleBy } from '../units/index.js';
import { log } from '../units/elementary.js';
import { type FeedAsked, planFeed } from './feed-plan.js';
import { type Added, type Market, withMore } from './with-more.js';

/** What would make a feed possible: one change to what was asked, as options say it. */
export type Wanted =
  | { kind: 'with'; products: Added[] }
  | { kind: 'nh4'; from: number; to: number }
  | { kind: 'strength'; from: string; percent: number }
  | { kind: 'products'; from: number; to: number };

/** A change that was tried: planned again with it, every limit that hurts or that plants need is kept. */
export interface Change {
  wanted: Wanted;
  /** The feed that it makes possible. */
  plan: DosePlan;
  /** Share of cans that keep the limits. */
  share: number;
  /** Times the usual widths around the aims that the plan needs; 1 where it is as near as usual. */
  width: number;
}

/** Cans that keep their limits: below that a change mends little, and a larger one is tried. */
const ENOUGH = 0.85;
/** So many are told. */
const TOLD = 3;

/**
 * The changes that make a feed possible, the best first: another product beside the shelf, more ammonium where the grower's own rule holds it
 * down, another strength, more products. None is told that was not planned, measured out and counted.
 */
export async function changesFor(
  request: FeedRequest,
  { relaxations, nearest }: Pick<BlendCannot, 'relaxations' | 'nearest'>,
  asked: FeedAsked,
  market: Market,
): Promise<Change[]> {
  const attempt = async (one: FeedRequest, wanted: Wanted): Promise<Change | null> => {
    const planned = await planFeed(one, { ...asked, offers: false });
    if (!('plan' in planned) || planned.plan.status !== 'kept') return null;
    const { factor, own = {} } = planned.near.asked;
    return { wanted, plan: planned.plan, share: planned.share, width: Math.max(factor, ...Object.values(own)) };
  };
  const found: (Change | null)[] = [];
  // the first that is sure enough, or the surest
  const best = async (tries: readonly [FeedRequest, Wanted][]): Promise<void> => {
    const made: Change[] = [];
    for (const [one, wanted] of tries) {
      const change = await attempt(one, wanted);
      if (change) made.push(change);
      if (change && change.share >= asked.sure) break;
    }
    found.push(made.sort((a, b) => b.share - a.share)[0] ?? null);
  };
  await best(moreAmmonium(request, relaxations));
  await best(otherStrengths(request, relaxations));
  for (const way of relaxations) {
    if (way.kind === 'products') await best([[{ ...request, atMost: way.to }, way]]);
  }
  if (request.atMost === undefined) {
    for await (const tier of withMore(request, nearest?.misses ?? [], market)) {
      const from = found.length;
      for (const { shelf, added } of tier) {
        const wanted = { kind: 'with', products: added } as const;
        await best([[{ ...request, shelf }, wanted]]);
      }
      if (found.slice(from).some((change) => change !== null && isSure(change, asked))) break;
    }
  }
  const made = found
    .filter((change) => change !== null)
    .sort(
      (a, b) => Number(isSure(b, asked)) - Number(isSure(a, asked)) || trouble(a, asked.sure) - trouble(b, asked.sure),
    );
  // what would go wrong in many cans is no help where something else is
  const sure = made.filter((change) => isSure(change, asked));
  const ranked = sure.length > 0 ? sure : made.slice(0, 1);
  // another kind of change tells more than a second like the first
  const first = ranked.filter(({ wanted }, i) => ranked.findIndex((other) => other.wanted.kind === wanted.kind) === i);
  return [...first, ...ranked.filter((change) => !first.includes(change))].slice(0, TOLD);
}

const isSure = ({ share }: Change, { sure }: FeedAsked): boolean => share >= Math.min(ENOUGH, sure);

/** How much a change asks, and how poor the feed is that it makes possible. */
function trouble({ wanted, share, width }: Change, sure: number): number {
  return asks(wanted) + log(Math.max(1, width)) + (share >= sure ? 1 - share : 1 + 4 * (sure - share));
}

function asks(wanted: Wanted): number {
  switch (wanted.kind) {
    case 'with':
      return wanted.products.reduce((sum, { isGeneric }) => sum + (isGeneric ? 0.5 : 1), 0) - 0.5;
    case 'nh4':
      return 0.25;
    case 'products':
      return 0.25;
    case 'strength':
      return 0.5;
  }
}

/** The grower's own rule on ammonium given up as far as it must be, and a little further. */
function moreAmmonium(request: FeedRequest, relaxations: readonly Relaxation[]): [FeedRequest, Wanted][] {
  return relaxations.flatMap((way): [FeedRequest, Wanted][] => {
    if (way.kind !== 'single') return [];
    const { limit, ratio, to } = way.move;
    if (limit.kind !== 'rule' || limit.owner !== 'you' || ratio?.over !== 'NH4-N' || !ratio.isShare) return [];
    const rules = request.rules.filter((rule) => {
      const other = rule.kind === 'linear' ? ratioOfRule(rule, 'most') : null;
      return !(other?.isShare && other.over === 'NH4-N');
    });
    const least = Math.max(1, Math.ceil(100 * to - 1e-6));
    return [least, least + 1, least + 3, least + 6]
      .filter((percent) => percent <= 100)
      .map((percent) => [
        { ...request, rules: [...rules, mostAmmonium(percent / 100, { owner: 'you' })] },
        { kind: 'nh4', from: ratio.bound, to: percent / 100 },
      ]);
  });
}

/** The nearest strength at which a mix exists, and a little beyond. */
function otherStrengths(request: FeedRequest, relaxations: readonly Relaxation[]): [FeedRequest, Wanted][] {
  return relaxations.flatMap((way): [FeedRequest, Wanted][] => {
    if (way.kind !== 'strength' || way.to < FAINTEST * way.from || way.to > way.from / FAINTEST) return [];
    const weaker = way.to < way.from;
    const whole = (times: number): number =>
      weaker ? Math.floor(way.percent * times + 1e-9) : Math.ceil(way.percent * times - 1e-9);
    return [...new Set((weaker ? [1, 0.95, 0.9] : [1, 1.05, 1.1]).map(whole))]
      .filter((percent) => percent > 0)
      .map((percent) => [atPercent(request, percent), { kind: 'strength', from: request.header.strength, percent }]);
  });
}

/** Beyond half or double it is another feed. */
const FAINTEST = 0.5;

function atPercent({ header, programme, ...rest }: FeedRequest, percent: number): FeedRequest {
  const factor = percent / 100 / header.strengthFactor;
  const bands = Object.fromEntries(
    Object.entries(programme.bands).map(([name, band]) => [
      name,
      Object.fromEntries(Object.entries(band).map(([end, bound]) => [end, scaleBy(bound, factor)])),
    ]),
  );
  return {
    ...rest,
    programme: { ...programme, bands },
    header: { ...header, strength: `${percent} %`, strengthFactor: percent / 100 },
  };
}
