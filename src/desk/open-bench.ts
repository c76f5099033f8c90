import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import type { Problem } from '../problem.js';
import type { BenchFiles } from './bench-files.js';
import { collecting } from './collecting.js';
import { askedOfMix, feedRequests } from './feed-requests.js';
import { type OpenBench, opened } from './opened.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/**
 * Reads bench, shelf and wishes together.
 * @returns the bench, a request for each feed that is meant, and what was read with a note
 * @throws Refusal with every problem of all of them
 */
export async function openBench(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<OpenBench & { requests: FeedRequest[]; warnings: readonly Problem[] }> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const requests = feedRequests(open, collected, askedOfMix(wishes, collected));
  return { ...open, requests, warnings: collected.settle() };
}
