import type { Caution } from '../can/cautions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import type { FeedHeader } from '../feed/results.js';

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
  broken: { limit: string; value: number; bound: number }[];
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
  price: number;
}

/** The substitutes for one feed. */
export interface FeedSubstitutes {
  feed: FeedHeader;
  /** `broken`: how many limits the shelf breaks even with it. */
  original: { dose: number; unit: 'g' | 'mL'; costPerLitre: number; keepsLimits: boolean; broken: number };
  /** The feed with nothing in its place. */
  leftOut: Judged | null;
  substitutes: Substitute[];
}

/** What `buy --instead-of` answers. */
export interface SubstitutesResult {
  schema: 'velamen.substitutes/1';
  status: 'found' | 'not used' | 'none';
  product: { id: string; name: string };
  currency: string;
  market: { name: string; products: number };
  feeds: FeedSubstitutes[];
  notes: string[];
  cautions: Caution[];
}
