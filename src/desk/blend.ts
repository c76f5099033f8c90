import { blend } from '../blend/blend.js';
import type { Catalog } from '../catalog/catalog.js';
import type { BlendResult } from '../feed/results.js';
import type { PenScale } from '../report/mix.js';
import type { Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { clash } from './clash.js';
import { Collected } from './collected.js';
import { askedOfMix, feedRequests, oneFeedOnly } from './feed-requests.js';
import { opened } from './opened.js';
import { shippedCatalog } from './shipped-catalog.js';
import { made, type Wishes } from './wishes.js';

/**
 * The cheapest feed of each feed that is meant, or with `closest` the one nearest to the aims, with its proof; amounts in g/L and mL/L,
 * elements in mg/L, EC in mS/cm at 25 °C. Where no mix keeps every limit: which conflict, what would help, and the nearest mix.
 * @throws Refusal with every problem of bench, shelf and wishes
 */
export async function blendFeeds(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answers<BlendResult> & { pen: PenScale | null }> {
  const collected = new Collected(files.problems);
  const open = await opened(files, wishes, catalog, collected);
  const requests = feedRequests(open, collected, askedOfMix(wishes, collected));
  oneFeedOnly(wishes, requests, collected);
  if (wishes.prices) {
    for (const other of made(wishes, ['closest', 'atMost']))
      collected.add(clash('prices', other, 'prices of the cheapest blend of the whole shelf'));
  }
  const warnings = collected.settle();
  const results = [];
  for (const request of requests) results.push(await blend(request, wishes.prices ? { prices: true } : {}));
  return { met: results.every((result) => result.status === 'made'), results, warnings, pen: open.pen };
}
