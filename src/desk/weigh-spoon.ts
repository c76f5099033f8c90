import { atDoor } from '../door.js';
import type { Catalog } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import { warmth } from '../meter/batch.js';
import { type NoWeight, weighSpoon } from '../meter/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { CalibrateResult } from '../report/meter-tools.js';
import { formatNumber, scaleBy } from '../units/index.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { closeLabels } from './close-labels.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { type OpenBench, opened } from './opened.js';
import { scaleOf } from './options/pen.js';
import { penFactor, penWarmth } from './pen.js';
import { noSuchPowder, refuseLiquid, refuseUnshelved } from './powder.js';
import { recipeProducts } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import { dashed } from './options/option.js';
import type { Wishes } from './wishes.js';

/**
 * The pen as a scale: what one level spoon of a powder weighs (g) and how dense it lies (g/mL), from the readings `before` and `after`
 * `count` spoons of `product` went into the water `measured`.
 * @throws Refusal with every problem of bench and wishes, and where the trial tells nothing
 */
export async function weighSpoonByPen(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<CalibrateResult>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected, { feed: false, shelf: false });
  refuseIncomplete(wishes, collected);
  const scale = collected.wish(wishes, 'scale') ?? scaleOf(open.bench?.pen);
  const product = powderOf(wishes, open, collected);
  const spoon = collected.wish(wishes, 'spoon');
  const count = collected.wish(wishes, 'count');
  const [before, after] = (['before', 'after'] as const).map((name) => collected.wish(wishes, name, { scale }));
  const litres = collected.wish(wishes, 'measured');
  const { celsius, compensates } = penWarmth(wishes, collected);
  const factor = penFactor(wishes, collected);
  if (product) refuseUnshelved(wishes, product, open, collected);
  const warnings = collected.settle();
  const corrected = factor / (compensates === false && celsius !== undefined ? warmth(celsius) : 1);
  const [powder] = await closeLabels([product!]);
  const trial = {
    product: powder!,
    spoon: wishes.spoon!.trim(),
    millilitres: spoon!,
    count: count!,
    before: scaleBy(before!.mSPerCm, corrected),
    after: scaleBy(after!.mSPerCm, corrected),
    litres: litres!,
    ...(open.waters[0] ? { water: open.waters[0] } : {}),
  };
  const weighed = weighSpoon(trial);
  if (weighed.status === 'not weighed') throw new Refusal([noWeight(weighed, product!.id)]);
  return {
    met: true,
    result: {
      ...weighed,
      name: product!.name,
      count: trial.count,
      before: trial.before,
      after: trial.after,
      litres: trial.litres,
      saved: null,
    },
    warnings,
  };
}

/** A trial lacks nothing: every missing part is told. */
function refuseIncomplete(wishes: Wishes, collected: Collected): void {
  for (const name of ['product', 'spoon', 'count', 'before', 'after', 'measured'] as const) {
    if (wishes[name] === undefined)
      collected.add(
        problem(
          'trial-incomplete',
          { field: dashed(name) },
          atDoor({ typed: `no ${dashed(name)}`, page: `no ${name}` }),
          'product, spoon, count, before, after and measured',
          atDoor({ typed: `Add ${dashed(name)}; see velamen meter -h.`, page: `Fill in ${name}.` }),
        ),
      );
  }
}

function powderOf(wishes: Wishes, open: OpenBench, collected: Collected): Product | undefined {
  const product = collected.wish(wishes, 'product', { among: recipeProducts(open.shelf, open.catalog) });
  if (product) refuseLiquid(product, '--product', collected);
  return product;
}

function noWeight({ reason, found }: NoWeight, id: string): Problem {
  if (reason === 'no such powder')
    return noSuchPowder(
      '--after',
      `readings by which ${id} weighs ${formatNumber(found, 2)} g/mL`,
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
  return problem(
    'trial-tells-nothing',
    { field: '--after' },
    what,
    atDoor({ typed: 'a clear rise from --before to --after', page: 'a clear rise from before to after' }),
    fix,
  );
}
