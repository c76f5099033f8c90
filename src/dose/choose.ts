import type { Choices, Found } from '../../solver/small/index.js';
import { type Frame, search } from './frame.js';
import { levelled } from './levelled.js';
import { type DoseLimits, NOTICED, withEc } from './limits.js';
import type { Measure } from './measure.js';
import type { ChooseSettings, OpenItem } from './open-items.js';
import type { DoseProof } from './plan-types.js';
import { restored } from './restored.js';

export { type ChooseSettings, type OpenItem, openItems } from './open-items.js';

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
/**
 * The measures that keep every limit, closest to the blend, then with the fewest actions; or those that miss least. Where the blend itself
 * misses limits (the nearest mix of a feed that cannot be met), what it keeps is kept and what it misses is missed by no more than
 * could be noticed, as long as the kit can; closest first.
 */
export function chooseDoses(items: readonly OpenItem[], limits: DoseLimits, settings: ChooseSettings): Chosen {
  const choices = items.map((item) => choicesOf(item, settings.margin));
  const own = limits.likeBlend ?? limits;
  const rows = withEc(own);
  const allowed = rows.map((row) => (limits.likeBlend && !row.firm ? NOTICED : 0));
  let complete = true;
  for (const { kept, slack, firm } of limits.likeBlend ? LIKE_BLEND : WAYS) {
    const frame: Frame = {
      rows: firm ? rows : rows.map((row) => ({ ...row, firm: false })),
      cap: own.cap,
      ecOf: limits.ecOf,
      choices,
    };
    if (slack !== undefined) {
      const found = search(frame, { slack });
      complete &&= found.complete;
      if (found.picks) return chosen(items, found, kept, complete);
      continue;
    }
    const level = levelled(frame);
    if (!level) continue;
    const near = search(level.frame, { slack: level.slack });
    complete &&= level.complete && near.complete;
    return chosen(items, restored(level, near.picks ? near : level.found, allowed), kept, complete, level.worst);
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
  { kept: 'limits', slack: 0, firm: true },
  { kept: 'limits', firm: false },
];
const LIKE_BLEND: readonly Way[] = [
  { kept: 'what the blend keeps', slack: NOTICED, firm: true },
  { kept: 'what the blend keeps', firm: true },
  { kept: 'less than the blend', firm: false },
];

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
  { picks, slack: own }: Found,
  kept: NonNullable<Chosen['kept']>,
  complete: boolean,
  slack = own,
): Chosen {
  const measures = picks!.map((k, i) => items[i]!.measures[k]!);
  const deviation = measures.reduce((sum, m, i) => sum + Math.abs(m.amount - items[i]!.wanted) / items[i]!.wanted, 0);
  return { measures, slack, by: complete ? 'all' : 'best found', deviation, kept };
}
