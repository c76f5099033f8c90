import { type DoseLimits, withEc } from './limits.js';
import type { Measure } from './measure.js';
import type { ChooseSettings, OpenItem } from './open-items.js';
import type { DoseProof } from './plan-types.js';
import { type Choices, DUST } from './choices.js';
import { type Found, type SearchOptions, searchDoses } from './search.js';

export { type ChooseSettings, NOTHING, type OpenItem, openItems } from './open-items.js';

export interface Chosen {
  /** One for each item; an amount of 0 leaves it out. */
  measures: Measure[];
  /** The largest miss, relative to its limit (of limits that the blend itself misses: beyond its own miss); 0 where all hold. */
  slack: number;
  by: DoseProof['by'];
  deviation: number;
  /** What is kept within the slack: every limit (the default); where the blend misses some, those that it keeps, or not even those. */
  kept?: 'limits' | 'what the blend keeps' | 'less than the blend';
}

/** One action weighs a millionth of a relative deviation: it decides between equals only. */
const ACTION = 1e-6;
/** So many conductivities are worked out before the plane is taken as the cap. */
const MOST_ECS = 400;
/** Of a limit that is missed anyway, a hundredth more: below what tools, labels and plants could tell. */
export const NOTICED = 0.01;

/**
 * The measures that keep every limit, closest to the blend, then with the fewest actions; or those that miss least. Where the blend itself
 * misses limits (the nearest mix of a feed that cannot be met), what it keeps is kept and what it misses is missed by no more than
 * could be noticed, as long as the kit can; closest first.
 */
export function chooseDoses(items: readonly OpenItem[], limits: DoseLimits, settings: ChooseSettings): Chosen {
  const choices = items.map((item) => choicesOf(item, settings.margin));
  const { likeBlend } = limits;
  let complete = true;
  for (const { kept, slack, firm } of likeBlend ? LIKE_BLEND : WAYS) {
    const frame: Frame = { ...(likeBlend ?? limits), ecOf: limits.ecOf, choices, firm };
    const least = slack ?? search(frame, { least: true });
    const within = typeof least === 'number' ? least : least.slack * (1 + CLOSER);
    if (typeof least !== 'number') complete &&= least.complete;
    if (within === Number.POSITIVE_INFINITY) continue;
    const found = search(frame, { slack: within });
    complete &&= found.complete;
    const best = found.picks || typeof least === 'number' ? found : least;
    if (best.picks) return chosen(items, best.picks, best.slack, kept, complete);
  }
  throw new Error('no doses at all, though any miss was allowed');
}

interface Way {
  kept: NonNullable<Chosen['kept']>;
  /** The miss allowed; without it the least is sought. */
  slack?: number;
  /** True where what the blend keeps holds whatever the rest does. */
  firm: boolean;
}

const WAYS: readonly Way[] = [
  { kept: 'limits', slack: 0, firm: false },
  { kept: 'limits', firm: false },
];
const LIKE_BLEND: readonly Way[] = [
  { kept: 'what the blend keeps', slack: NOTICED, firm: true },
  { kept: 'what the blend keeps', firm: true },
  { kept: 'less than the blend', firm: false },
];
/** So much of the least miss is given up for doses closer to the blend: without it they may drift far for next to nothing. */
const CLOSER = 0.01;

interface Frame extends Pick<DoseLimits, 'rows' | 'ecRow' | 'cap' | 'ecOf'> {
  choices: readonly Choices[];
  firm: boolean;
}

function search({ rows, ecRow, cap, ecOf, choices, firm }: Frame, options: SearchOptions): Found {
  let left = MOST_ECS;
  const overCap = (picks: readonly number[]): number => {
    left -= 1;
    if (left < 0) return Number.POSITIVE_INFINITY;
    const over = ecOf(picks.map((k, i) => choices[i]!.highs[k]!)) / cap! - 1 - DUST;
    return over > 0 && firm && ecRow?.firm ? Number.POSITIVE_INFINITY : over;
  };
  const all = withEc(rows, ecRow).map((row) => (firm ? row : { ...row, firm: false }));
  const found = searchDoses(choices, all, { ...options, ...(cap === null ? {} : { missOf: overCap }) });
  return left < 0 ? { ...found, complete: false } : found;
}

function choicesOf({ wanted, measures }: OpenItem, margin: number): Choices {
  return {
    wanted,
    amounts: measures.map((m) => m.amount),
    lows: measures.map((m) => Math.max(0, m.amount - margin * m.sd)),
    highs: measures.map((m) => m.amount + margin * m.sd),
    costs: measures.map((m) => Math.abs(m.amount - wanted) / wanted + ACTION * m.actions),
  };
}

function chosen(
  items: readonly OpenItem[],
  picks: readonly number[],
  slack: number,
  kept: NonNullable<Chosen['kept']>,
  complete: boolean,
): Chosen {
  const measures = picks.map((k, i) => items[i]!.measures[k]!);
  const deviation = measures.reduce((sum, m, i) => sum + Math.abs(m.amount - items[i]!.wanted) / items[i]!.wanted, 0);
  return { measures, slack, by: complete ? 'all' : 'best found', deviation, kept };
}
