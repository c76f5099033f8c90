import { partsFor } from '../blend/one/parts.js';
import type { FeedSpec } from '../catalog/bench-types.js';
import { sureness } from '../chance/sure.js';
import type { FeedRequest } from '../feed/request.js';
import type { Phase, Unfed } from '../programme/programme.js';
import { type Strength, strengthText } from '../programme/strength.js';
import type { MonthPlan } from '../year/plan-months.js';
import type { MadeMix, SpanState } from '../year/season-types.js';
import { dosesOfFeed } from './doses.js';
import type { FeedWishes } from './feed-wishes.js';
import { oneOf } from './one.js';
import type { OpenBench } from './opened.js';
import { productsKnown } from './recipe-products.js';

/** A feed in one phase and strength. Without a request it is not fed. */
export interface Stage {
  key: string;
  spec: FeedSpec;
  rest?: Unfed;
  request?: FeedRequest;
}

export const stageKey = (feed: string, phase: Phase, strength: Strength): string =>
  JSON.stringify([feed, phase, strengthText(strength)]);

/** The doses of a year, and what each feed is in a month, counted from 0, in which it is planned to be fed. */
export interface MadeMixes {
  mixes: MadeMix[];
  states: (feed: string, month: number) => SpanState;
}

/** The doses of every stage, each made once; with `one` the fewest mixes for the stages that are fed in the same month. */
export async function madeMixes(
  stages: readonly Stage[],
  plans: ReadonlyMap<string, readonly MonthPlan[]>,
  open: OpenBench,
  which: FeedWishes,
  one: boolean,
): Promise<MadeMixes> {
  const byKey = new Map(stages.map((stage) => [stage.key, stage]));
  const inMonth = (month: number): Stage[] =>
    [...plans].flatMap(([name, months]) => {
      const plan = months[month]!;
      return plan.kind === 'fed' ? [byKey.get(stageKey(name, plan.phase, plan.strength))!] : [];
    });
  const mixes: MadeMix[] = [];
  /** Which mix a stage takes among those that are fed together. */
  const taken = new Map<string, SpanState>();
  const groups = one ? fedTogether(MONTHS.map(inMonth)) : [stages.filter(({ request }) => request !== undefined)];
  const groupOf = (month: number): number => {
    const due = inMonth(month).filter(({ request }) => request !== undefined);
    return groups.findIndex((group) => due.every((stage) => group.includes(stage)));
  };
  for (const [g, group] of groups.entries()) {
    for (const made of one ? await sharedMixes(group, open, which) : await ownMixes(group, open, which)) {
      for (const { name, phase, strength, parts } of made.feeds) {
        const { key } = group.find(
          ({ spec }) => spec.name === name && spec.phase === phase && strengthText(spec.strength) === strength,
        )!;
        taken.set(`${g} ${key}`, { kind: 'fed', phase, strength, mix: mixes.length, share: parts.share });
      }
      mixes.push(made);
    }
  }
  return {
    mixes,
    states: (feed, month) => {
      const { rest, key } = inMonth(month).find(({ spec }) => spec.name === feed)!;
      if (rest !== undefined) return { kind: 'rest', rest };
      return taken.get(`${groupOf(month)} ${key}`) ?? { kind: 'none', why: 'no doses' };
    },
  };
}

/** The stages that are fed in the same month, each such group once; one that is part of a larger one takes the mixes of that. */
function fedTogether(months: readonly (readonly Stage[])[]): Stage[][] {
  const groups: Stage[][] = [];
  const due = months.map((stages) => stages.filter(({ request }) => request !== undefined));
  for (const group of due.sort((a, b) => b.length - a.length))
    if (group.length > 0 && groups.every((larger) => !group.every((stage) => larger.includes(stage))))
      groups.push(group);
  return groups;
}

const MONTHS = Array.from({ length: 12 }, (_, i) => i);

/** A mix for each stage; where there is no feed, the nearest that does not hurt. */
async function ownMixes(stages: readonly Stage[], open: OpenBench, which: FeedWishes): Promise<MadeMix[]> {
  const made: MadeMix[] = [];
  for (const { spec, request } of stages) {
    const { result, plan, sure } = await dosesOfFeed(request!, open, which, { offers: false });
    if (plan === null) continue;
    const { name, phase } = spec;
    made.push({
      plan,
      feeds: [{ name, phase, strength: strengthText(spec.strength), parts: partsFor(1) }],
      isKept: result.status === 'made' && plan.status === 'kept',
      sure: (sure?.sureness ?? sureness(plan, plan.request, { known: productsKnown(open.catalog) })).share,
    });
  }
  return made;
}

/** The fewest mixes for stages that are fed in the same weeks. */
async function sharedMixes(stages: readonly Stage[], open: OpenBench, which: FeedWishes): Promise<MadeMix[]> {
  if (stages.length === 0) return [];
  const { mixes } = await oneOf(
    stages.map(({ request }) => request!),
    open,
    which,
  );
  return mixes.map(({ plan, cans }) => ({
    plan,
    feeds: cans.map(({ sharing: { request, parts } }) => {
      const { name, phase, strength } = request.header;
      return { name, phase: phase as Phase, strength, parts };
    }),
    isKept: cans.every(({ violations }) => violations.length === 0),
    sure: Math.min(...cans.map((can) => can.sure)),
  }));
}
