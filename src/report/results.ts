import type { AdviceResult, AssessResult } from '../advice/types.js';
import type { OneResult } from '../blend/one/one-types.js';
import type { BlendResult, FrontierResult, ReachResult } from '../feed/results.js';
import type { MeterResult } from '../meter/index.js';
import type { Programme } from '../programme/programme.js';
import type { OnePurchaseResult } from '../purchase/one/one-types.js';
import type { SubstitutesResult } from '../purchase/substitutes-types.js';
import type { PurchaseResult } from '../purchase/types.js';
import type { SheetOfFeed } from '../sheet/mixing-sheet.js';
import type { ConcentrateResult } from '../stock/concentrate-result.js';
import type { JournalAdded, JournalCost, JournalPots, JournalShown, JournalStock } from '../year/journal/results.js';
import type { SeasonResult } from '../year/season-types.js';
import type { CheckResult } from './check.js';
import type { LabelsResult } from './labels.js';
import type { CalibrateResult, StandardResult, WeighedResult } from './meter-tools.js';
import type { StartResult } from './start.js';

/**
 * What can be found out, by the name that its JSON Schema has: `Results['blend']` is what the desk's `blendFeeds` gives for each feed.
 * Amounts are g/L or mL/L, elements mg/L, conductivities mS/cm at 25 °C, money in the currency of the bench.
 */
export interface Results {
  labels: LabelsResult;
  start: StartResult;
  check: CheckResult;
  blend: BlendResult;
  one: OneResult;
  frontier: FrontierResult;
  reach: ReachResult;
  'reach-all': readonly ReachResult[];
  buy: PurchaseResult;
  'buy-one': OnePurchaseResult;
  substitutes: SubstitutesResult;
  programmes: readonly Programme[];
  assess: AssessResult;
  advice: AdviceResult;
  concentrate: ConcentrateResult;
  sheet: SheetOfFeed;
  season: SeasonResult;
  meter: MeterResult;
  calibrate: CalibrateResult;
  weighed: WeighedResult;
  standard: StandardResult;
  journal: JournalShown;
  'journal-entry': JournalAdded;
  'journal-stock': JournalStock;
  'journal-cost': JournalCost;
  'journal-pot': JournalPots;
}
