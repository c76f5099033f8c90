import { join } from 'node:path';
import { BULK_DENSITY } from '../catalog/bulk-density.js';
import { type Catalog, findProduct } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import { closeProduct } from '../label/close.js';
import { type NoWeight, weighSpoon } from '../meter/index.js';
import { warmth } from '../meter/batch.js';
import { problem, Refusal } from '../problem.js';
import { type CalibrateResult, calibrateSheet } from '../report/meter-tools.js';
import { formatNumber } from '../units/index.js';
import type { Collected } from './collect.js';
import type { Given, Outcome } from './command.js';
import { type FeedInputs, feedInputs } from './feed-input.js';
import type { Io } from './io.js';
import { parsePenValue, parseScale } from '../desk/options/pen.js';
import { parseCount } from '../desk/options/number.js';
import { penFactor, penWarmth } from './pen-input.js';
import { recipeProducts } from './recipe-input.js';
import { saveBulkDensity } from './save-density.js';
import { parseCan, parseSpoon } from '../desk/options/volume.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';

/** The pen as a scale: what one level spoon of a powder weighs. */
export async function calibrate(given: Given, io: Io, collected: Collected): Promise<Outcome> {
  const catalog = shippedCatalog();
  const inputs = await feedInputs(given, io, catalog, collected, { feed: false, shelf: false });
  refuseIncomplete(given, collected);
  const scale = collected.take(parseScale(given.text('scale'), inputs.bench?.pen, { field: '--scale' })) ?? null;
  const product = powderOf(given, inputs, catalog, collected);
  const spoon = collected.option(given, 'spoon', (text) => parseSpoon(text, { field: '--spoon' }));
  const count = collected.option(given, 'count', (text) => parseCount(text, { field: '--count' }));
  const before = collected.option(given, 'before', (text) => parsePenValue(text, scale, { field: '--before' }));
  const after = collected.option(given, 'after', (text) => parsePenValue(text, scale, { field: '--after' }));
  const litres = collected.option(given, 'volume', (text) => parseCan(text, inputs.bench?.kit, { field: '--volume' }));
  const { celsius, compensates } = penWarmth(given, collected);
  const factor = penFactor(given, collected);
  const onShelf = inputs.shelf.products.some((p) => p.id === product?.id);
  if (given.flag('save') && product && !onShelf)
    collected.add(
      problem(
        'not-on-shelf',
        { field: '--save' },
        `${product.id}, which is not on the shelf`,
        'a product of shelf.csv',
        'Put it on the shelf first, or leave --save out.',
      ),
    );
  const warnings = collected.settle();
  const corrected = factor / (compensates === false && celsius !== undefined ? warmth(celsius) : 1);
  const trial = {
    product: await closeProduct(product!),
    spoon: given.text('spoon')!.trim(),
    millilitres: spoon!,
    count: count!,
    before: before!.mSPerCm * corrected,
    after: after!.mSPerCm * corrected,
    litres: litres!,
    ...(inputs.waters[0] ? { water: inputs.waters[0] } : {}),
  };
  const weighed = weighSpoon(trial);
  if ('reason' in weighed) throw new Refusal([noWeight(weighed, product!.id)]);
  const path = given.text('shelf') ?? join(given.text('bench') ?? '', 'shelf.csv');
  if (given.flag('save')) saveBulkDensity(path, product!.id, weighed, io.cwd);
  const result: CalibrateResult = {
    schema: 'velamen.calibrate/1',
    status: 'weighed',
    ...weighed,
    name: product!.name,
    count: trial.count,
    before: trial.before,
    after: trial.after,
    litres: trial.litres,
    saved: given.flag('save') ? path : null,
  };
  return { exit: 0, json: result, sheets: [calibrateSheet(result)], warnings };
}

/** A trial lacks nothing: every missing part is told. */
function refuseIncomplete(given: Given, collected: Collected): void {
  for (const name of ['product', 'spoon', 'count', 'before', 'after', 'volume'] as const) {
    if (given.text(name) === undefined)
      collected.add(
        problem(
          'trial-incomplete',
          { field: `--${name}` },
          `no --${name}`,
          'product, spoon, count, before, after and volume',
          `Add --${name}; see velamen meter -h.`,
        ),
      );
  }
}

function powderOf(given: Given, inputs: FeedInputs, catalog: Catalog, collected: Collected): Product | undefined {
  const where = { field: '--product' };
  const product = collected.option(given, 'product', (id) => findProduct(recipeProducts(inputs, catalog), id, where));
  if (product && product.form !== 'powder')
    collected.add(
      problem('not-a-powder', where, `${product.id}, a liquid`, 'a powder', 'A syringe measures a liquid well enough.'),
    );
  return product;
}

function noWeight({ reason, found }: NoWeight, id: string) {
  if (reason === 'no such powder')
    return problem(
      'no-such-powder',
      { field: '--after' },
      `readings by which ${id} weighs ${formatNumber(found, 2)} g/mL`,
      `a level powder, ${BULK_DENSITY.least} to ${BULK_DENSITY.most} g/mL`,
      'Check the unit of the readings, the volume, the spoon, the count, and that it was this product.',
    );
  const shown = `${formatNumber(found, 2)} mS/cm`;
  const fixes = {
    'no rise': ['a reading that does not rise', 'Check which reading is which; was it stirred until clear?'],
    'too small': [`a rise of ${shown} only`, 'Use more spoons or less water, so that it rises by 0.1 mS/cm or more.'],
    'does not conduct': [`${id}, which hardly conducts`, 'Weigh ten level spoons on a scale instead.'],
    'beyond the model': [`a rise of ${shown}`, 'Use fewer spoons or more water: feeds stay below 3 mS/cm.'],
  } as const;
  const [what, fix] = fixes[reason];
  return problem('trial-tells-nothing', { field: '--after' }, what, 'a clear rise from --before to --after', fix);
}
