import { milliSiemensPerCm } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import { sheetJson } from '../../src/report/json/sheet.js';
import { effectSays } from '../../src/report/says/sheet.js';
import { sheetText } from '../../src/report/sheet-page/index.js';
import { noSheetShape } from '../../src/report/sheet-shapes.js';
import { mixingSheet } from '../../src/sheet/mixing-sheet.js';
import { planDoses } from '../../src/dose/plan.js';
import { readingOf, stepsOf } from '../../src/sheet/steps.js';
import { amountsOfMix } from '../../src/dose/wanted.js';
import { blend } from '../../src/blend/blend.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { powder, pure, request } from '../feed/fixtures.js';
import { mixed } from './mixed.js';
import { made } from '../feed/answers.js';
import { kitOf } from '../dose/kits.js';

const salts = await closeShelf(shippedCatalog().salts);
const salt = (id: string) => salts.find((product) => product.id === id)!;
const PEN = { reads: 'ppm', scale: 500 } as const;

/** Potassium chloride alone: 0.2 g/L. */
async function planned(feed: FeedRequest, kit = kitOf({ spoons: [], scaleStepGrams: 0.01 })) {
  const result = made(await blend(feed, { prices: false }));
  return { plan: await planDoses(feed, amountsOfMix(result, feed), kit), result };
}
const chloride = (): FeedRequest => request([salt('potassium-chloride')], { K: { min: 100, aim: 105, max: 110 } });

describe('readings on the way', () => {
  it('are those of the can as full as it is: potassium chloride at three quarters and at the mark', async () => {
    const { plan } = await planned(chloride());
    const [step] = stepsOf(plan, plan.request, PEN);
    const end = readingOf([{ product: step!.product, perLitre: step!.measure.amount / 4 }], plan, plan.request, PEN);
    // KCl conducts 149.79 S·cm²/mol at no concentration and 141.2 at 0.01 M (CRC Handbook, KCl at 25 °C; the first from memory); in between at 1 to 5 mM
    const mM = (1000 * step!.measure.amount) / 4 / 74.55;
    expect(end.mSPerCm).toBeGreaterThan((mM * 143) / 1000);
    expect(end.mSPerCm).toBeLessThan((mM * 149.8) / 1000);
    expect(step!.full).toBe(0.75);
    // a third more concentrated reads a third more, less what crowding takes off (under 2 %)
    expect(step!.reading.mSPerCm / end.mSPerCm).toBeGreaterThan(1.3);
    expect(step!.reading.mSPerCm / end.mSPerCm).toBeLessThan(1.335);
    expect(end.pen).toBeCloseTo(500 * end.mSPerCm, 9);
    expect(end.low).toBeLessThan(0.97 * end.mSPerCm);
    expect(end.high).toBeGreaterThan(1.03 * end.mSPerCm);
  });

  it('follow the reading of the water', async () => {
    const { plan } = await planned(chloride());
    const [dry] = stepsOf(plan, plan.request, PEN);
    const [wet] = stepsOf(plan, plan.request, PEN, { waterMSPerCm: milliSiemensPerCm(0.05) });
    expect(wet!.reading.mSPerCm - dry!.reading.mSPerCm).toBeCloseTo(0.05, 2);
  });

  it('the effect of rounding is told against the blend', async () => {
    const { plan } = await planned(chloride(), kitOf({ spoons: [], scaleStepGrams: 0.05 }));
    const [step] = stepsOf(plan, plan.request, PEN);
    const off = 100 * (step!.measure.amount / step!.wanted - 1);
    const { amount } = step!.measure;
    const effect = effectSays({
      wanted: step!.wanted,
      measures: [{ ...step!.measure, amount, unit: 'g', keeps: true }],
    });
    expect(effect).toMatch(off === 0 ? /exact/ : /: \d+(\.\d+)? % (more|less)$/);
    expect(Number(/([\d.]+) %/.exec(effect)?.[1])).toBeCloseTo(Math.abs(off), 1);
  });
});

describe('when the reading is off', () => {
  it('the figures are those of this very batch', async () => {
    const feed = request([salt('potassium-chloride'), powder('urea-like', { 'urea-N': 46 })], {
      K: { min: 100, aim: 105, max: 110 },
      N: { min: 40, aim: 50, max: 60 },
    });
    const { plan, result } = await planned(feed);
    const sheet = mixed(mixingSheet(plan, plan.request, result, { pen: PEN, date: null }));
    const end = sheet.end.reading.mSPerCm;
    const slip = (kind: string, id: string | null = null) => sheet.slips.find((s) => s.slip === kind && s.id === id)!;
    // twice the salt reads twice, less crowding of at most 3 %
    expect(slip('twice', 'potassium-chloride').mSPerCm / end).toBeGreaterThan(1.94);
    expect(slip('twice', 'potassium-chloride').mSPerCm / end).toBeLessThan(2);
    expect(slip('forgotten', 'potassium-chloride').mSPerCm).toBeLessThan(0.01);
    // a tenth less by dilution: 4 L × (1/0.9 − 1)
    expect(slip('too much water').millilitres).toBeCloseTo(444, -1);
    expect(slip('too little water').millilitres).toBeCloseTo(-364, -1);
    expect(slip('wrong scale').pen! / end).toBeCloseTo(640, 6);
    // 2 % per °C fits feeds within 2.3 % between 10 and 30 °C (common practice, no source)
    const cold = sheet.slips.find((s) => s.celsius === 15)!;
    expect(cold.mSPerCm / end).toBeGreaterThan(0.78);
    expect(cold.mSPerCm / end).toBeLessThan(0.82);
    // urea carries no charge
    expect(slip('twice', 'urea-like').shows).toBe(false);
    expect(sheet.unseen.map(({ kind }) => kind)).toEqual(['salt', 'urea', 'items']);
    expect(sheet.unseen).toContainEqual({ kind: 'items', products: ['urea-like'] });
    expect(sheet.keeps).toMatchObject({ hours: 48, causes: [{ why: 'urea' }, { why: 'light' }] });
  });

  it('water alone is no sheet', async () => {
    const feed = request([salt('potassium-chloride')], { K: { max: 50 } }, { waters: [pure] });
    const { plan, result } = await planned(feed);
    const sheet = mixingSheet(plan, plan.request, result, { pen: { reads: 'EC' }, date: '2026-11-25' });
    expect(sheet).toMatchObject({ status: 'cannot', why: { kind: 'water alone' } });
    expect(sheet).not.toHaveProperty('steps');
    expect(noSheetShape.parse(sheetJson(sheet))).toMatchObject({ status: 'cannot', leftOut: [], offers: [] });
    expect(sheetText(sheet, { columns: 80, colour: false })).toMatch(/^test: no mixing sheet/);
  });

  it('no feed and no nearest one is no sheet, and the batch stays as it was asked for', async () => {
    const feed = chloride();
    const { result } = await planned(feed);
    for (const status of ['cannot', 'open'] as const) {
      const sheet = mixingSheet(null, feed, { ...result, status }, { pen: PEN, date: null });
      const kind = status === 'cannot' ? 'no nearest' : 'not proved';
      expect(sheet).toMatchObject({ status: 'cannot', why: { kind }, feed: { batchLitres: 4 } });
      expect(noSheetShape.parse(sheetJson(sheet)).why).toMatch(/^NOTHING TO MIX: /);
    }
  });

  it('what no tool can measure is no sheet either, and says what would do', async () => {
    const feed = chloride();
    const { plan, result } = await planned(feed, kitOf({ spoons: [], scaleStepGrams: 5 }));
    const sheet = mixingSheet(plan, plan.request, result, { pen: PEN, date: null });
    expect(sheet).toMatchObject({
      status: 'cannot',
      why: {
        kind: 'too little to measure',
        leftOut: [{ id: 'potassium-chloride' }],
        offers: expect.arrayContaining([expect.objectContaining({ kind: 'scale', stepGrams: 0.01 })]),
      },
    });
  });
});
