/** What is known of how good the doses are. Every sentence on it is made from this alone. */
export type DoseProof = SearchProof | PenProof;

/** What the search for doses says of itself: made by `SearchProof.of` alone, from the choice that the search ended with. */
export class SearchProof {
  /** Keeps objects that merely look alike from passing for a proof. */
  protected readonly isProof = true;

  private constructor(
    /** `all`: every combination was weighed, or passed over because it could not win; `best found`: the search did not end. */
    readonly by: 'all' | 'best found',
    /** What it speaks of: the limits of the feed, or with them how near its aims the plan is held, and limits moved in so that cans keep them. */
    readonly within: 'limits' | 'plan',
    /** What is kept within the violation: every limit; where the blend itself violates some, those that it keeps, or not even those. */
    readonly kept: 'limits' | 'what the blend keeps' | 'less than the blend',
    /** The largest violation, relative to its limit (of limits that the blend itself violates: beyond its own violation); 0 where all hold. */
    readonly violation: number,
    readonly items: number,
    /** Measures that were open to the items together. */
    readonly measures: number,
    /** Combinations that they make. */
    readonly combinations: number,
    /** Sum of the relative deviations from the blend. */
    readonly deviation: number,
  ) {
    Object.freeze(this);
  }

  /** What the search says of these doses, out of all measures that were open to the items. */
  static of(
    { by, kept, violation, deviation }: Pick<SearchProof, 'by' | 'kept' | 'violation' | 'deviation'>,
    open: readonly { measures: readonly unknown[] }[],
  ): SearchProof {
    const measures = open.reduce((sum, item) => sum + item.measures.length, 0);
    const combinations = open.reduce((product, item) => product * item.measures.length, 1);
    return new SearchProof(by, 'limits', kept, violation, open.length, measures, combinations, deviation);
  }

  /** The same search, made within what a plan is held to. */
  ofPlan(): SearchProof {
    const { by, kept, violation, items, measures, combinations, deviation } = this;
    return new SearchProof(by, 'plan', kept, violation, items, measures, combinations, deviation);
  }
}

/** Doses go by readings of the pen, each rounded to its last digit: nothing is claimed of what lies between. */
export class PenProof {
  protected readonly isProof = true;
  readonly by = 'the pen';

  private constructor() {
    Object.freeze(this);
  }

  static of(): PenProof {
    return new PenProof();
  }
}
