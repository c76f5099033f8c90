import type { Litres } from '../units/index.js';
import { litres } from '../units/index.js';
import { daysAfter, monthKey, monthOf } from './days.js';
import type { FeedSpan, SpanState } from './season-types.js';

/** A week of the plan. It belongs to the month in which it begins. */
export interface Week {
  /** Counted from 1. */
  week: number;
  day: string;
  /** 1 to 12, and `2026-12`. */
  month: number;
  key: string;
}

/** A year counts 52 weeks, as everywhere here. */
export const WEEKS_OF_SEASON = 52;

export const weeksFrom = (from: string): Week[] =>
  Array.from({ length: WEEKS_OF_SEASON }, (_, i) => {
    const day = daysAfter(from, 7 * i);
    return { week: i + 1, day, month: monthOf(day), key: monthKey(day) };
  });

/** What a feed is in each week, with the litres of it. */
export interface FeedWeek {
  state: SpanState;
  litres: Litres;
  /** Money for these litres, product and water. */
  cost: number;
}

/** Weeks of one state after each other, as runs. */
export function spansOf(weeks: readonly Week[], inWeeks: readonly FeedWeek[]): FeedSpan[] {
  const spans: FeedSpan[] = [];
  let last = '';
  for (const [i, { week, day }] of weeks.entries()) {
    const { state, litres: added, cost } = inWeeks[i]!;
    const key = JSON.stringify(state) + (state.kind === 'fed' ? String(added) : '');
    const to = daysAfter(day, 6);
    const span = spans.at(-1);
    if (span === undefined || key !== last) spans.push({ week, weeks: 1, from: day, to, state, litres: added, cost });
    else
      spans[spans.length - 1] = {
        ...span,
        weeks: span.weeks + 1,
        to,
        litres: litres(span.litres + added),
        cost: span.cost + cost,
      };
    last = key;
  }
  return spans;
}
