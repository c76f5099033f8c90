import { frontier } from '../blend/frontier.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FrontierResult } from '../feed/results.js';
import type { Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { clash } from './clash.js';
import { collecting } from './collecting.js';
import { dosesOfFeed } from './doses.js';
import { feedRequests, oneFeedOnly, warmthOf } from './feed-requests.js';
import { feedWishes } from './feed-wishes.js';
import { opened } from './opened.js';
import { shippedCatalog } from './shipped-catalog.js';
import { made, type Wishes } from './wishes.js';

/**
 * Cost against nearness for each feed that is meant: the feeds that `near` gives from the nearest share to the widest, where they change.
 * @throws Refusal with every problem of bench, shelf and wishes
 */
export async function frontierOf(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answers<FrontierResult>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const which = feedWishes(wishes, collected);
  const requests = feedRequests(open, collected, warmthOf(wishes, collected));
  oneFeedOnly(wishes, requests, collected);
  for (const other of made(wishes, ['near', 'closest', 'bare', 'atMost', 'prices']))
    collected.add(clash('frontier', other, 'the trade-off by itself'));
  const warnings = collected.settle();
  const results = [];
  for (const request of requests) {
    // the very door of `blend`, so that its feeds are those of `near`
    const feedAt = async (factor: number) =>
      (await dosesOfFeed(request, open, { ...which, factor }, { offers: false })).result;
    results.push(await frontier(request, feedAt));
  }
  return {
    met: results.every(({ status, proof }) => status === 'made' || (status === 'open' && proof.unfinished)),
    results,
    warnings,
  };
}
