import type { Catalog } from '../catalog/catalog.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { misreadOxides } from '../label/misread.js';
import { type Problem, warning } from '../problem.js';
import type { CheckResult } from '../report/check.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { feedRequests } from './feed-requests.js';
import { missingFrom } from './labels.js';
import { type OpenBench, opened } from './opened.js';
import { productsKnown } from './recipe-products.js';
import { readShelf } from './shelf.js';
import { shippedCatalog } from './shipped-catalog.js';
import { sourcesWarnings } from './sources-warning.js';
import type { Wishes } from './wishes.js';

/**
 * Reads a whole bench and tells every doubt about it; whether its feeds can be made is the question of `blendFeeds`.
 * @throws Refusal with every problem of bench, shelf and market, the doubts among them
 */
export async function checkBench(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<CheckResult>> {
  const collected = collecting(files, wishes);
  const hasBench = files.bench !== undefined;
  const open = await wholeBench(files, wishes, catalog, collected);
  if (files.market) readShelf(files.market, collected);
  const feeds = open.feeds.map(({ name }) => name);
  const { products } = open.shelf;
  collected.add(...products.flatMap(doubtsOfProduct), ...(hasBench && open.bench ? doubtsOfBench(open, files) : []));
  if (!hasBench) collected.add(NO_BENCH);
  const doubts = collected.settle();
  const missing = missingFrom(products, productsKnown(catalog));
  return {
    met: true,
    result: {
      status: doubts.length + missing.length === 0 ? 'sound' : 'doubtful',
      bench: files.bench?.name ?? null,
      shelf: open.shelf.name,
      products: products.map(({ id }) => id),
      feeds,
      doubts,
      missing,
    },
    warnings: [],
  };
}

/** A bench opened, with everything that is wrong or doubtful with its labels and feeds collected. */
export async function wholeBench(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog,
  collected: Collected,
): Promise<OpenBench> {
  const open = await opened(files, wishes, catalog, collected, { feed: false, shelf: true });
  if (open.feeds.length > 0) feedRequests(open, collected, {}, []);
  for (const product of open.shelf.products) {
    collected.add(...sourcesWarnings(product));
    // what its list cannot make was asked when the bench was opened
    if (product.disagreement === undefined) collected.add(...(await misreadOxides(product)));
  }
  return open;
}

const NO_BENCH = warning('no-bench', {}, 'no bench.yaml', 'water, kit, pen and feeds', '`velamen start` makes one.');

/** What its row itself says is not sure. */
function doubtsOfProduct({ id, notes, where, onHand, bulkDensity, bulkDensityOff }: ClosedProduct): Problem[] {
  const doubts: Problem[] = [];
  const assumed = /\bassumed:\s*(.*)/i.exec(notes)?.[1];
  if (assumed !== undefined)
    doubts.push(
      warning(
        'row-assumed',
        { ...where, field: 'notes' },
        `${id}, of which is assumed: ${assumed}`,
        'what was measured',
        'Fill it in, and take the note out.',
      ),
    );
  else if (bulkDensity !== undefined && bulkDensityOff !== undefined && bulkDensityOff > VAGUE * bulkDensity)
    doubts.push(
      warning(
        'bulk-vague',
        { ...where, field: 'bulk_density' },
        `${id}, whose spoonful may be ${Math.round((100 * bulkDensityOff) / bulkDensity)} % off`,
        'a weighing of ten spoons',
        'See velamen meter --weigh.',
      ),
    );
  if (onHand === 0)
    doubts.push(
      warning(
        'used-up',
        { ...where, field: 'on_hand' },
        `${id}, of which nothing is left`,
        'a product to mix from',
        'Fill in on_hand when a new pack comes, or take the row out.',
      ),
    );
  return doubts;
}

/** A spoonful that is farther off than this is a guess. */
const VAGUE = 0.15;

/** What bench.yaml leaves to be assumed. */
function doubtsOfBench(
  { bench, feeds, waters, kit, shelf, currency }: OpenBench,
  { bench: page }: BenchFiles,
): Problem[] {
  const at = (field: string, line?: number) => ({ file: page!.name, ...(line === undefined ? {} : { line }), field });
  const doubts: Problem[] = [];
  if (kit.spoons.length === 0 && kit.scaleStepGrams === undefined && kit.syringeMillilitres === undefined)
    doubts.push(
      warning(
        'kit-assumed',
        at('kit'),
        'no kit',
        'what you measure with',
        'Spoons and a scale of 0.1 g are assumed: add kit.',
      ),
    );
  if (bench?.namesPen !== true)
    doubts.push(
      warning(
        'pen-assumed',
        at('pen'),
        'no pen',
        'what your pen shows',
        'Readings are told in mS/cm: add pen, such as EC or { scale: 500 }.',
      ),
    );
  if (currency === '' && shelf.products.some(({ price }) => price !== undefined))
    doubts.push(
      warning(
        'currency-unsaid',
        at('currency'),
        'prices and no currency',
        'the money that they are in',
        'Add currency, such as EUR.',
      ),
    );
  for (const { name, evidence, id } of waters)
    if (evidence === 'from memory, unchecked')
      doubts.push(
        warning(
          'water-usual',
          at('water'),
          `${name} (${id}) of the catalog`,
          'your own water',
          'Write what your supplier states, in mg/L.',
        ),
      );
  for (const { name, where, batchLitres, weeklyLitres } of feeds) {
    const lacks = [...(batchLitres === undefined ? ['batch'] : []), ...(weeklyLitres === undefined ? ['weekly'] : [])];
    if (lacks.length > 0)
      doubts.push(
        warning(
          'feed-unsized',
          at(`feeds.${name}`, where.line),
          `no ${lacks.join(' and no ')}`,
          'how much is mixed at a time, and used in a week',
          `Add ${lacks.join(' and ')} to the feed.`,
        ),
      );
  }
  return doubts;
}
