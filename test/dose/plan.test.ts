import { litres, millilitres } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { planDoses, violationsOf } from '../../src/dose/plan.js';
import { amountsOfMix } from '../../src/dose/wanted.js';
import { blend } from '../../src/blend/blend.js';
import { Refusal } from '../../src/problem.js';
import { powder, request } from '../feed/fixtures.js';
import { stockOfAll } from '../../src/dose/stock-offers.js';
import { doseOfferSays } from '../../src/report/says/doses.js';
import { example } from './benches.js';
import { SPOONS, spoonsDownTo, USUAL } from './kits.js';
import { made } from '../feed/answers.js';
import { withNitrogenNear } from '../feed/near-nitrogen.js';
import { withEcCap } from '../../src/feed/request.js';

const salt = powder('salt', { 'NO3-N': 10, K: 20 }, { bulkDensity: 1 });
const bands = { N: { min: 20, max: 30 } };
/** 0.25 g/L of the salt brings 25 mg/L N; 4 L take 1 g. */
const wanted = { products: [0.25], waters: [1] };

describe('doses for a feed', () => {
  it('are whole spoonfuls where there is no scale, with grams beside them', async () => {
    // of 0.308, 0.616, 0.924, 1.232 … g only 0.924 keeps 0.8 … 1.2 g
    const plan = await planDoses(request([salt], bands), wanted, { spoons: spoonsDownTo(16) });
    expect(plan.status).toBe('kept');
    const [item] = plan.items;
    expect(item!.wanted).toBeCloseTo(1, 12);
    expect(item!.chosen.words).toBe('1 level 1/8 US tsp + 1 level 1/16 US tsp');
    expect(item!.chosen.amount).toBeCloseTo(0.924, 3);
    expect(item!.alternatives.map((a) => [a.words, a.keeps])).toEqual([['0.92 g', true]]);
    expect(violationsOf(plan)).toEqual([]);
  });

  it('name the band that is missed, by how much, and what would help', async () => {
    const { bench, request } = await example('moss-without-ammonium', 'moss');
    const asked = withNitrogenNear(request);
    const mix = made(await blend(asked, { prices: false }));
    const amounts = amountsOfMix(mix, asked);
    const kit = { spoons: bench.kit.spoons };
    const options = { solubility: shippedCatalog().solubility };
    const plan = await planDoses(asked, amounts, kit, options);
    if (plan.status !== 'violated') throw new Error(plan.status);
    const [violation, ...others] = plan.violations;
    expect(violation!.limit).toMatchObject({ kind: 'nutrient', nutrient: 'N', end: 'most' });
    expect(violation!.value).toBeGreaterThan(violation!.bound);
    expect(others).toEqual([]);
    expect(plan.offers).toMatchObject([
      { kind: 'pen' },
      { kind: 'batch', litres: 8, instead: 4 },
      { kind: 'item stock' },
      { kind: 'spoon', label: '1/16 US tsp' },
    ]);
    expect(plan.offers.map((offer) => doseOfferSays(offer).split(/[:,]/)[0])).toEqual([
      'By a conductivity pen',
      'Mix double and use half',
      expect.stringMatching(/^A stock bottle of [a-z-]+ alone$/),
      'A level 1/16 US tsp spoon would do',
    ]);
    const stock = await stockOfAll({ request: asked, amounts, kit, options });
    expect(stock).toMatchObject({ kind: 'stock', syringeMillilitres: 1 });
    // a pinch that the limits do not need is left out by choice, and told
    expect(doseOfferSays(stock!)).toContain('no monopotassium-phosphate');
  });

  it('offers hold when they are followed', async () => {
    const { bench, request: asked } = await example('moss-without-ammonium', 'moss');
    const amounts = amountsOfMix(made(await blend(asked, { prices: false })), asked);
    const larger = { ...asked, header: { ...asked.header, batchLitres: litres(8) } };
    expect((await planDoses(larger, amounts, { spoons: bench.kit.spoons })).status).toBe('kept');
    expect((await planDoses(asked, amounts, { spoons: spoonsDownTo(16) })).status).toBe('kept');
    expect((await planDoses(asked, amounts, { ...bench.kit })).status).toBe('kept');
  });

  it('keep the EC cap by the full model', async () => {
    const { request: asked } = await example('moss-without-ammonium', 'moss');
    const amounts = amountsOfMix(made(await blend(asked, { prices: false })), asked);
    const free = await planDoses(asked, amounts, USUAL);
    const cap = free.mix.ec.mSPerCm - 1e-4;
    const capped = withEcCap(asked, cap);
    const plan = await planDoses(capped, amounts, USUAL, { offers: false });
    expect(plan.items.map((i) => i.chosen.amount)).not.toEqual(free.items.map((i) => i.chosen.amount));
    if (plan.status === 'kept') expect(plan.mix.ec.mSPerCm).toBeLessThanOrEqual(cap * (1 + 1e-6));
    else expect(plan.violations.length).toBeGreaterThan(0);
  });

  it('take no more than is on hand', async () => {
    const little = salt.with({ onHand: 0.9 });
    const plan = await planDoses(request([little], bands), { products: [0.225], waters: [1] }, USUAL);
    expect(plan.items[0]!.chosen.amount).toBeLessThanOrEqual(0.9);
  });

  it('say so where the bulk density is unknown, and never use a spoon then', async () => {
    const unweighed = salt.with({ bulkDensity: undefined });
    const plan = await planDoses(request([unweighed], bands), wanted, SPOONS);
    expect(plan.items[0]!.chosen.words).toBe('1.00 g');
    expect(plan.notes).toEqual([{ kind: 'bulk density missing', product: 'salt', spoon: '1/4 US tsp' }]);
  });

  it("take the catalog's bulk density for the same formula, and say that it varies", async () => {
    const unweighed = powder('salt', { 'NO3-N': 10, K: 20 }, { formula: 'KNO3' });
    const plan = await planDoses(
      request([unweighed], bands),
      wanted,
      { spoons: spoonsDownTo(16) },
      { known: [{ id: 'other', formula: 'KNO3', bulkDensity: 1 }] },
    );
    expect(plan.items[0]!.chosen.tool).toBe('spoon');
    expect(plan.notes).toEqual([
      { kind: 'bulk density of the catalog', product: 'salt', spoon: '1/4 US tsp', gramsPerMillilitre: 1 },
    ]);
  });

  it('are written to 0.01 g where there is no kit', async () => {
    const plan = await planDoses(request([salt], bands), { products: [0.2512], waters: [1] }, { spoons: [] });
    expect(plan.items[0]!.chosen.words).toBe('1.00 g');
    expect(plan.notes[0]).toEqual({ kind: 'no kit' });
  });

  it('warn of a batch that no can holds', async () => {
    const cans = [{ label: '1 US gal', millilitres: millilitres(3785.411784) }];
    const plan = await planDoses(request([salt], bands), wanted, { ...USUAL, cans });
    expect(plan.notes).toEqual([{ kind: 'can too small', batchLitres: 4, can: '1 US gal' }]);
  });

  it('are refused without a batch', async () => {
    const asked = request([salt], bands);
    const open = { ...asked, header: { ...asked.header, batchLitres: null } };
    const refused = await planDoses(open, wanted, USUAL).catch((fault: unknown) => fault);
    expect(refused).toBeInstanceOf(Refusal);
    expect((refused as Refusal).problems.map((p) => p.code)).toEqual(['batch-missing']);
  });
});

describe('ways out', () => {
  const bench = (kit: Parameters<typeof planDoses>[2], product = salt) =>
    planDoses(request([product], bands), wanted, kit, { solubility: shippedCatalog().solubility });

  it('ten level spoons are weighed where nobody knows what a level spoon of it weighs', async () => {
    const plan = await bench({ spoons: spoonsDownTo(16) }, salt.with({ bulkDensity: undefined }));
    expect(plan.status).toBe('kept');
    expect(plan.offers!.map(({ kind }) => kind).slice(0, 2)).toEqual(['pen', 'ten spoons']);
    expect(doseOfferSays(plan.offers![1]!)).toMatch(
      /velamen meter --weigh "ten level 1\/\d+ tsp of [a-z-]+ weigh __ g" --save/,
    );
  });

  it('a bottle of one powder is dosed in the steps of the syringe', async () => {
    const nitre = powder(
      'nitre',
      { 'NO3-N': 13.8, K: 38.7 },
      { formula: 'KNO3', bulkDensity: 1.1, evidence: 'grower' },
    );
    const few = { N: { min: 1.3, max: 1.5 } };
    const plan = await planDoses(
      request([nitre], few),
      { products: [0.0101], waters: [1] },
      { ...SPOONS, spoons: spoonsDownTo(8) },
      {
        solubility: shippedCatalog().solubility,
      },
    );
    if (plan.status !== 'violated') throw new Error(plan.status);
    const bottle = plan.offers.find(({ kind }) => kind === 'item stock');
    if (bottle?.kind !== 'item stock') throw new Error(plan.offers.map(({ kind }) => kind).join());
    const [made, ...others] = bottle.bottles;
    expect(made!.product).toBe('nitre');
    expect(others).toEqual([]);
    // so much of the bottle in 4 L brings nitrogen within its band, reckoned from the words alone
    const spoons = made!.words.split(' + ').map((text) => text.match(/^(\d+) level (?:1\/(\d+) )?US tsp$/)!);
    const tsp = spoons.reduce((sum, [, times, part]) => sum + Number(times) / Number(part ?? 1), 0);
    const grams = tsp * (3785.411784 / 768) * 1.1;
    const millilitres = Number(bottle.doses[0]!.words!.match(/^([\d.]+) mL/)![1]);
    const nitrogen = ((grams / made!.bottleMillilitres) * millilitres * 138) / 4;
    expect(nitrogen).toBeGreaterThan(1.3);
    expect(nitrogen).toBeLessThan(1.5);
  });

  it('none but the first four that hold, in the order in which they ask little', async () => {
    const plan = await bench({ spoons: spoonsDownTo(1) });
    if (plan.status !== 'violated') throw new Error(plan.status);
    const order = ['pen', 'ten spoons', 'batch', 'item stock', 'stock', 'spoon', 'scale', 'syringe', 'spoons'];
    // a batch bigger than double asks more than a bottle
    const placeOf = (offer: (typeof plan.offers)[number]): number =>
      order.indexOf(offer.kind === 'batch' && offer.litres > 2 * offer.instead ? 'stock' : offer.kind);
    const places = plan.offers.map(placeOf);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places.length).toBeLessThanOrEqual(4);
  });
});
