import { litres, millilitres } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/solution/index.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { assess } from '../../src/advice/assess.js';
import { blend } from '../../src/blend/blend.js';
import { planDoses } from '../../src/dose/plan.js';
import { amountsOfMix } from '../../src/dose/wanted.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Mix } from '../../src/feed/results.js';
import { batchOfPlan } from '../../src/meter/index.js';
import { mixingSheet } from '../../src/sheet/mixing-sheet.js';
import { concentrate } from '../../src/stock/concentrate.js';
import { example } from '../dose/benches.js';
import { SPOONS, USUAL } from '../dose/kits.js';
import { randomBench } from '../feed/random-benches.js';
import { seeds } from '../seeds.js';

const BENCHES = seeds(20, 40);
const catalog = shippedCatalog();
const EXAMPLES = [
  ['moss-without-ammonium', 'moss'],
  ['what-the-shelf-reaches', 'cattleyas'],
  ['what-the-shelf-reaches', 'moth-orchids'],
  ['what-the-shelf-reaches', 'winter'],
  ['what-to-buy', 'bark'],
] as const;

describe('one order into the can', () => {
  it.each(EXAMPLES)('is told by blend, sheet, meter, concentrate and assess alike: %s, %s', async (folder, feed) => {
    const { bench, request } = await example(folder, feed);
    const told = await orders({ ...request, header: { ...request.header, batchLitres: litres(4) } }, bench.kit);
    expect(told.blend.length).toBeGreaterThan(1);
    expectOne(told);
  });

  it('is told alike on random benches, whatever the tools leave of the blend', async () => {
    let [several, leftOut, assessed, bottled] = [0, 0, 0, 0];
    for (let seed = 1; seed <= BENCHES; seed += 1) {
      const made = randomBench(seed, 4 + (seed % 12));
      const request = { ...made, header: { ...made.header, batchLitres: litres(4) } };
      const told = await orders(request, seed % 2 === 0 ? USUAL : SPOONS);
      if (told.blend.length > 2) several += 1;
      if (told.tanks.length > 0) bottled += 1;
      if (told.assess) assessed += 1;
      if (told.sheet.length < told.blend.length) leftOut += 1;
      expectOne(told, seed);
    }
    expect(several).toBeGreaterThan(BENCHES / 2);
    expect(leftOut).toBeGreaterThan(seeds(1, 3));
    expect(bottled).toBeGreaterThan(BENCHES / 2);
    expect(assessed).toBeGreaterThan(BENCHES / 2);
  });
});

type Orders = Awaited<ReturnType<typeof orders>>;

/** The sheet may leave items out, and stock bottles share them; what stays is in the order of the blend. */
function expectOne(told: Orders, seed = 0): void {
  const those = (ids: readonly string[]): string[] => told.blend.filter((id) => ids.includes(id));
  if (told.assess) expect([seed, told.assess]).toEqual([seed, told.blend]);
  expect([seed, told.sheet]).toEqual([seed, those(told.sheet)]);
  expect([seed, told.meter]).toEqual([seed, told.sheet]);
  for (const tank of told.tanks) expect([seed, tank]).toEqual([seed, those(tank)]);
}

/** Ids in the order in which each command tells them. */
async function orders(
  request: FeedRequest,
  kit: typeof USUAL,
): Promise<Record<'blend' | 'sheet' | 'meter', string[]> & { assess: string[] | null; tanks: string[][] }> {
  const result = await blend(request, { prices: false });
  const mix: Mix = result.status === 'made' ? result : result.nearest!;
  const amounts = amountsOfMix(mix, request);
  const plan = await planDoses(request, amounts, kit, { offers: false, known: request.market! });
  const ids = (items: readonly { id: string }[]): string[] => items.map((item) => item.id);
  const product = (id: string): (typeof request.shelf)[number] => request.shelf.find((p) => p.id === id)!;
  const items = mix.items.map((item) => ({
    product: product(item.id),
    perLitre: item.gramsPerLitre ?? item.millilitresPerLitre!,
  }));
  const assessed = await assess(
    {
      text: '',
      volumeLitres: litres(1),
      lines: items.map(({ product, perLitre }) => ({
        product,
        amount: perLitre,
        words: '',
        amountWords: '',
        bySpoon: false,
        spoonful: null,
        byPen: null,
      })),
    },
    { ...request, waters: mix.waters.map(({ id }) => request.waters.find((w) => w.id === id)!) },
  );
  const stock = concentrate(
    {
      feed: request.header,
      recipe: null,
      items,
      waters: mix.waters.map(({ id, share }) => ({ water: request.waters.find((w) => w.id === id)!, share })),
      weeklyLitres: null,
      ratio: 20,
      tanks: null,
      jugMillilitres: millilitres(1000),
      coldestCelsius: 15,
      scaleStepGrams: null,
      remark: null,
    },
    solutionChemistry,
    catalog.solubility,
  );
  const sheet = mixingSheet(plan, request, result, { pen: { reads: 'EC' }, date: null });
  return {
    blend: ids(mix.items),
    sheet: sheet.status === 'cannot' ? [] : ids(sheet.steps),
    meter: ids(batchOfPlan(plan).items.map((item) => item.product)),
    // a recipe takes several waters in equal shares, which is another can
    assess: mix.waters.length === 1 ? ids(assessed.items) : null,
    tanks: stock.status === 'made' ? stock.tanks.map((tank) => ids(tank.items)) : [],
  };
}
