import { BOUNDS } from '../units/index.js';
import { bulkDensityCell } from './bulk-density.js';
import { type Checked, type Problem, problem, warning } from '../problem.js';
import { amountCell, type Measured, rateCell } from './amounts.js';
import { compositionOf } from './analysis.js';
import {
  choiceCell,
  conductivityCell,
  evidenceOf,
  listCell,
  moneyCell,
  numberCell,
  requiredCell,
  uniqueIds,
} from './cells.js';
import { capped } from './limits.js';
import type { Product } from '../label/product.js';
import { SHELF_COLUMNS } from './shelf-columns.js';
import { type Row, readTable } from './table.js';

/**
 * Reads a shelf, a market or the salts: one product a row. Amounts become grams (powders) or millilitres (liquids); an empty
 * cell is unknown, never zero.
 * @param file name of the file, for the Problems
 */
export function readProducts(text: string, file: string): Checked<Product[]> {
  const problems: Problem[] = [];
  const table = readTable(text, file, SHELF_COLUMNS, problems);
  const products: Product[] = [];
  const ids = table.rows.map((row) => ({ id: requiredCell(row, 'id', problems), where: row.where() }));
  problems.push(...uniqueIds(ids));
  for (const row of table.rows) {
    const product = productOf(row, problems);
    if (product) products.push(product);
  }
  return capped(products, problems);
}

function productOf(row: Row, problems: Problem[]): Product | undefined {
  requiredCell(row, 'form', problems);
  const form = choiceCell(row, 'form', FORMS, problems);
  const basis = choiceCell(row, 'basis', BASES, problems);
  const density = numberCell(row, 'density', BOUNDS.density, problems);
  const bulk = bulkDensityCell(row, problems);
  const evidence = evidenceOf(row, problems);
  const derivedFrom = listCell(row, 'derived_from');
  if (form === undefined) return undefined;
  const measured: Measured = { form, ...(form === 'liquid' && density !== undefined ? { density } : {}) };
  problems.push(...misplaced(row, form));
  const composition = compositionOf(row, { form, basis, density: measured.density, derivedFrom }, problems);
  const onHand = amountCell(row, 'on_hand', 'onHand', measured, problems);
  const pack = amountCell(row, 'pack', 'pack', measured, problems);
  const maxRate = rateCell(row, 'max_rate', measured, problems);
  const price = moneyCell(row, 'price', BOUNDS.price, problems);
  const ec = conductivityCell(row, 'ec', BOUNDS.ecOfLabel, problems);
  problems.push(...priceProblems(row, price?.amount), ...zeroProblems(row, pack, maxRate));
  if (!composition) return undefined;
  const id = row.text('id') ?? '';
  const product: Product = {
    id,
    name: row.text('name') ?? id,
    form,
    composition,
    derivedFrom,
    notes: row.text('notes') ?? '',
    source: row.text('source') ?? '',
    evidence,
    where: row.where(),
  };
  const formula = row.text('formula');
  const kind = row.text('kind');
  if (formula !== undefined) product.formula = formula;
  if (kind !== undefined) product.kind = kind;
  if (ec !== undefined) product.ec = ec;
  if (measured.density !== undefined) product.density = measured.density;
  if (form === 'powder') Object.assign(product, bulk);
  if (onHand !== undefined) product.onHand = onHand;
  if (pack !== undefined && pack > 0) product.pack = pack;
  if (price !== undefined) product.price = price.amount;
  if (price?.currency) product.priceCurrency = price.currency;
  if (maxRate !== undefined && maxRate > 0) product.maxRate = maxRate;
  return product;
}

const FORMS: ReadonlyMap<string, 'powder' | 'liquid'> = new Map([
  ['powder', 'powder'],
  ['solid', 'powder'],
  ['dry', 'powder'],
  ['crystals', 'powder'],
  ['granules', 'powder'],
  ['liquid', 'liquid'],
]);

const BASES: ReadonlyMap<string, 'w/w' | 'w/v'> = new Map([
  ['w/w', 'w/w'],
  ['w/v', 'w/v'],
]);

/** What stands in a column that does not fit the form is not used, and that is said. */
function misplaced(row: Row, form: 'powder' | 'liquid'): Problem[] {
  const problems: Problem[] = [];
  if (form === 'powder' && row.text('density') !== undefined) {
    problems.push(
      warning(
        'not-used',
        row.where('density'),
        'the density of a powder',
        'density for liquids, bulk_density for powders',
        'Not used; a level spoon needs bulk_density.',
      ),
    );
  }
  if (form === 'liquid' && row.text('bulk_density') !== undefined) {
    problems.push(
      warning(
        'not-used',
        row.where('bulk_density'),
        'the bulk density of a liquid',
        'density for liquids, bulk_density for powders',
        'Not used; grams of a liquid need density.',
      ),
    );
  }
  return problems;
}

function priceProblems(row: Row, price: number | undefined): Problem[] {
  if (price === 0) {
    return [
      warning(
        'price-zero',
        row.where('price'),
        `"${row.text('price')}"`,
        'the price of a pack',
        '0 means free; leave the cell empty where it is not known.',
      ),
    ];
  }
  if (price !== undefined && row.text('pack') === undefined) {
    return [
      warning(
        'price-without-pack',
        row.where('pack'),
        'a price and no pack',
        'the size of the pack it buys',
        'Fill in pack; until then the cost counts as unknown.',
      ),
    ];
  }
  return [];
}

function zeroProblems(row: Row, pack: number | undefined, maxRate: number | undefined): Problem[] {
  const problems: Problem[] = [];
  if (pack === 0)
    problems.push(
      problem(
        'pack-zero',
        row.where('pack'),
        `"${row.text('pack')}"`,
        'a pack that holds something',
        'Write what is printed on the pack.',
      ),
    );
  if (maxRate === 0) {
    problems.push(
      problem(
        'rate-zero',
        row.where('max_rate'),
        `"${row.text('max_rate')}"`,
        'a rate above zero',
        'Take the product out of the file where it is not to be used.',
      ),
    );
  }
  return problems;
}
