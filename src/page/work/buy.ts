import { buyFor, buyOneFor } from '../../desk/buy.js';
import { shippedCatalog } from '../../desk/shipped-catalog.js';
import type { Wishes } from '../../desk/wishes.js';
import type { Problem } from '../../problem.js';
import type { PurchaseResult } from '../../purchase/types.js';
import { cautionBlocks } from '../../report/blend.js';
import { buySheet } from '../../report/buy.js';
import { buyOneSheet } from '../../report/buy-one.js';
import { labelBlocks } from '../../report/buy-option.js';
import { money } from '../../report/figures.js';
import { feedsSay, leastCans, missedSays, packSays, waysSay } from '../../report/says/packs.js';
import { purchaseStepSays } from '../../report/says/purchase.js';
import { type Block, spoken } from '../../report/sheet.js';
import type { BenchTexts, BuyWish } from '../state.js';
import { filesOf } from './files.js';
import type { Say } from './say.js';

/** One way to buy, as a card. */
export interface BuyOption {
  ways: string;
  money: string;
  later: string;
  packs: string[];
  feeds: string;
  /** Which limits are not kept; empty where all are. */
  missed: string;
}

export interface BuyView {
  title: string;
  met: boolean;
  options: BuyOption[];
  /** What to look for in place of invented products. */
  labels: Block[];
  cautions: Block[];
  /** The whole report, as `buy --full` prints it. */
  blocks: Block[];
  warnings: readonly Problem[];
}

/** What to buy for all feeds of the bench, as the command line's `buy` has it; what is being sought is told on the way. */
export async function buyQuestion({ texts, wish }: { texts: BenchTexts; wish: BuyWish }, say: Say): Promise<BuyView> {
  const asked = [filesOf(texts), wishesOf(wish), shippedCatalog()] as const;
  const search = {
    now: () => performance.now(),
    onStep: (step: Parameters<typeof purchaseStepSays>[0]) => say(`seeking ${purchaseStepSays(step)}`),
  };
  if (wish.one) {
    const { met, result, warnings } = await buyOneFor(...asked, search);
    const { title, blocks } = buyOneSheet(result);
    return { title, met, options: [], labels: [], cautions: [], blocks, warnings };
  }
  const { met, result, warnings } = await buyFor(...asked, { ...search, beside: true });
  const { title, blocks } = buySheet(result);
  return {
    title,
    met,
    options: optionsOf(result),
    labels: result.status === 'made' ? labelBlocks(result) : [],
    cautions: cautionBlocks(result.cautions),
    blocks,
    warnings,
  };
}

function optionsOf(result: PurchaseResult): BuyOption[] {
  if (result.status !== 'made') return [];
  return result.options.map((option) => ({
    ways: spoken(waysSay(option.ways)).slice(0, -1),
    money: money(option.total, result.currency),
    later: option.laterYears === null ? '' : `${money(option.laterYears, result.currency)} a year later`,
    packs: option.packs.map(packSays),
    feeds: feedsSay(option) || `at least ${leastCans(option.feeds)} of 100 cans keep the limits`,
    missed: missedSays(option) ?? '',
  }));
}

const HORIZONS: Readonly<Record<BuyWish['horizon'], Wishes>> = {
  'a quarter': { weeks: '13' },
  'half a year': { weeks: '26' },
  'a year': { year: true },
};

const wishesOf = ({ horizon, atMost, budget, one }: BuyWish): Wishes => ({
  ...HORIZONS[horizon],
  ...(atMost.trim() === '' ? {} : { atMost }),
  ...(budget.trim() === '' ? {} : { budget }),
  ...(one ? { one } : {}),
});
