import type { GivenResult } from '../blend/given.js';
import type { Catalog } from '../catalog/catalog.js';
import type { BlendResult, UnfedFeed } from '../feed/results.js';
import type { PenScale } from '../report/mix.js';
import type { Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { clash } from './clash.js';
import { collecting } from './collecting.js';
import { dosesOfFeed } from './doses.js';
import { askedOfMix, feedRequests, oneFeedOnly } from './feed-requests.js';
import { feedWishes } from './feed-wishes.js';
import { opened } from './opened.js';
import { shippedCatalog } from './shipped-catalog.js';
import { made, type Wishes } from './wishes.js';

/**
 * The feed to give for each feed that is meant: near its aims, sure in these hands, then thrifty, as doses of the kit, with its proof; with
 * `bare` the cheapest mix inside the limits. Amounts in g/L and mL/L, elements in mg/L, EC in mS/cm at 25 °C. Where limits that hurt or that
 * plants need cannot be kept: which conflict, what would help, and the nearest mix. `unfed` are feeds of plants that rest without any.
 * @param pause waited for between plans; where it rejects, so does this
 * @throws Refusal with every problem of bench, shelf and wishes
 */
export async function blendFeeds(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
  pause?: () => Promise<void>,
): Promise<Answers<GivenResult | BlendResult> & { pen: PenScale | null; unfed: UnfedFeed[] }> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const which = feedWishes(wishes, collected);
  const unfed: UnfedFeed[] = [];
  const requests = feedRequests(open, collected, askedOfMix(wishes, collected), unfed);
  oneFeedOnly(wishes, [...requests, ...unfed.map(({ feed }) => ({ header: feed }))], collected);
  if (wishes.prices) {
    for (const other of made(wishes, ['closest', 'atMost']))
      collected.add(clash('prices', other, 'prices of the cheapest blend of the whole shelf'));
  }
  const warnings = collected.settle();
  const results: (GivenResult | BlendResult)[] = [];
  for (const request of requests)
    results.push(
      (
        await dosesOfFeed(request, open, which, {
          offers: true,
          beside: true,
          changes: true,
          prices: wishes.prices === true,
          pause,
        })
      ).result,
    );
  const isSure = (result: (typeof results)[number]): boolean =>
    which.sure === undefined ||
    result.status !== 'made' ||
    !('given' in result) ||
    result.given.sure.share >= which.sure;
  return { met: results.every((result) => isMet(result) && isSure(result)), results, warnings, pen: open.pen, unfed };
}

/** A feed that these hands can make; a search that was not finished says nothing against one. */
export const isMet = (result: GivenResult | BlendResult): boolean =>
  result.status === 'made'
    ? !('given' in result) || result.given.plan.status === 'kept'
    : result.status === 'open' && result.proof.unfinished;
