/** pH and saturation indices against test/reference/conductivity_*.csv and precipitation_*.csv (computed; source in their first lines). */
import { describe, expect, it } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/index.js';
import { carbonateOf, ionsOf, number, type Row, table, within, worst } from './solution-tables.js';

const MINERALS = ['gypsum', 'brushite', 'calcite', 'struvite'] as const;
type Mineral = (typeof MINERALS)[number];

describe('pH of feeds in pure water', () => {
  const rows = ['published_RO', 'random_mix_RO', 'random_acidbase_RO', 'single_salts'].flatMap((name) =>
    table(`conductivity_${name}`),
  );

  it.each([
    ['closed', false, 'pH'],
    ['open to air', true, 'pH_air'],
  ] as const)('%s: nearly all rows (95 of 100) within 0.15', (_, air, column) => {
    const off = rows.map((row) => {
      const { pH } = solutionChemistry(ionsOf(row), { air, carbonate: carbonateOf(row) });
      return pH - number(row, column);
    });
    expect(off.length).toBeGreaterThan(150);
    expect(within(off, 0.15)).toBeGreaterThanOrEqual(0.95);
  });
});

it('pH of feeds in hard tap water, closed: within 0.15 for 95 % of rows', () => {
  const rows = [...table('conductivity_published_tap'), ...table('conductivity_random_mix_tap')];
  const off = rows.map(
    (row) => solutionChemistry(ionsOf(row, number(row, 'HCO3_added_meq_L')), { air: false }).pH - number(row, 'pH'),
  );
  expect(within(off, 0.15)).toBeGreaterThanOrEqual(0.95);
});

/** [ours, the table's] for the rows that state an index. */
function indices(rows: Row[], mineral: Mineral, solve: (row: Row) => ReturnType<typeof solutionChemistry>) {
  return rows
    .filter((row) => row.get(`SI_${mineral}`) !== '')
    .map((row) => [solve(row).saturation[mineral] ?? Number.NaN, number(row, `SI_${mineral}`)] as const);
}

describe('saturation at working strength', () => {
  const rows = table('precipitation_si_working_strength');
  const solve = (row: Row) =>
    row.get('water') === 'tap'
      ? solutionChemistry(ionsOf(row, TAP_ALKALINITY), { air: false, pH: number(row, 'pH_set') })
      : solutionChemistry(ionsOf(row), { pH: number(row, 'pH_set') });

  it.each([
    ['gypsum', 0.1, 150],
    ['brushite', 0.1, 150],
    ['calcite', 0.15, 150],
    ['struvite', 0.15, 110],
  ] as const)('%s within %d, 99 rows of 100', (mineral, limit, count) => {
    const off = indices(rows, mineral, solve).map(([ours, theirs]) => ours - theirs);
    expect(off.length).toBeGreaterThan(count);
    expect(within(off, limit)).toBeGreaterThanOrEqual(0.99);
  });
});

/** HCO3 180 mg/L: the tap of the tables, meq/L */
const TAP_ALKALINITY = 2.95;

describe('saturation in concentrates, pure water, closed', () => {
  const rows = table('precipitation_si_concentrates');
  const solve = (row: Row) => {
    const pH = row.get('pH_set');
    return solutionChemistry(ionsOf(row), pH ? { air: false, pH: Number(pH) } : { air: false });
  };

  it.each([
    ['gypsum', 100],
    ['brushite', 100],
    ['struvite', 75],
  ] as const)('%s within 0.35, the right sign in 98 rows of 100', (mineral, count) => {
    const pairs = indices(rows, mineral, solve);
    expect(pairs.length).toBeGreaterThan(count);
    expect(worst(pairs.map(([ours, theirs]) => ours - theirs))).toBeLessThanOrEqual(0.35);
    const clear = pairs.filter(([, theirs]) => Math.abs(theirs) > 0.2);
    const right = clear.filter(([ours, theirs]) => ours > 0 === theirs > 0);
    expect(right.length / clear.length).toBeGreaterThanOrEqual(0.98);
  });
});

it('calcium at which gypsum and brushite saturate: within 12 %', () => {
  const off = table('precipitation_si_thresholds').map((row) => critical(row) / number(row, 'Ca_critical_mmol_L') - 1);
  expect(off).toHaveLength(82);
  expect(worst(off)).toBeLessThanOrEqual(0.12);
});

/** Calcium (as nitrate, mmol/L) where the index crosses zero, by bisection. */
function critical(row: Row): number {
  let [low, high] = [1e-3, 3000];
  for (let round = 0; round < 40; round++) {
    const calcium = Math.sqrt(low * high);
    const index = thresholdIndex(row, calcium);
    if (index > 0) high = calcium;
    else low = calcium;
  }
  return low;
}

function thresholdIndex(row: Row, calcium: number): number {
  const amount = number(row, 'SO4_or_P_mmol_L');
  const background = number(row, 'background_KNO3_mmol_L');
  const salt = row.get('other_salt');
  const ions = {
    Ca: calcium,
    NO3: 2 * calcium + background,
    K: background + (salt === 'K2SO4' ? 2 * amount : salt === 'KH2PO4' ? amount : 0),
    Mg: salt === 'MgSO4' ? amount : 0,
    SO4: salt === 'KH2PO4' ? 0 : amount,
    P: salt === 'KH2PO4' ? amount : 0,
  };
  const pH = row.get('pH_set');
  const { saturation } = solutionChemistry(ions, pH ? { air: false, pH: Number(pH) } : { air: false });
  return saturation[row.get('mineral') as Mineral] ?? Number.NaN;
}

it('an index is null where an ingredient is absent', () => {
  const { saturation } = solutionChemistry({ Ca: 2, NO3: 4 }, { air: false });
  expect(saturation).toEqual({ gypsum: null, brushite: null, calcite: null, struvite: null });
  expect(solutionChemistry({ Ca: 2, NO3: 4 }).saturation.calcite).toBeLessThan(-2);
});
