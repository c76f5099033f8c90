import type { Catalog } from '../../catalog/catalog.js';
import type { Collected } from '../collected.js';
import { parseWaterWords } from '../options/water.js';
import type { Wishes } from '../wishes.js';
import type { Assumed } from '../../report/start-assumed.js';
import { waterLike } from './water-like.js';

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
