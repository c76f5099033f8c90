import type { Caution } from '../can/cautions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import type { FeedHeader, Miss } from '../feed/results.js';
import type { LeftOutNote, OtherCurrencyNote } from './types.js';

/** Which product is to be replaced, in which feeds, from which market. */
export interface SubstitutesRequest {
  /** Their shelves hold the product. */
  feeds: FeedRequest[];
  product: ClosedProduct;
  market: ClosedProduct[];
  marketName: string;
  currency: string;
  /** How many to list for each feed; 5 by default. */
  most?: number;
}

/** How a feed without the product compares with the feed that had it. */
export interface Judged {
  /** Largest distance from an element of the original feed, as a share of it; over the elements that the programme bounds. */
  largestMiss: number;
  sumOfMisses: number;
  /** Every band, rule and cap is kept. */
  holds: boolean;
  broken: Miss[];
}

/** One product in the place of another. Doses in g/L or mL/L. */
export interface Substitute extends Judged {
  id: string;
  name: string;
  dose: number;
  unit: 'g' | 'mL';
  /** g or mL of it for one g or mL of the original. */
  perOriginal: number | null;
  /** Of the whole feed. */
  costPerLitre: number;
  pack: number;
  price: number | null;
}

/** The substitutes for one feed; or that it needs none, or that there is no feed to compare with. */
export type FeedSubstitutes = FeedCompared | FeedWithout | FeedUnknown;

/** The feed as it is with the product; `broken`: how many limits the shelf breaks even so. */
export interface OriginalFeed {
  dose: number;
  unit: 'g' | 'mL';
  costPerLitre: number;
  keepsLimits: boolean;
  broken: number;
}

export interface FeedCompared {
  status: 'compared';
  feed: FeedHeader;
  original: OriginalFeed;
  /** The feed with nothing in its place; null where none could be proved. */
  leftOut: Judged | null;
  substitutes: Substitute[];
}

/** The feed takes none of the product, so nothing is needed in its place. */
export interface FeedWithout {
  status: 'not used';
  feed: FeedHeader;
  original: OriginalFeed;
}

/** Neither a feed nor a nearest one was found to compare with. */
export interface FeedUnknown {
  status: 'no feed';
  feed: FeedHeader;
}

/** What `buy --instead-of` answers. */
export interface SubstitutesResult {
  status: 'found' | 'not used' | 'none';
  product: { id: string; name: string };
  currency: string;
  market: { name: string; products: number };
  feeds: FeedSubstitutes[];
  /** What was left out of the market. */
  notes: (LeftOutNote | OtherCurrencyNote)[];
  cautions: Caution[];
}
