import { labelsJson } from '../report/json/labels.js';
import { findProduct } from '../catalog/catalog.js';
import { closeShelf } from '../label/close.js';
import type { Product } from '../label/product.js';
import { labelFacts } from '../can/label-facts.js';
import { labelLine } from '../label/label-line.js';
import { problem, type Problem } from '../problem.js';
import { type LabelsResult, labelsSheet } from '../report/labels.js';
import { benchInput } from './bench-input.js';
import { Collected } from './collect.js';
import type { Command } from './command.js';
import { FEED_OPTIONS } from './feed-options.js';
import { shelfInput } from './shelf-input.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';

/** What each label means in mg/L, and what is wrong with it. */
export const labelsCommand: Command = {
  name: 'labels',
  summary: 'what each label means in mg/L, and what is wrong with it',
  examples: [
    { line: 'velamen labels --shelf shelf.csv', says: 'every product of a shelf' },
    { line: 'velamen labels --catalog quillmere-balanced', says: 'one product of the catalog' },
  ],
  about: [
    'Every mistake in the file is told with its line (exit code 2). What a label leaves open is shown as a range, by the salts that it names or by every plausible counter-ion. A minimum counts on what is stated alone; a cap allows for the most.',
  ],
  operands: { name: 'ID…', says: 'products to show (default: all)', most: 100 },
  options: {
    bench: FEED_OPTIONS.bench!,
    shelf: FEED_OPTIONS.shelf!,
    catalog: { says: 'the products and salts that come with the program, instead of a shelf' },
  },
  async run(given, io) {
    const catalog = shippedCatalog();
    const collected = new Collected();
    if (given.flag('catalog')) {
      for (const other of ['bench', 'shelf']) {
        if (given.text(other) !== undefined)
          collected.add(
            problem(
              'two-shelves',
              { field: `--${other}` },
              `--catalog and --${other}`,
              'one of them',
              'Leave the other out.',
            ),
          );
      }
    }
    const shelf = given.flag('catalog')
      ? { name: 'the catalog', products: [...catalog.products, ...catalog.salts] }
      : shelfInput(given, io, catalog, benchInput(given, io, catalog, collected), collected);
    const shown =
      given.operands.length === 0 || shelf.products.length === 0
        ? shelf.products
        : given.operands.flatMap((id) => collected.take(findProduct(shelf.products, id)) ?? []);
    const warnings = collected.settle();
    const closed = await closeShelf(shown);
    const result: LabelsResult = {
      schema: 'velamen.labels/1',
      status: 'read',
      shelf: shelf.name,
      products: closed.map((product) => {
        const { facts, problems } = labelFacts(product);
        return {
          ...labelLine(product, [...warnings.filter((w) => isAbout(w, product)), ...problems]),
          ...facts,
        };
      }),
    };
    // warnings about a product stand with it on the sheet
    return {
      exit: 0,
      json: labelsJson(result),
      sheets: [labelsSheet(result)],
      warnings: warnings.filter((w) => !shown.some((p) => isAbout(w, p))),
    };
  },
};

function isAbout(found: Problem, product: Product): boolean {
  return (
    found.where.line !== undefined && found.where.line === product.where.line && found.where.file === product.where.file
  );
}
