import type { Evidence } from '../../label/product.js';
import type { Drift } from './drift.js';
import type { Entry, Draft } from './entry.js';
import type { JournalSize } from './read.js';
import type { StockChange, StockLeft } from './stock.js';

/** What adding an entry came to. */
export interface JournalAdded {
  status: 'added' | 'undone';
  /** The number that it was given. */
  entry: number;
  /** The file that it stands in. */
  file: string;
  draft: Draft;
  /** What is left of the products that it is about. */
  stock: StockLeft[];
  /** Whether the reading lies where nine of ten right ones do; null where there is none, or nothing is expected. */
  within: boolean | null;
  /** The entry that was undone. */
  undone: Entry | null;
  /** How the pot stands by what ran out of it just now; null of other entries. */
  stands: PotStands | null;
  /** ppm per mS/cm of the bench's pen; null of one that shows EC. */
  scale: number | null;
}

/** An entry as it is shown. */
export type ShownEntry = Entry & { isLive: boolean };

/** A reading of a full can, beside what was expected of it. */
export interface ReadPoint {
  entry: number;
  date: string;
  reading: number;
  expected: number | null;
  low: number | null;
  high: number | null;
}

/** The readings of one feed over time. */
export interface FeedReadings {
  feed: string;
  /** Batches in the journal, with a reading or without. */
  batches: number;
  litres: number;
  /** The latest, in their order. */
  points: ReadPoint[];
}

/** The journal read back. */
export interface JournalShown {
  status: 'shown';
  file: string;
  size: JournalSize;
  /** The feed that is meant; null for all. */
  feed: string | null;
  /** The latest, in their order. */
  entries: ShownEntry[];
  feeds: FeedReadings[];
  /** Whether readings moved away from what they were; of all feeds, with the readings of standards. */
  drift: Drift;
  /** ppm per mS/cm of the bench's pen; null of one that shows EC. */
  scale: number | null;
}

/** What is left. */
export interface JournalStock {
  status: 'counted';
  file: string;
  shelf: string;
  size: JournalSize;
  lines: StockLeft[];
  /** Products of the journal that are not on the shelf. */
  others: StockChange[];
}

/** What was mixed in a month of one feed. */
export interface CostLine {
  /** `2026-11` */
  month: string;
  feed: string;
  batches: number;
  litres: number;
  /** Money; of the batches whose cost is known. */
  cost: number;
  /** Batches whose cost nobody knows. */
  unknown: number;
}

/** What the feeds cost. */
export interface JournalCost {
  status: 'summed';
  file: string;
  /** One table for each currency that stands in the journal. */
  currencies: {
    currency: string;
    lines: CostLine[];
    total: CostLine;
    /** Money paid for packs. */
    paid: number;
  }[];
}

/** A pot by what ran out of it last. */
export interface PotStands {
  pot: string;
  feed: string;
  medium: string;
  /** mS/cm at 25 °C, the last; and of what it is fed, null where nobody knows. */
  runOff: number;
  fed: number | null;
  /** Times what it is fed. */
  buildUp: number | null;
  standing: 'go on' | 'look again' | 'flush' | 'not known';
  /** mS/cm of run-off at which feeding goes on. */
  goOnAt: number | null;
  /** Litres that the empty pot holds; null where nobody said. */
  holds: number | null;
  /** Plain water for a flush, in times of that; null where there is no pot. */
  potVolumes: number | null;
  flushLitres: number | null;
  /** What stands behind that volume. */
  support: { source: string; evidence: Evidence; notes: string } | null;
}

/** A pot by what runs out of it. */
export interface PotLine extends PotStands {
  /** The latest, in their order. */
  points: { entry: number; date: string; runOff: number; fed: number | null }[];
}

/** The pots that were read. */
export interface JournalPots {
  status: 'told';
  file: string;
  pots: PotLine[];
  /** ppm per mS/cm of the bench's pen; null of one that shows EC. */
  scale: number | null;
}
