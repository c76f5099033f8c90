import { inverse } from '../../meter/matrix.js';
import { SPREADS } from '../../meter/spreads.js';
import { exp, hypot, log } from '../../units/elementary.js';
import type { Draft } from './entry.js';

/** A reading beside what it should be: of a can, or of a standard. */
export interface Seen {
  entry: number;
  date: string;
  /** The feed of a can; null for a standard. */
  feed: string | null;
  /** Natural logarithm of read over expected, as the pen shows it. */
  off: number;
  /** Standard deviation of what is new with it. */
  sd: number;
}

/** Whether readings moved away from what they were, and what moved. */
export interface Drift {
  /** `either`: something moved, and nothing tells which; a standard would. */
  verdict: 'none' | 'pen' | 'jars' | 'either';
  /** Shares, given the readings, of no drift, of the pen, of the jars; they sum to 1. */
  none: number;
  pen: number;
  jars: number;
  /** The feed whose jars moved; null where it is the pen, all of them, or nothing. */
  feed: string | null;
  /** By which share readings moved, and its standard deviation; 0 where nothing did. */
  share: number;
  sd: number;
  /** The first entry that has moved, and its day; null where nothing did. */
  since: { entry: number; date: string } | null;
  /** Standards read since then. */
  standards: number;
}

/**
 * Of a hundred pens and shelves, so many drift within a season's batches; by how much, and how far a pen or a feed may always have been off,
 * as standard deviations of the logarithm. From memory and judgement; the readings soon outweigh them.
 */
const PRIOR = { drifts: 0.2, size: 0.08, ofFeed: 0.06, ofPen: 0.05 } as const;
/** Doses vary from batch to batch by so much of a reading (judgement; those of a sheet are told by their tools). */
const DOSES = 0.015;
/** Batches before a drift, and since, at least: one that is off is a mistake. */
const LEAST = { before: 3, since: 2 } as const;
/** A can this far off is no drift: a mistake is told by `meter`. */
const GROSS = 0.35;

/** What an entry shows of a drift; null where it shows nothing. */
export function seenIn({ kind, date, feed, reading, expected, penFactor }: Draft, entry: number): Seen | null {
  if ((kind !== 'batch' && kind !== 'standard') || !(reading! > 0) || !(expected! > 0)) return null;
  const off = log(reading! / (penFactor ?? 1) / expected!);
  if (Math.abs(off) > GROSS) return null;
  const digit = SPREADS.lastDigit / reading!;
  const sd = kind === 'standard' ? hypot(SPREADS.penEach, digit) : hypot(SPREADS.penEach, digit, SPREADS.water, DOSES);
  return { entry, date, feed: kind === 'standard' ? null : feed, off, sd };
}

/**
 * Tells a drift of the pen from one of the jars: readings of cans and of standards in their order, each feed and the pen with an offset of its own,
 * and at most one step, of an open size, in the pen (which moves cans and standards alike) or in the jars of a feed (which moves its cans alone).
 * Each place for the step is weighed by its marginal likelihood (normal, worked out in full), and all places are summed (Bayes' rule).
 */
export function driftOf(all: readonly Seen[]): Drift {
  const seen = withoutLoneOnes(all);
  const feeds = [...new Set(seen.flatMap(({ feed }) => (feed === null ? [] : [feed])))];
  const still = weighed(seen, feeds, () => false);
  const steps = placesOf(seen).flatMap((from): Step[] => [
    { moves: 'pen', feed: null, from, at: weighed(seen, feeds, (_, i) => i >= from) },
    ...(feeds.length > 1 ? [null, ...feeds] : [null]).map(
      (feed): Step => ({
        moves: 'jars',
        feed,
        from,
        at: weighed(seen, feeds, (one, i) => i >= from && one.feed !== null && (feed === null || one.feed === feed)),
      }),
    ),
  ]);
  const most = Math.max(still.log, ...steps.map(({ at }) => at.log));
  const share = (moves: Step['moves']): ((step: Step) => number) => {
    const same = steps.filter((step) => step.moves === moves).length;
    return (step) => (step.moves === moves ? (PRIOR.drifts / 2 / same) * exp(step.at.log - most) : 0);
  };
  const [none, pen, jars] = [
    (1 - PRIOR.drifts) * exp(still.log - most),
    steps.reduce((sum, step) => sum + share('pen')(step), 0),
    steps.reduce((sum, step) => sum + share('jars')(step), 0),
  ];
  const total = none + pen + jars;
  const shares = { none: none / total, pen: pen / total, jars: jars / total };
  const verdict = verdictOf(shares);
  if (verdict === 'none') return { verdict, ...shares, feed: null, share: 0, sd: 0, since: null, standards: 0 };
  const likely = steps
    .filter(({ moves }) => verdict === 'either' || moves === verdict)
    .reduce((a, b) => (b.at.log > a.at.log ? b : a));
  const first = seen[likely.from]!;
  return {
    verdict,
    ...shares,
    feed: verdict === 'jars' ? likely.feed : null,
    share: exp(likely.at.step) - 1,
    sd: likely.at.sd,
    since: { entry: first.entry, date: first.date },
    standards: seen.slice(likely.from).filter(({ feed }) => feed === null).length,
  };
}

interface Step {
  moves: 'pen' | 'jars';
  feed: string | null;
  from: number;
  at: Weight;
}

/** How likely the readings are, but for a factor that is the same for all; and the step that they tell. */
interface Weight {
  log: number;
  step: number;
  sd: number;
}

function verdictOf({ none, pen, jars }: Pick<Drift, 'none' | 'pen' | 'jars'>): Drift['verdict'] {
  if (none >= 0.5) return 'none';
  const ofPen = pen / (pen + jars);
  return ofPen > CLEAR ? 'pen' : ofPen < 1 - CLEAR ? 'jars' : 'either';
}

/** So much of it that one of the two is told by name. */
const CLEAR = 0.8;

/** Where a step may begin: with a batch, or a standard, that has enough batches before and since. */
function placesOf(seen: readonly Seen[]): number[] {
  const batches = (some: readonly Seen[]): number => some.filter(({ feed }) => feed !== null).length;
  return seen.flatMap((_, i) =>
    i > 0 && batches(seen.slice(0, i)) >= LEAST.before && batches(seen.slice(i)) >= LEAST.since ? [i] : [],
  );
}

/** Marginal likelihood of the readings with a step where `moved` says so; offsets and step are normal and integrated out. */
function weighed(seen: readonly Seen[], feeds: readonly string[], moved: (one: Seen, i: number) => boolean): Weight {
  const n = feeds.length + 2;
  const [penAt, stepAt] = [n - 2, n - 1];
  const priors = [...feeds.map(() => PRIOR.ofFeed), PRIOR.ofPen, PRIOR.size];
  const precision = priors.map((sd, i) => priors.map((_, k) => (i === k ? 1 / sd ** 2 : 0)));
  const pull = priors.map(() => 0);
  for (const [i, one] of seen.entries()) {
    const at = one.feed === null ? penAt : feeds.indexOf(one.feed);
    const places = moved(one, i) ? [at, stepAt] : [at];
    for (const a of places) {
      pull[a]! += one.off / one.sd ** 2;
      for (const b of places) precision[a]![b]! += 1 / one.sd ** 2;
    }
  }
  const { inverse: covariance, logDeterminant } = inverse(precision);
  const means = covariance.map((row) => row.reduce((sum, x, k) => sum + x * pull[k]!, 0));
  const fit = means.reduce((sum, x, k) => sum + x * pull[k]!, 0);
  return { log: (fit - logDeterminant) / 2, step: means[stepAt]!, sd: Math.sqrt(covariance[stepAt]![stepAt]!) };
}

/** Cans that stand alone, far from those of their feed on both sides, are mistakes and no drift. */
function withoutLoneOnes(seen: readonly Seen[]): Seen[] {
  return seen.filter((one) => {
    if (one.feed === null) return true;
    const own = seen.filter(({ feed }) => feed === one.feed);
    const at = own.indexOf(one);
    const [before, after] = [own[at - 1], own[at + 1]];
    if (!before || !after) return true;
    const far = (other: Seen): boolean => Math.abs(one.off - other.off) > LONE * hypot(one.sd, other.sd);
    return !(far(before) && far(after) && Math.abs(before.off - after.off) <= LONE * hypot(before.sd, after.sd));
  });
}

/** Standard deviations. */
const LONE = 2.5;
