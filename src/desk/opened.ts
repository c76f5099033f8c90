import { atDoor } from '../door.js';
import { readBench } from '../catalog/bench.js';
import type { Bench, FeedSpec, Kit, Pen } from '../catalog/bench-types.js';
import { A_CATALOG, type Catalog, findWater } from '../catalog/catalog.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { misreadOxides } from '../label/misread.js';
import type { Water } from '../label/product.js';
import { nearest, problem, warning } from '../problem.js';
import { byName } from '../units/index.js';
import type { PenScale } from '../report/mix.js';
import type { BenchFiles } from './bench-files.js';
import { closeLabels } from './close-labels.js';
import type { Collected } from './collected.js';
import { pricesInOtherCurrencies } from './currencies.js';
import { readFeedWords } from './options/feed-words.js';
import { type Shelf, shelfOf } from './shelf.js';
import { refuseUnlike } from '../wrong-type.js';
import { made, type Wishes } from './wishes.js';

/** A bench as it was opened, under what was wished. */
export interface OpenBench {
  /** Null where there is no bench.yaml. */
  bench: Bench | null;
  catalog: Catalog;
  /** What is mixed from, with and without what was wished. */
  shelf: Shelf<ClosedProduct>;
  waters: Water[];
  /** Empty where nobody named it. */
  currency: string;
  /** What to measure with; of an unknown kit there are no spoons. */
  kit: Kit;
  /** What the pen shows; null where there is no bench. */
  pen: PenScale | null;
  /** The feeds that are meant, in the order of the file. */
  feeds: FeedSpec[];
}

/** What a question cannot do without. */
export interface Needs {
  feed: boolean;
  shelf: boolean;
}

/** Reads bench, shelf and wishes; problems are collected, and what could be read is returned beside them. Here the labels of the shelf are closed. */
export async function opened(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog,
  collected: Collected,
  needs: Needs = { feed: true, shelf: true },
): Promise<OpenBench> {
  refuseUnlike({ catalog }, { catalog: A_CATALOG });
  const { bench, faulty, shelf } = benchAndShelf(files, wishes, catalog, collected, needs.shelf);
  const base =
    chosenFeeds(wishes, bench, faulty, collected) ??
    (needs.feed || made(wishes, DESCRIBING_A_FEED).length > 0 ? null : []);
  const said = readFeedWords(wishes, base, catalog);
  collected.add(...said.problems);
  const kit = bench?.kit ?? { spoons: [] };
  const named = said.bench.waters ?? bench?.waters;
  const currency = wishes.currency ?? bench?.currency ?? '';
  collected.add(...pricesInOtherCurrencies(shelf.products, currency));
  const products = await closeLabels(shelf.products);
  // only what its list cannot make is asked: the others are the question of `labels`
  for (const product of products.filter(({ disagreement }) => disagreement !== undefined))
    collected.add(...(await misreadOxides(product)));
  return {
    bench,
    catalog,
    shelf: { name: shelf.name, products },
    waters: named ?? (faulty || (wishes.water ?? []).length > 0 ? [] : rainByDefault(catalog, collected)),
    currency,
    kit,
    pen: bench ? penScale(bench.pen) : null,
    feeds: said.bench.feeds,
  };
}

/** The two files alone, where neither feed nor water is asked for. */
export function benchAndShelf(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog,
  collected: Collected,
  shelfMissed: boolean,
): { bench: Bench | null; faulty: boolean; shelf: Shelf } {
  const bench = files.bench ? (collected.take(readBench(files.bench.text, files.bench.name, catalog)) ?? null) : null;
  // what a bench that could not be read would have said is not missed
  const faulty = files.bench !== undefined && bench === null;
  const shelf = shelfOf(files, wishes, catalog, collected, shelfMissed && !faulty);
  return { bench, faulty, shelf: bench?.law === 'eu' ? byEuropeanLaw(shelf) : shelf };
}

/** A shelf whose labels may be off by what the EU tolerates. */
const byEuropeanLaw = ({ name, products }: Shelf): Shelf => ({
  name,
  products: products.map((product) => ({ ...product, composition: { ...product.composition, law: 'eu' } })),
});

/** Wishes that describe a feed. */
export const DESCRIBING_A_FEED = ['plants', 'medium', 'phase', 'strength', 'rule', 'nh4'] as const;

/** The feeds of the bench that are meant; null where the wishes have to say everything. */
function chosenFeeds(wishes: Wishes, bench: Bench | null, faulty: boolean, collected: Collected): FeedSpec[] | null {
  if (faulty) return [];
  const name = wishes.feed;
  const feeds = bench?.feeds ?? [];
  if (name === undefined) return wishes.plants === undefined && feeds.length > 0 ? feeds : null;
  const feed = byName(feeds, name, (f) => f.name);
  if (feed) return [feed];
  const names = feeds.map((f) => f.name);
  const guess = nearest(name, names, 1)[0];
  const fix = guess
    ? `Did you mean ${guess}?`
    : names.length > 0
      ? `The feeds are ${names.join(', ')}.`
      : atDoor({
          typed: 'This bench has no feeds: say --plants and --medium instead.',
          page: 'This bench has no feeds: make one in Plants.',
        });
  collected.add(problem('unknown-feed', { field: '--feed' }, `"${name}"`, 'a feed of the bench', fix));
  return [];
}

function rainByDefault(catalog: Catalog, collected: Collected): Water[] {
  collected.add(
    warning(
      'water-assumed',
      { field: '--water' },
      'no water named',
      'a water',
      atDoor({
        typed: 'Rain water is assumed; name yours with --water, or in bench.yaml.',
        page: 'Rain water is assumed; choose yours in Plants.',
      }),
    ),
  );
  const rain = collected.take(findWater(catalog, 'rain'));
  return rain ? [rain] : [];
}

const penScale = (pen: Pen): PenScale => (pen.reads === 'EC' ? 'EC' : pen.scale);
