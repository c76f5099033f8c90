import type { Grams, Litres, Millilitres } from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { FeedHeader } from '../feed/results.js';

/** A feed to be kept as stock. */
export interface ConcentrateRequest {
  feed: FeedHeader | null;
  recipe: string | null;
  items: { product: ClosedProduct; perLitre: number }[];
  /** Shares of the can, summing to 1. */
  waters: { water: Water; share: number }[];
  weeklyLitres: Litres | null;
  /** One part of each stock in so many parts of feed, 2 to 1000; null: the usual, or the strongest that holds where that is too strong. */
  ratio: number | null;
  /** Null: one bottle where one will do. */
  tanks: 1 | 2 | null;
  jugMillilitres: Millilitres;
  coldestCelsius: number;
  scaleStepGrams: Grams | null;
  /** What the syringe at hand holds; null where there is none. */
  syringeMillilitres?: Millilitres | null;
  remark: StockRemark | null;
  /** Feeds that are so many parts of this one and so many of water, the strongest first; absent where it is one feed by itself. */
  shares?: readonly StockShare[];
}

/** The same once its ratio is settled. */
export type AtRatio = ConcentrateRequest & { ratio: number };

/** A feed that is a mix diluted with water. */
export interface StockShare {
  feed: string;
  parts: { mix: number; water: number; share: number };
}

/**
 * What is to be known of the feed itself: `no feed`: none keeps every limit, so there are no items; `not proved`: no engine's answer passed its
 * check; `equal shares`: several waters were given without their shares.
 */
export type StockRemark = 'no feed' | 'not proved' | 'equal shares';
