import type { TextFile } from '../../desk/bench-files.js';
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

export interface BuyAsked {
  texts: BenchTexts;
  wish: BuyWish;
  /** What is for sale where the grower is; null: the catalog. */
  market: TextFile | null;
}

/** What to buy for all feeds of the bench, as the command line's `buy` has it; what is being sought is told on the way. */
export async function buyQuestion({ texts, wish, market }: BuyAsked, say: Say): Promise<BuyView> {
  const files = { ...filesOf(texts), ...(market ? { market } : {}) };
  const asked = [files, wishesOf(wish), shippedCatalog()] as const;
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

const HORIZONS: Readonly<Record<Exclude<BuyWish['horizon'], 'other'>, Wishes>> = {
  'a quarter': { weeks: '13' },
  'half a year': { weeks: '26' },
  'a year': { year: true },
};

/** Products as they are written in a field: one a line, or apart by commas. */
const listed = (text: string): string[] =>
  text
    .split(/[\n,;]/)
    .map((word) => word.trim())
    .filter((word) => word !== '');

const wishesOf = ({ horizon, weeks, atMost, budget, ban, need, one }: BuyWish): Wishes => ({
  ...(horizon === 'other' ? { weeks } : HORIZONS[horizon]),
  ban: listed(ban),
  need: listed(need),
  ...(atMost.trim() === '' ? {} : { atMost }),
  ...(budget.trim() === '' ? {} : { budget }),
  ...(one ? { one } : {}),
});
