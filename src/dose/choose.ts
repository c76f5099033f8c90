import type { Found, Item } from '../../solver/small/index.js';
import { type Frame, search } from './frame.js';
import { levelled } from './levelled.js';
import { type DoseLimits, NOTICED, withEc } from './limits.js';
import type { Measure } from './measure.js';
import type { OpenItem } from './open-items.js';
import type { SearchProof } from './proof.js';
import { restored } from './restored.js';

export { type ChooseSettings, type OpenItem, openItems } from './open-items.js';

/** A choice of measures, and what the search says of it (see `SearchProof`). */
export interface Chosen {
  /** One for each item; an amount of 0 leaves it out. */
  measures: Measure[];
  violation: number;
  by: SearchProof['by'];
  deviation: number;
  kept: SearchProof['kept'];
}

/** One action weighs a millionth of a relative deviation: it decides between equals only. */
const ACTION = 1e-6;
/**
 * The measures that keep every limit, closest to the blend, then with the fewest actions; or those of the least violation. Where the blend
 * itself violates limits (the nearest mix of a feed that cannot be met), what it keeps is kept and what it violates is violated by no more than
 * could be noticed, as long as the kit can; closest first.
 */
export function chooseDoses(items: readonly OpenItem[], limits: DoseLimits): Chosen {
  const found = chooseAmong(items, limits, limits.likeBlend ? LIKE_BLEND : WAYS);
  if (found === null) throw new Error('no doses at all, though any violation was allowed');
  return found;
}

/** The measures that keep every limit, closest to the blend; null where the search finds none, for no violation is sought. */
export const chooseKept = (items: readonly OpenItem[], limits: DoseLimits): Chosen | null =>
  limits.likeBlend ? null : chooseAmong(items, limits, WAYS.slice(0, 1));

function chooseAmong(items: readonly OpenItem[], limits: DoseLimits, ways: readonly Way[]): Chosen | null {
  const levels = items.map(levelsOf);
  const own = limits.likeBlend ?? limits;
  const rows = withEc(own);
  const allowed = rows.map((row) => (limits.likeBlend && !row.firm ? NOTICED : 0));
  let complete = true;
  for (const { kept, allowed: within, firm } of ways) {
    const frame: Frame = {
      rows: firm ? rows : rows.map((row) => ({ ...row, firm: false })),
      cap: own.cap,
      ecOf: limits.ecOf,
      items: levels,
    };
    if (within !== undefined) {
      const found = search(frame, { allowed: within });
      complete &&= found.complete;
      if (found.picks) return chosen(items, found, kept, complete);
      continue;
    }
    const level = levelled(frame);
    if (!level) continue;
    const near = search(level.frame, { allowed: level.allowed });
    complete &&= level.complete && near.complete;
    return chosen(items, restored(level, near.picks ? near : level.found, allowed), kept, complete, level.worst);
  }
  return null;
}

interface Way {
  kept: Chosen['kept'];
  /** The violation allowed; without it the least is sought. */
  allowed?: number;
  /** True where what the blend keeps holds whatever the rest does. */
  firm: boolean;
}

const WAYS: readonly Way[] = [
  { kept: 'limits', allowed: 0, firm: true },
  { kept: 'limits', firm: false },
];
const LIKE_BLEND: readonly Way[] = [
  { kept: 'what the blend keeps', allowed: NOTICED, firm: true },
  { kept: 'what the blend keeps', firm: true },
  { kept: 'less than the blend', firm: false },
];

function levelsOf({ wanted, measures }: OpenItem): Item {
  const levels = measures.map((m) => m.amount);
  return {
    target: wanted,
    levels,
    lows: levels,
    highs: levels,
    costs: measures.map((m) => Math.abs(m.amount - wanted) / wanted + ACTION * m.actions),
  };
}

function chosen(
  items: readonly OpenItem[],
  { picks, violation: own }: Found,
  kept: Chosen['kept'],
  complete: boolean,
  violation = own,
): Chosen {
  const measures = picks!.map((k, i) => items[i]!.measures[k]!);
  const deviation = measures.reduce((sum, m, i) => sum + Math.abs(m.amount - items[i]!.wanted) / items[i]!.wanted, 0);
  return { measures, violation, by: complete ? 'all' : 'best found', deviation, kept };
}
