import { beforeAll, describe, expect, it } from 'vitest';
import type { CAN_CAUTIONS, CanCaution } from '../../src/can/can-cautions.js';
import type { Caution } from '../../src/can/cautions.js';
import { translateOthersAdvice } from '../../src/desk/assess.js';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { buyFor } from '../../src/desk/buy.js';
import { concentrateFeed } from '../../src/desk/concentrate.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';

// every product by its name in the shipped catalog; the water is invented: hard, and with all its bicarbonate still in it
const SHELF = `id,name,form,formula,Fe,derivedFrom,pack,price
calcium-nitrate,Calcium nitrate,powder,Ca(NO3)2·4H2O,,,1 kg,5
potassium-nitrate,Potassium nitrate,powder,KNO3,,,1 kg,5
mono,Monopotassium phosphate,powder,KH2PO4,,,1 kg,7
diammonium,Diammonium phosphate,powder,(NH4)2HPO4,,,1 kg,4
epsom,Epsom salt,powder,MgSO4·7H2O,,,1 kg,3
iron,Iron EDTA,powder,,13,iron EDTA,100 g,9
`;
const bench = (water: string): BenchFiles => ({
  bench: {
    name: 'bench.yaml',
    text: `name: Hard water\ncurrency: EUR\nwater: ${water}\nkit: { scale: 0.01 g }\nfeeds:\n  orchids: { plants: cattleya, medium: bark, phase: growth, strength: 60 %, batch: 10 L, weekly: 10 L }\n`,
  },
  shelf: { name: 'shelf.csv', text: SHELF },
});
const hard = bench('{ Ca: 40, Mg: 8, alkalinity: 130, pH: 7.9 }');
const RECIPE = '6 g potassium-nitrate + 6 g diammonium + 0.1 g iron in 10 L';

const codes = (cautions: readonly Caution[] | undefined): string[] => (cautions ?? []).map(({ code }) => code);
const of = <Code extends (typeof CAN_CAUTIONS)[number]>(cautions: readonly Caution[], code: Code) =>
  cautions.find((caution) => caution.code === code) as Extract<CanCaution, { code: Code }> | undefined;

describe('alkalinity and iron that no chelate holds', () => {
  let blended: readonly Caution[];
  beforeAll(async () => {
    blended = (await blendFeeds(hard, {})).results[0]!.cautions;
  });

  it('are told by blend', () => {
    expect(codes(blended)).toEqual(expect.arrayContaining(['alkalinity', 'iron-not-held']));
  });

  it.each([
    ['sheet', async () => (await mixingSheets(hard, {})).results[0]!],
    ['meter', async () => (await judgeReading(hard, { reading: ['0.9'] })).result.cautions],
    ['concentrate', async () => (await concentrateFeed(hard, {})).results[0]!],
    ['advice', async () => (await translateOthersAdvice(hard, { recipe: '75 ppm N' })).result.cautions],
    ['buy', async () => (await buyFor(hard, { weeks: '10' })).result],
  ])('and by %s', async (command, ask) => {
    const told = await ask();
    const cautions = 'length' in told ? told : 'cautions' in told ? told.cautions : [];
    expect(codes(cautions)).toEqual(expect.arrayContaining(['alkalinity', 'iron-not-held']));
    // advice and purchase have mixes of their own; the others are about the very can that blend gives
    if (command === 'advice' || command === 'buy') return;
    const own = of(cautions, 'alkalinity')!.mgCaCO3PerLitre;
    expect(Math.abs(own / of(blended, 'alkalinity')!.mgCaCO3PerLitre - 1)).toBeLessThan(1e-6);
  });

  it('come once each, and before what holds for every feed', () => {
    for (const code of ['alkalinity', 'iron-not-held'])
      expect(codes(blended).filter((one) => one === code)).toHaveLength(1);
    expect(codes(blended).indexOf('alkalinity')).toBeLessThan(codes(blended).indexOf('start-weak'));
  });
});

describe('free ammonia of a stock', () => {
  it('is that of the feed it is diluted to, not of the bottle', async () => {
    const [weak, strong] = await Promise.all(
      ['500', '50'].map(async (ratio) => (await concentrateFeed(hard, { recipe: RECIPE, ratio })).results[0]!),
    );
    const told = [weak, strong].map((result) =>
      'cautions' in result! ? of(result.cautions, 'free-ammonia') : undefined,
    );
    expect(told[0]).toBeDefined();
    expect(told[0]).toEqual(told[1]);
  });
});
