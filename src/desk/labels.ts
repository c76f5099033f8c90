import { labelFacts } from '../can/label-facts.js';
import { A_CATALOG, type Catalog, findProduct } from '../catalog/catalog.js';
import { labelLine } from '../label/label-line.js';
import { misreadOxides } from '../label/misread.js';
import { doubtsOfPrint, readPrintedLabel } from '../label/printed-label.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown, Product } from '../label/product.js';
import { bulkDensityOf } from '../dose/density.js';
import type { Problem } from '../problem.js';
import type { LabelsResult, Missing } from '../report/labels.js';
import { compiledPractice } from '../year/compiled-practice.js';
import { storageOf } from '../year/storage.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { closeLabels } from './close-labels.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { benchAndShelf } from './opened.js';
import { readShelf, type Shelf } from './shelf.js';
import { shelfOfLabel } from './shelf-of-label.js';
import { productsKnown } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import { sourcesWarnings } from './sources-warning.js';
import type { Wishes } from './wishes.js';
import { refuseUnlike } from '../wrong-type.js';

/**
 * What each label means: every element in mg per gram or millilitre with its range, ions, EC and what is wrong with it.
 * @param wishes `products`: those that are meant; `catalog`: the catalog's own instead of a shelf; `text`: a printed label instead of one
 * @returns the labels with what is told about each; `warnings` are those about no product that is shown
 * @throws Refusal with every mistake in the shelf
 */
export async function labelsOf(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<LabelsResult>> {
  refuseUnlike({ catalog }, { catalog: A_CATALOG });
  const collected = collecting(files, wishes);
  const printed = wishes.text === undefined ? undefined : readPrintedLabel(wishes.text);
  const shelf: Shelf = printed
    ? readShelf({ name: 'the text', text: shelfOfLabel(printed) }, collected)
    : wishes.catalog
      ? { name: 'the catalog', products: [...catalog.products, ...catalog.salts] }
      : readShelfAlone(files, catalog, collected);
  if (printed) collected.add(...doubtsOfPrint(printed));
  const ids = wishes.products ?? [];
  const shown =
    ids.length === 0 || shelf.products.length === 0
      ? shelf.products
      : ids.flatMap((id) => collected.take(findProduct(shelf.products, id)) ?? []);
  const warnings = collected.settle();
  const products: LabelsResult['products'] = [];
  const closed = await closeLabels(shown);
  for (const product of closed) {
    const misread = wishes.catalog ? [] : await misreadOxides(product);
    collected.add(...misread.filter(({ severity }) => severity === 'error'));
    const problems = [...warnings.filter((w) => isAbout(w, product)), ...sourcesWarnings(product), ...misread];
    products.push({ ...labelLine(product, problems), ...labelFacts(product) });
  }
  collected.settle();
  return {
    met: true,
    result: {
      status: 'read',
      shelf: shelf.name,
      products,
      ...(printed ? { printed: { understood: printed.understood, leftOver: printed.leftOver } } : {}),
      missing: wishes.catalog || printed ? [] : missingFrom(closed, productsKnown(catalog)),
      storage: storageOf(closed, compiledPractice.humidities),
    },
    warnings: warnings.filter((w) => !shown.some((product) => isAbout(w, product))),
  };
}

/** What a shelf leaves unsaid of its own jars, by kind. */
export function missingFrom(products: readonly ClosedProduct[], known: readonly PowderKnown[]): Missing[] {
  const kinds: Record<Missing['of'], (product: ClosedProduct) => boolean> = {
    'bulk density': (product) => product.form === 'powder' && bulkDensityOf(product, known) === null,
    price: ({ price, pack }) => price === undefined || !pack,
    sources: ({ formula, derivedFrom }) => formula === undefined && derivedFrom.length === 0,
  };
  return (Object.keys(kinds) as Missing['of'][]).flatMap((of) => {
    const ids = products.filter(kinds[of]).map(({ id }) => id);
    return ids.length === 0 ? [] : [{ of, products: ids }];
  });
}

/** Labels are read without a feed and without water. */
function readShelfAlone(files: BenchFiles, catalog: Catalog, collected: Collected): Shelf {
  return benchAndShelf(files, {}, catalog, collected, true).shelf;
}

function isAbout(found: Problem, product: Product): boolean {
  return (
    found.where.line !== undefined && found.where.line === product.where.line && found.where.file === product.where.file
  );
}
