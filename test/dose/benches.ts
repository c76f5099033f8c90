import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readBench } from '../../src/catalog/bench.js';
import type { Bench } from '../../src/catalog/bench-types.js';
import { readProducts } from '../../src/catalog/shelf.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { unwrap } from '../../src/problem.js';
import { parseRules } from '../../src/programme/parse-rule.js';
import { resolveProgramme } from '../../src/programme/resolve.js';
import { atStrength, strengthText } from '../../src/programme/strength.js';

/** An example bench with the request of one of its feeds. */
export async function example(
  folder: string,
  feed: string,
  more: Partial<FeedRequest> = {},
): Promise<{ bench: Bench; request: FeedRequest }> {
  const home = join(import.meta.dirname, '../../examples', folder);
  const text = (name: string): string => readFileSync(join(home, name), 'utf8');
  const catalog = shippedCatalog();
  const bench = unwrap(readBench(text('bench.yaml'), 'bench.yaml', catalog));
  const spec = bench.feeds.find((f) => f.name === feed)!;
  const scaled = unwrap(
    atStrength(unwrap(resolveProgramme(catalog, spec.plants, spec.medium, spec.phase)), spec.strength, {}),
  );
  const own = unwrap(parseRules(spec.rules, 'you', {}));
  return {
    bench,
    request: {
      header: {
        name: spec.name,
        plants: spec.plants,
        medium: spec.medium,
        phase: spec.phase,
        strength: strengthText(spec.strength),
        strengthFactor: scaled.factor,
        batchLitres: spec.batchLitres ?? null,
        currency: bench.currency,
      },
      programme: scaled.programme,
      rules: own.rules,
      ...(own.maxEc === undefined ? {} : { maxEc: own.maxEc }),
      shelf: await closeShelf(unwrap(readProducts(text('shelf.csv'), 'shelf.csv'))),
      waters: bench.waters,
      market: [...catalog.products, ...catalog.salts],
      goal: 'cheapest',
      ...more,
    },
  };
}
