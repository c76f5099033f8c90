import { oneMix, type OneResult } from '../blend/one/one-mix.js';
import type { Vessel } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { clash } from './clash.js';
import { Collected } from './collected.js';
import { WEEKS } from './doses.js';
import { askedOfMix, feedRequests } from './feed-requests.js';
import { type FeedWishes, feedWishes } from './feed-wishes.js';
import { type OpenBench, opened } from './opened.js';
import { productsKnown } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import { made, type Wishes } from './wishes.js';

/** One mix, with the cans of the bench that it is measured into. */
export interface OneForBench extends OneResult {
  vessels: readonly Vessel[];
}

/**
 * The fewest mixes that feed the whole bench, each diluted with water for its feeds: near their aims, sure in these hands, thrifty. `met` is
 * false where a feed has no mix, or a can misses a limit that hurts or that plants need. Amounts in g/L and mL/L of the mix.
 * @throws Refusal with every problem of bench, shelf and wishes
 */
export async function oneForBench(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<OneForBench>> {
  const collected = new Collected(files.problems);
  const open = await opened(files, wishes, catalog, collected);
  const which = feedWishes(wishes, collected);
  for (const other of made(wishes, ['bare', 'closest', 'atMost', 'prices']))
    collected.add(clash('one', other, 'one mix that is near the aims of every feed, or another question about each'));
  const requests = feedRequests(open, collected, askedOfMix(wishes, collected));
  const warnings = collected.settle();
  const result = await oneOf(requests, open, which);
  const kept = result.mixes.every(({ cans }) => cans.every(({ violations }) => violations.length === 0));
  return {
    met: result.without.length === 0 && result.status !== 'none' && kept,
    result: { ...result, vessels: open.kit.cans ?? [] },
    warnings,
  };
}

/** The same for requests of an open bench. */
export function oneOf(
  requests: readonly FeedRequest[],
  { kit, catalog, feeds }: Pick<OpenBench, 'kit' | 'catalog' | 'feeds'>,
  { factor, sure }: Pick<FeedWishes, 'factor' | 'sure'>,
): Promise<OneResult> {
  return oneMix(requests, {
    kit,
    known: productsKnown(catalog),
    solubility: catalog.solubility,
    ...(factor === undefined ? {} : { factor }),
    ...(sure === undefined ? {} : { sure }),
    litresPerYear: (name) => {
      const weekly = feeds.find((feed) => feed.name === name)?.weeklyLitres;
      return weekly === undefined ? null : weekly * WEEKS;
    },
  });
}
