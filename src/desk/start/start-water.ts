import type { Catalog } from '../../catalog/catalog.js';
import { likelyEc } from '../../can/part.js';
import { log } from '../../units/elementary.js';
import type { Collected } from '../collected.js';
import { parseWaterWords } from '../options/water.js';
import type { Wishes } from '../wishes.js';
import type { Assumed } from '../../report/start-assumed.js';

/** Waters as bench.yaml is to say them: as they were named, or the one of the catalog that reads like the grower's. */
export function startWater(
  wishes: Wishes,
  scale: number | null,
  catalog: Catalog,
  collected: Collected,
): { waters: (string | Record<string, string>)[]; assumed: Assumed[] } {
  const reading = collected.wish(wishes, 'readingOfWater', { scale });
  if ((wishes.water ?? []).length > 0) {
    collected.wishes(wishes, 'water', { catalog });
    const waters = wishes.water!.flatMap((text) => {
      const words = parseWaterWords(text, { field: '--water' });
      return words.ok ? [words.value] : [];
    });
    return { waters, assumed: [] };
  }
  if (reading === undefined)
    return { waters: ['rain'], assumed: wishes.readingOfWater === undefined ? [{ of: 'water', water: 'rain' }] : [] };
  const like = waterLike(reading, catalog);
  return {
    waters: [like.id],
    assumed: [{ of: 'water by pen', water: like.id, name: like.name, mSPerCm: reading, readsMSPerCm: like.reads }],
  };
}

/** Waters that come from a roof or a tap; what a softener or a well adds no reading tells. */
const USUAL = ['rain', 'soft-tap', 'median-tap', 'hard-tap'];

/** The usual water whose predicted EC is nearest, as a ratio: what dissolves doubles rather than adds. */
function waterLike(mSPerCm: number, { waters }: Catalog): { id: string; name: string; reads: number } {
  const ratio = (reads: number): number => Math.abs(log((mSPerCm + 0.005) / (reads + 0.005)));
  return USUAL.map((id) => {
    const { synonyms: _, where: __, ...water } = waters.find((one) => one.id === id)!;
    return { id, name: water.name, reads: likelyEc([], [{ water, share: 1 }]) as number };
  }).reduce((best, one) => (ratio(one.reads) < ratio(best.reads) ? one : best));
}
