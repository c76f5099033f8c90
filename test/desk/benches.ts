import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FeedSpec } from '../../src/catalog/bench-types.js';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { Collected } from '../../src/desk/collected.js';
import { requestOf } from '../../src/desk/feed-requests.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import type { FeedRequest } from '../../src/feed/request.js';

const EXAMPLES = join(import.meta.dirname, '../../examples');

/** The texts of an example, named as a grower in its folder would see them. */
export function exampleFiles(folder: string): BenchFiles {
  const text = (name: string) => {
    const path = join(EXAMPLES, folder, name);
    return existsSync(path) ? { name, text: readFileSync(path, 'utf8') } : undefined;
  };
  const [bench, shelf] = [text('bench.yaml'), text('shelf.csv')];
  return { ...(bench ? { bench } : {}), ...(shelf ? { shelf } : {}) };
}

/** A shelf of these lines, without a bench. */
export const shelfFiles = (text: string): BenchFiles => ({ shelf: { name: 'shelf.csv', text } });

/** The request that the desk makes of a feed of the shipped catalog, on any shelf. */
export function feedOf(
  spec: Pick<FeedSpec, 'plants' | 'medium'> & Partial<FeedSpec> & { percent: number },
  on: Pick<FeedRequest, 'shelf' | 'waters'>,
): FeedRequest {
  const { percent, ...rest } = spec;
  const collected = new Collected();
  const request = requestOf(
    { name: 'random', phase: 'growth', rules: [], where: {}, strength: { kind: 'percent', percent }, ...rest },
    {
      bench: null,
      catalog: shippedCatalog(),
      shelf: { name: 'any', products: on.shelf },
      waters: on.waters,
      currency: 'EUR',
      kit: { spoons: [] },
      pen: null,
      feeds: [],
    },
    collected,
  );
  collected.settle();
  return request!;
}
