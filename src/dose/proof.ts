/** What is known of how good the doses are. Every sentence on it is made from this alone. */
export type DoseProof = SearchProof | SurestProof;

/** What the search for doses says of itself. */
export interface SearchProof {
  /** `all`: every combination was weighed, or passed over because it could not win; `best found`: the search did not end. */
  by: 'all' | 'best found';
  /** Standard deviations by which the limits that it speaks of were tightened; 0: the limits of the feed. */
  tightened: number;
  /** What is kept within the violation: every limit; where the blend itself violates some, those that it keeps, or not even those. */
  kept: 'limits' | 'what the blend keeps' | 'less than the blend';
  /** The largest violation, relative to its limit (of limits that the blend itself violates: beyond its own violation); 0 where all hold. */
  violation: number;
  items: number;
  /** Measures that were open to the items together. */
  measures: number;
  /** Combinations that they make. */
  combinations: number;
  /** Sum of the relative deviations from the blend. */
  deviation: number;
}

/** Each item took the measure of least expected error by itself: nothing was searched, so nothing is claimed. */
export interface SurestProof {
  by: 'each by itself';
  /** Standard deviations by which the limits of the blend were tightened. */
  tightened: number;
}

/** What the search says of these doses, out of all measures that were open to the items. */
export function proofOf(
  { by, kept, violation, deviation }: Pick<SearchProof, 'by' | 'kept' | 'violation' | 'deviation'>,
  open: readonly { measures: readonly unknown[] }[],
): SearchProof {
  return {
    ...{ by, tightened: 0, kept, violation },
    items: open.length,
    measures: open.reduce((sum, item) => sum + item.measures.length, 0),
    combinations: open.reduce((product, item) => product * item.measures.length, 1),
    deviation,
  };
}
