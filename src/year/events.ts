import { litres } from '../units/index.js';
import type { SeasonEvent, SeasonFeed, SeasonMix, SeasonOrder } from './season-types.js';
import type { Week } from './weeks.js';

/** Weeks with what they share, as runs at even distances: the fewest dates that say them all. */
export interface Run {
  first: number;
  every: number;
  times: number;
}

/** Numbers in rising order as runs: each takes the distance to the next and goes on as long as that holds. */
export function runsOf(numbers: readonly number[]): Run[] {
  const runs: Run[] = [];
  for (let i = 0; i < numbers.length; ) {
    const every = i + 1 < numbers.length ? numbers[i + 1]! - numbers[i]! : 1;
    let times = 1;
    while (i + times < numbers.length && numbers[i + times]! - numbers[i + times - 1]! === every) times += 1;
    // two alone are no rhythm where a longer one begins at the second
    const next = i + 2 < numbers.length ? numbers[i + 2]! - numbers[i + 1]! : every;
    if (times === 2 && i + 3 < numbers.length && numbers[i + 3]! - numbers[i + 2]! === next) times = 1;
    runs.push({ first: numbers[i]!, every: times === 1 ? 1 : every, times });
    i += times;
  }
  return runs;
}

/** The dates of a season: when to mix, to flush, to order, and when to stop feeding; in the order of their days. */
export function eventsOf(
  weeks: readonly Week[],
  feeds: readonly SeasonFeed[],
  mixes: readonly SeasonMix[],
  orders: readonly SeasonOrder[],
): SeasonEvent[] {
  const at = (week: number): string => weeks[week - 1]!.day;
  const mixing = mixes.flatMap((_, mix) => mixEvents(mix, feeds, weeks));
  const flushing = feeds.flatMap(({ name, flush }) =>
    runsOf(flush.weeks).map(
      ({ first, every, times }): SeasonEvent => ({
        kind: 'flush',
        day: at(first),
        everyWeeks: every,
        times,
        feed: name,
      }),
    ),
  );
  const ordering = orders.map(
    ({ day }, order): SeasonEvent => ({ kind: 'order', day, everyWeeks: 1, times: 1, order }),
  );
  const resting = feeds.flatMap(({ name, spans }) =>
    spans.flatMap(({ state, from }): SeasonEvent[] =>
      state.kind === 'rest' || (state.kind === 'none' && state.why === 'asked')
        ? [
            {
              kind: 'rest',
              day: from,
              everyWeeks: 1,
              times: 1,
              feed: name,
              rest: state.kind === 'rest' ? state.rest : null,
            },
          ]
        : [],
    ),
  );
  return [...ordering, ...resting, ...flushing, ...mixing].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** One mix by the weeks that take the same litres of it for the same feeds. */
function mixEvents(mix: number, feeds: readonly SeasonFeed[], weeks: readonly Week[]): SeasonEvent[] {
  const byNeed = new Map<string, { weeks: number[]; total: number; perFeed: { name: string; litres: number }[] }>();
  for (const { week } of weeks) {
    const perFeed = feeds.flatMap(({ name, spans }) => {
      const span = spans.find((one) => week >= one.week && week < one.week + one.weeks)!;
      return span.state.kind === 'fed' && span.state.mix === mix
        ? [{ name, litres: span.litres / span.weeks, share: span.state.share }]
        : [];
    });
    if (perFeed.length === 0) continue;
    const key = JSON.stringify(perFeed);
    const total = perFeed.reduce((sum, one) => sum + one.litres * one.share, 0);
    const told = byNeed.get(key) ?? {
      weeks: [],
      total,
      perFeed: perFeed.map(({ name, litres: l }) => ({ name, litres: l })),
    };
    told.weeks.push(week);
    byNeed.set(key, told);
  }
  return [...byNeed.values()].flatMap(({ weeks: needed, total, perFeed }) =>
    runsOf(needed).map(
      ({ first, every, times }): SeasonEvent => ({
        kind: 'mix',
        day: weeks[first - 1]!.day,
        everyWeeks: every,
        times,
        mix,
        litres: litres(total),
        perFeed: perFeed.map(({ name, litres: l }) => ({ name, litres: litres(l) })),
      }),
    ),
  );
}
