import { atDoor } from '../door.js';
import { reach } from '../blend/reach.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import type { ReachResult } from '../feed/results.js';
import { problem } from '../problem.js';
import type { Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { closeLabels } from './close-labels.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { feedRequests } from './feed-requests.js';
import { opened } from './opened.js';
import { readShelf } from './shelf.js';
import { shippedCatalog } from './shipped-catalog.js';
import { dashed } from './options/option.js';
import type { Wishes } from './wishes.js';

/** How far each element can be moved on a shelf, feed by feed. */
export interface ReachAnswer extends Answers<ReachResult> {
  /** The other shelf for the same feed, where one was given. */
  against: ReachResult | null;
  /** What the water is called. */
  water: string;
}

/**
 * For each element with a limit the lowest and highest mg/L that the shelf can give while every other limit holds, and what limits it.
 * `met` is false where an element lies out of reach, or where not all limits can be kept at once.
 * @param files `against`: another shelf to set beside this one for the same feed
 * @throws Refusal with every problem of bench, shelves and wishes
 */
export async function reachOf(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<ReachAnswer> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const requests = feedRequests(open, collected);
  const other = files.against === undefined ? null : readShelf(files.against, collected);
  refuseUnclear(files, wishes, requests, collected);
  const warnings = collected.settle();
  const results = [];
  for (const request of requests) results.push(await reach(request, open.shelf.name));
  const names = open.waters.map((water) => water.name).join(' and ');
  return {
    met: results.every(isMet),
    results,
    against: other && (await reach({ ...requests[0]!, shelf: await closeLabels(other.products) }, other.name)),
    water: open.waters.length > 1 ? `${names}, in any shares` : names,
    warnings,
  };
}

/** Where a search was not finished, only what is proved to be out of reach is. */
function isMet({ status, elements, proof }: ReachResult): boolean {
  if (status !== 'open') return status === 'together' && elements.every((line) => line.reachable);
  return proof.unfinished && elements.every((line) => line.reachable || line.whole === null);
}

function refuseUnclear(files: BenchFiles, wishes: Wishes, requests: readonly FeedRequest[], collected: Collected) {
  const all = wishes.all === true;
  const beside = { feed: wishes.feed, plants: wishes.plants, against: files.against };
  for (const [name, said] of Object.entries(all ? beside : {})) {
    if (said === undefined) continue;
    const option = dashed(name);
    collected.add(
      problem(
        'all-or-one',
        { field: '--all' },
        atDoor({ typed: `--all and ${option}`, page: `all and ${option}` }),
        'one of them',
        atDoor({ typed: `Leave out --all or ${option}.`, page: `Leave one of them out.` }),
      ),
    );
  }
  const forms = files.against === undefined ? (wishes.oneFeedFor ?? []) : ['against'];
  if (requests.length > 1 && !all && forms.length > 0) {
    const names = requests.map((request) => request.header.name).join(', ');
    collected.add(
      problem(
        'one-feed',
        { field: '--feed' },
        `${requests.length} feeds`,
        `one feed for --${forms[0]}`,
        atDoor({ typed: `Name one with --feed: ${names}.`, page: `Choose one: ${names}.` }),
      ),
    );
  }
}
