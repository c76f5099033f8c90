import type { DoseProof, SearchProof } from '../../dose/proof.js';
import { NOTICED } from '../../dose/limits.js';
import { formatNumber } from '../../units/format.js';

/** Why no better doses exist, or that nobody knows: made from what the search says of itself, never more. */
export function doseProofSays(proof: DoseProof): string {
  if (proof.by === 'the pen')
    return 'the doses follow the blend to the last digit of the pen; what it cannot steer goes by measures chosen with them';
  return proof.within === 'limits'
    ? searchSays(proof)
    : `among doses held as near the aims as the plan, and to its limits as far as they were moved in: ${searchSays(proof)}`;
}

function searchSays(proof: SearchProof): string {
  const what = `${proof.measures} measures in ${count(proof.combinations)} combinations`;
  return proof.by === 'all'
    ? `${provedSays(proof)}: every combination of ${what} was tried, or passed over because it breaks a limit or is farther from the blend`
    : `${foundSays(proof)}, the best found among ${what}; the search did not end, so better ones may exist`;
}

/** The search ended: what it found is the best there is. */
function provedSays({ kept, violation, deviation, items }: SearchProof): string {
  const missed = missedSays(violation);
  const off = offSays(deviation, items);
  if (kept === 'less than the blend')
    return `no doses keep every limit that the nearest feed keeps; these miss least beyond it, by at most ${missed}`;
  if (kept === 'what the blend keeps')
    return violation > NOTICED
      ? `no doses that keep every limit that the nearest feed keeps are nearer to the others; these miss them by at most ${missed} more`
      : `no doses that keep every limit that the nearest feed keeps, and miss no other by more than ${formatNumber(100 * NOTICED)} % of it beyond that, are closer to it (${off})`;
  return violation === 0
    ? `no doses that keep every limit are closer to the blend (${off})`
    : `no doses keep every limit; these miss least, by at most ${missed}`;
}

/** The search did not end: only what these doses do is known. */
function foundSays({ kept, violation, deviation, items }: SearchProof): string {
  const missed = missedSays(violation);
  const off = offSays(deviation, items);
  if (kept === 'less than the blend')
    return `these doses miss limits by at most ${missed} beyond what the nearest feed misses`;
  if (kept === 'what the blend keeps')
    return `these doses keep every limit that the nearest feed keeps, and miss no other by more than ${missed} beyond that (${off})`;
  return violation === 0
    ? `these doses keep every limit and are close to the blend (${off})`
    : `these doses miss limits by at most ${missed}`;
}

const missedSays = (violation: number): string => `${formatNumber(100 * violation, 2)} % of a limit`;

const offSays = (deviation: number, items: number): string =>
  `${formatNumber(items === 0 ? 0 : (100 * deviation) / items, 2)} % off on average`;

const count = (n: number): string => (n < 1e6 ? String(n) : `${formatNumber(n / 1e6, 3)} million`);
