/**
 * Conductivity against tables computed with two releases of a public-domain code (test/reference/conductivity_*.csv; some coefficients were
 * fitted to them, see catalog/aqueous.json) and against measured single salts (CRC Handbook, from memory). Limits: the issue's.
 */
import { describe, expect, it } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/index.js';
import { carbonateOf, ionsOf, meanEc, number, type Row, rms, table, worst } from './solution-tables.js';

const offInPureWater = (row: Row): number =>
  100 * (solutionChemistry(ionsOf(row), { air: false, carbonate: carbonateOf(row) }).ec25 / meanEc(row) - 1);
const offInTap = (row: Row): number =>
  100 * (solutionChemistry(ionsOf(row, number(row, 'HCO3_added_meq_L')), { air: false }).ec25 / meanEc(row) - 1);
const offMeasured = (row: Row): number =>
  100 * (solutionChemistry(ionsOf(row), { air: false }).ec25 / number(row, 'EC25_measured_uS_cm') - 1);

describe('feeds in pure water, per cent of the mean of two releases', () => {
  const feeds = [...table('conductivity_published_RO'), ...table('conductivity_random_mix_RO')];

  it('published and random feeds: RMS ≤ 1.0 %, none beyond 3 %', () => {
    const off = feeds.map(offInPureWater);
    expect(off).toHaveLength(77);
    expect(rms(off)).toBeLessThanOrEqual(1.0);
    expect(worst(off)).toBeLessThanOrEqual(3);
  });

  it('with the single salts and the mixtures with acids and bases: the same limits', () => {
    const others = [...table('conductivity_single_salts'), ...table('conductivity_random_acidbase_RO')];
    const off = [...feeds, ...others].map(offInPureWater);
    expect(off.length).toBeGreaterThan(150);
    expect(rms(off)).toBeLessThanOrEqual(1.0);
    expect(worst(off)).toBeLessThanOrEqual(3);
  });
});

it('hard tap water, closed: RMS ≤ 1.5 %, none beyond 3.5 %', () => {
  const off = [...table('conductivity_published_tap'), ...table('conductivity_random_mix_tap')].map(offInTap);
  expect(off).toHaveLength(71);
  expect(rms(off)).toBeLessThanOrEqual(1.5);
  expect(worst(off)).toBeLessThanOrEqual(3.5);
});

describe('measured at 25 °C', () => {
  const measured = table('conductivity_measured_25C');
  const salt = (row: Row): string => row.get('id')!.split('_')[1]!;

  it('KCl 0.001 to 0.1 mol/L (Standard Methods 2510, CRC Handbook): within 0.7 %', () => {
    const off = measured.filter((row) => salt(row) === 'KCl' && number(row, 'K_mmol_L') >= 1).map(offMeasured);
    expect(off).toHaveLength(6);
    expect(worst(off)).toBeLessThanOrEqual(0.7);
  });

  it('single salts below ionic strength 0.03: RMS ≤ 1.5 %, none beyond 4 %, MgSO4 within 6 %', () => {
    const dilute = measured.filter((row) => number(row, 'I_mol_kgw') < 0.03);
    expect(dilute.length).toBeGreaterThan(35);
    expect(rms(dilute.map(offMeasured))).toBeLessThanOrEqual(1.5);
    expect(worst(dilute.filter((row) => salt(row) !== 'MgSO4').map(offMeasured))).toBeLessThanOrEqual(4);
    expect(worst(dilute.filter((row) => salt(row) === 'MgSO4').map(offMeasured))).toBeLessThanOrEqual(6);
  });
});

describe('10 to 30 °C', () => {
  const cases = table('conductivity_temperature').flatMap((row) => [10, 15, 20, 25, 30].map((t) => [row, t] as const));

  it('conductivity at the temperature of the can: within 2.5 %', () => {
    const off = cases.map(([row, temperatureC]) => {
      const { ec } = solutionChemistry(ionsOf(row), { air: false, temperatureC });
      return 100 * (ec / number(row, `EC${temperatureC}_uS_cm`) - 1);
    });
    expect(off).toHaveLength(40);
    expect(worst(off)).toBeLessThanOrEqual(2.5);
  });

  it('ec25 does not depend on the temperature, and ec is ec25 at 25 °C', () => {
    for (const [row, temperatureC] of cases) {
      const { ec, ec25 } = solutionChemistry(ionsOf(row), { air: false, temperatureC });
      expect(ec25).toBe(solutionChemistry(ionsOf(row), { air: false }).ec25);
      if (temperatureC === 25) expect(ec).toBe(ec25);
    }
  });
});
