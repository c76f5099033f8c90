/** How a feed is made of a mix: so many parts of it with so many parts of water. */
export interface Parts {
  mix: number;
  water: number;
  /** Litres of the mix in a litre of the feed. */
  share: number;
  /** Share of the wanted strength by which whole parts are off; above 0 is stronger. */
  off: number;
}

/** Parts in all that a person still measures without a mistake. */
const MOST_PARTS = 12;
/** One part in more than so many is no dilution for a can: a feed as weak as that shares no mix. */
const WEAKEST = 100;
/** A plan holds nitrogen as near as this: simpler parts that come so near are as good as any. */
const NEAR_ENOUGH = 0.02;

/**
 * The whole parts nearest to a share, the fewest of those that are near enough: 0.5 is 1 + 1, 0.25 is 1 + 3.
 * Where it is weaker than one in a hundred, the parts are too strong, and `off` says so.
 * @param share of the mix in the feed, above 0; what is above 1 is taken as 1
 */
export function partsFor(share: number): Parts {
  const wanted = Math.max(1e-9, Math.min(1, share));
  let best: Parts | null = null;
  for (let all = 1; all <= Math.max(2 * MOST_PARTS, Math.min(WEAKEST, Math.ceil(1 / wanted) + 1)); all += 1) {
    for (let mix = 1; mix <= all; mix += 1) {
      // a weak feed is one part in many; two parts go into twice as many, more only into a small whole
      if ((mix > 2 && all > MOST_PARTS) || (mix === 2 && all > 2 * MOST_PARTS) || greatestCommon(mix, all) > 1)
        continue;
      const parts = { mix, water: all - mix, share: mix / all, off: mix / all / wanted - 1 };
      if (best === null || Math.abs(parts.off) < Math.abs(best.off) - 1e-12) best = parts;
    }
    if (best !== null && Math.abs(best.off) <= NEAR_ENOUGH) break;
  }
  return best!;
}

const greatestCommon = (a: number, b: number): number => (b === 0 ? a : greatestCommon(b, a % b));
