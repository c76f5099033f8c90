import type { Problem } from '../problem.js';

/** A text file as it was read: its name as problems shall show it, and its text without a byte-order mark. */
export interface TextFile {
  name: string;
  text: string;
}

/** The texts of a bench. A file that is there but could not be read is null, and `problems` say why; one that is not there is left out. */
export interface BenchFiles {
  /** bench.yaml: water, kit, pen and feeds. */
  bench?: TextFile | null;
  /** shelf.csv: the products on hand. */
  shelf?: TextFile | null;
  /** What is for sale, in the columns of shelf.csv; without it, the catalog. */
  market?: TextFile | null;
  /** Another shelf to set beside this one. */
  against?: TextFile | null;
  /** journal.csv: what was mixed, bought and counted since the shelf was written down. */
  journal?: TextFile | null;
  /** Where the shelf was looked for, as problems shall show it. */
  shelfPlace?: string;
  /** Where the journal was looked for. */
  journalPlace?: string;
  /** What went wrong with getting the texts; told together with what is found in them. */
  problems?: readonly Problem[];
}
