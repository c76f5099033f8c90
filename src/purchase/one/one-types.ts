import type { NotShared, OneResult } from '../../blend/one/one-types.js';
import type { PurchaseCannot, PurchaseMade, PurchaseOpen, PurchaseOption, PurchaseUnfinished } from '../types.js';

/** What `buy --one` answers: a purchase whose mixes feed all; or why there is none, as a purchase for separate mixes says it. */
export type OnePurchaseResult = OnePurchase | PurchaseCannot | PurchaseOpen | PurchaseUnfinished;

/** The least money for packs from which the fewest mixes, diluted, feed every feed. */
export interface OnePurchase
  extends Omit<PurchaseMade, 'options' | 'oneMoreAllowed' | 'comparison'>,
    Pick<PurchaseOption, 'packs' | 'spend' | 'waterCost' | 'total' | 'stock' | 'laterYears'> {
  /** The mixes as `blend --one` gives them once the packs stand on the shelf. */
  one: OneResult;
  /** Feeds that share no mix, though everything for sale were bought: why fewer mixes will not do. */
  apart: NotShared[];
  /** Ways of sharing that could be mixed, and that budget or the number of new products forbid. */
  forbidden: string[][][];
  /** False where there were too many feeds to try every way of sharing. */
  isFewest: boolean;
  /** The least money for packs and water with a mix for each feed, and with these mixes; null where it was not sought. */
  separate: { spend: number; shared: number; products: string[] } | null;
}
