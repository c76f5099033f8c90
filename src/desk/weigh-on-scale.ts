import type { Catalog } from '../catalog/catalog.js';
import { weighOnScale } from '../meter/index.js';
import { Refusal } from '../problem.js';
import type { WeighedResult } from '../report/meter-tools.js';
import { formatNumber } from '../units/index.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { collecting } from './collecting.js';
import { opened } from './opened.js';
import { noSuchPowder, refuseLiquid, refuseUnshelved } from './powder.js';
import { recipeProducts } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/**
 * What one level spoon of a powder weighs (g) and how dense it lies (g/mL), from the words of `weigh`: ten level spoons on a scale. The
 * last digit told, or the step of the kit's scale where that is coarser, counts into the range.
 * @throws Refusal with every problem of bench and words
 */
export async function weighSpoonsOnScale(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<WeighedResult>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected, { feed: false, shelf: false });
  const among = recipeProducts(open.shelf, open.catalog);
  const named = collected.wish(wishes, 'product', { among });
  const onShelf = new Set(open.shelf.products.map(({ id }) => id));
  const told = collected.wish(wishes, 'weigh', { among, onShelf, ...(named ? { named } : {}) });
  if (told) {
    refuseLiquid(told.product, '--weigh', collected);
    refuseUnshelved(wishes, told.product, open, collected);
  }
  const warnings = collected.settle();
  const { product, spoon, millilitres, count, grams } = told!;
  const step = Math.max(told!.step, open.kit.scaleStepGrams ?? 0);
  const weighed = weighOnScale({ id: product.id, spoon, millilitres, count, grams, step });
  if (weighed.status === 'not weighed') {
    const found = `${count} x ${spoon} of ${product.id} at ${formatNumber(weighed.found, 2)} g/mL`;
    throw new Refusal([noSuchPowder('--weigh', found, 'Check the spoon, how many there were, and the weight.')]);
  }
  return { met: true, result: { ...weighed, name: product.name, count, step, saved: null }, warnings };
}
