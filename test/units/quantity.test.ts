import { describe, expect, it } from 'vitest';
import type { EcLine } from '../../src/can/can-lines.js';
import { meqPerLitreOf, mgCaCO3PerLitreOf } from '../../src/chemistry/acidity.js';
import type { ElementLine, FeedHeader, Item } from '../../src/feed/results.js';
import type { Water } from '../../src/label/product.js';
import type { Band } from '../../src/programme/programme.js';
import type { EcRule } from '../../src/programme/rule.js';
import {
  gramsPerLitre,
  gramsPerLitreOf,
  litresOf,
  mgCaCO3PerLitre,
  mgPerLitre,
  mgPerLitreOf,
  microSiemensOf,
  microSiemensPerCm,
  milliSiemensOf,
  milliSiemensPerCm,
  millilitres,
  millilitresOf,
  scaleBy,
} from '../../src/units/index.js';

describe('quantities', () => {
  it('pass into another unit by a conversion, and back', () => {
    expect(microSiemensOf(milliSiemensPerCm(0.8))).toBe(800);
    expect(milliSiemensOf(microSiemensPerCm(1413))).toBe(1.413);
    expect(mgPerLitreOf(gramsPerLitre(0.25))).toBe(250);
    expect(gramsPerLitreOf(mgPerLitre(250))).toBe(0.25);
    expect(millilitresOf(litresOf(millilitres(750)))).toBe(750);
    expect(scaleBy(mgPerLitre(20), 1.5)).toBe(30);
  });

  it('of alkalinity are counted as calcium carbonate or in equivalents', () => {
    // 50.04 mg CaCO3 in a milliequivalent
    expect(meqPerLitreOf(mgCaCO3PerLitre(100.08))).toBeCloseTo(2, 12);
    expect(mgCaCO3PerLitreOf(meqPerLitreOf(mgCaCO3PerLitre(130)))).toBeCloseTo(130, 12);
    // @ts-expect-error meq/L for mg/L CaCO3
    const hard: Pick<Water, 'alkalinity'> = { alkalinity: meqPerLitreOf(mgCaCO3PerLitre(130)) };
    expect(hard.alkalinity).toBeCloseTo(2.6, 2);
  });

  it('are numbers in JSON', () => {
    expect(JSON.stringify({ ec: milliSiemensPerCm(0.21) })).toBe('{"ec":0.21}');
  });

  it('of one unit are refused for another, and plain numbers for any', () => {
    const ec = milliSiemensPerCm(0.8);
    // @ts-expect-error mS/cm for mg/L
    const band: Band = { min: ec };
    // @ts-expect-error a number of nothing for mg/L
    const bare: Band = { aim: 20 };
    // @ts-expect-error mL for L
    const batch: Pick<FeedHeader, 'batchLitres'> = { batchLitres: millilitres(4000) };
    // @ts-expect-error µS/cm for mS/cm
    const cap: Pick<EcRule, 'upper'> = { upper: microSiemensOf(ec) };
    // @ts-expect-error mg/L for g/L
    const item: Pick<Item, 'gramsPerLitre'> = { gramsPerLitre: mgPerLitre(250) };
    // @ts-expect-error g/L for mg/L
    const line: Pick<ElementLine, 'mgPerLitre'> = { mgPerLitre: gramsPerLitre(0.25) };
    // @ts-expect-error what comes of arithmetic says its unit anew
    const read: Pick<EcLine, 'mSPerCm'> = { mSPerCm: 2 * ec };
    expect([
      batch.batchLitres,
      band.min,
      bare.aim,
      cap.upper,
      item.gramsPerLitre,
      line.mgPerLitre,
      read.mSPerCm,
    ]).toEqual([4000, 0.8, 20, 800, 250, 0.25, 1.6]);
  });
});
