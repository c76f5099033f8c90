import { likelyEc } from '../../can/part.js';
import type { Catalog } from '../../catalog/catalog.js';
import { log } from '../../units/elementary.js';

/** Waters that come from a roof or a tap; what a softener or a well adds no reading tells. */
const USUAL = ['rain', 'soft-tap', 'median-tap', 'hard-tap'];

/** The usual water whose predicted EC is nearest, as a ratio: what dissolves doubles rather than adds. `reads`: mS/cm. */
export function waterLike(mSPerCm: number, { waters }: Catalog): { id: string; name: string; reads: number } {
  const ratio = (reads: number): number => Math.abs(log((mSPerCm + 0.005) / (reads + 0.005)));
  return USUAL.map((id) => {
    const { synonyms: _, where: __, ...water } = waters.find((one) => one.id === id)!;
    return { id, name: water.name, reads: likelyEc([], [{ water, share: 1 }]) as number };
  }).reduce((best, one) => (ratio(one.reads) < ratio(best.reads) ? one : best));
}
