import { atDoor } from '../door.js';
import type { Product } from '../label/product.js';
import { type Problem, warning } from '../problem.js';
import { formatNumber } from '../units/index.js';
import { type StockLeft, stockChanges, stockLeft } from '../year/journal/stock.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';

export { type StockLeft, stockLeft };

/** The shelf with what is left by the journal of its bench as what is on hand. */
export function stocked<S extends { products: readonly Product[] }>(
  shelf: S,
  { journal }: BenchFiles,
  collected: Collected,
): S {
  if (!journal || shelf.products.length === 0) return shelf;
  const changes = collected.take(stockChanges(journal));
  if (changes === undefined) return shelf;
  const left = stockLeft(shelf.products, changes);
  collected.add(...left.filter((line) => (line.left ?? 0) < -SLACK).map((line) => overdrawn(line, journal.name)));
  const products = shelf.products.map((product, i) => {
    const { change, left: there } = left[i]!;
    return change === null || there === null ? product : { ...product, onHand: Math.max(0, there) };
  });
  return { ...shelf, products };
}

/** g or mL: what adding up leaves. */
const SLACK = 1e-6;

const overdrawn = ({ id, unit, left }: StockLeft, file: string): Problem =>
  warning(
    'stock-below-zero',
    { file, field: id },
    `${formatNumber(-left!, 3)} ${unit} more used than was there`,
    'no more used than there was',
    atDoor({
      typed: `Counted as used up: say what is there, velamen journal add --counted "… ${unit} ${id}".`,
      page: `Counted as used up: say what is there in Year, Stock, such as 320 ${unit} ${id}.`,
    }),
  );
