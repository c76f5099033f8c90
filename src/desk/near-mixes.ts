import { nearFeed, type NearFeed } from '../blend/near-feed.js';
import { quickWidths } from '../blend/quick-width.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { Catalog } from '../catalog/catalog.js';
import type { PenScale } from '../report/mix.js';
import type { BenchFiles } from './bench-files.js';
import { collecting } from './collecting.js';
import { askedOfMix, feedRequests } from './feed-requests.js';
import { feedWishes } from './feed-wishes.js';
import { opened } from './opened.js';
import { readFeedWords } from './options/feed-words.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/** What may differ from one near mix to the next. */
export type NearWishes = Pick<Wishes, 'strength' | 'nh4' | 'near' | 'closest'>;

/** A feed of a bench, to be asked for one near mix after the other. */
export interface NearMixes {
  pen: PenScale | null;
  /** What amounts are of. */
  shelf: readonly ClosedProduct[];
  waters: readonly Water[];
  /** Null where the feed is that of plants that rest without any. @throws Refusal with every problem of the wishes */
  at: (wishes: NearWishes) => Promise<NearFeed | null>;
}

/**
 * Reads bench and shelf and closes its labels once, and then tells for each strength, share of ammonium and nearness the mix that the doses
 * of `blendFeeds` begin with: in milliseconds, where the doses take seconds.
 * @param feed its name; absent, the first of the bench
 * @throws Refusal with every problem of bench and shelf
 */
export async function nearMixes(
  files: BenchFiles,
  feed?: string,
  catalog: Catalog = shippedCatalog(),
): Promise<NearMixes> {
  const named = feed === undefined ? {} : { feed };
  const collected = collecting(files, named);
  const open = await opened(files, named, catalog, collected);
  collected.settle();
  const width = quickWidths();
  return {
    pen: open.pen,
    shelf: open.shelf.products,
    waters: open.waters,
    async at(wishes) {
      const said = collecting({}, wishes);
      const { bench, problems } = readFeedWords(wishes, open.feeds.slice(0, 1), catalog);
      said.add(...problems);
      const { want, factor } = feedWishes(wishes, said);
      const [request] = feedRequests({ ...open, feeds: bench.feeds }, said, askedOfMix(wishes, said), []);
      said.settle();
      return request === undefined ? null : nearFeed(request, { want: want ?? 'near', factor: factor ?? 1 }, width);
    },
  };
}
