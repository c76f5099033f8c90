import type { Bench } from '../../src/catalog/bench-types.js';
import { openBench } from '../../src/desk/open-bench.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { exampleFiles } from '../desk/benches.js';

/** An example bench with the request of one of its feeds. */
export async function example(
  folder: string,
  feed: string,
  more: Partial<FeedRequest> = {},
): Promise<{ bench: Bench; request: FeedRequest }> {
  const { bench, requests } = await openBench(exampleFiles(folder), { feed });
  return { bench: bench!, request: { ...requests[0]!, ...more } };
}
