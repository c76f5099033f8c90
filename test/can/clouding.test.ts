import { describe, expect, it } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/solution/index.js';
import { ionSourceOf, ionSourceOfWater } from '../../src/can/ion-sources.js';
import {
  type IonSource,
  type Chemistry,
  type CloudingLine,
  cloudingOf,
  MINERALS,
  type Mineral,
  SOLUTION_IONS,
  type SolutionIons,
  times,
} from '../../src/can/clouding.js';
import { cloudingSays } from '../../src/report/says/clouding.js';
import { meetings } from '../../src/can/meeting.js';
import { meetingSays } from '../../src/report/says/solution.js';
import { salt, tap } from '../stock/stock.js';
import { referenceRows } from '../reference/reference.js';

const ionsOf = (some: Partial<SolutionIons>): SolutionIons =>
  Object.fromEntries(SOLUTION_IONS.map((ion) => [ion, some[ion] ?? 0])) as SolutionIons;
const source = (id: string, some: Partial<SolutionIons>, most?: Partial<SolutionIons>): IonSource => ({
  kind: 'product',
  id,
  name: id,
  ions: ionsOf(some),
  ...(most ? { most: ionsOf(most) } : {}),
});

/** A chemistry that says what it is told. */
const saying =
  (index: Partial<Record<Mineral, number>>, open = index): Chemistry =>
  (_, { air }) => ({
    pH: 6,
    saturation: { gypsum: null, brushite: null, calcite: null, struvite: null, ...(air ? open : index) },
  });
const both = [source('cal', { Ca: 1 }), source('base', { SO4: 1, P: 1, Mg: 1, NH4: 1, HCO3: 1 })];
const lineOf = (mineral: Mineral, chemistry: Chemistry) =>
  cloudingOf(both, chemistry).minerals.find((line) => line.mineral === mineral)!;
const pair = ({ between }: CloudingLine) => between?.map(({ id }) => id) ?? null;

describe('the verdict', () => {
  it.each([
    [-0.31, 'clear'],
    [-0.29, 'borderline'],
    [0.29, 'borderline'],
    [0.31, 'will cloud'],
  ] as const)('of index %d is %s: 0.3 either side of saturation', (index, verdict) => {
    for (const mineral of ['gypsum', 'brushite', 'struvite'] as const)
      expect(lineOf(mineral, saying({ [mineral]: index })).verdict).toBe(verdict);
  });

  it('is more patient with lime, which is slow', () => {
    expect(lineOf('calcite', saying({ calcite: 0.7 })).verdict).toBe('borderline');
    expect(lineOf('calcite', saying({ calcite: 0.9 })).verdict).toBe('will cloud');
  });

  it('counts the worse of as mixed and after standing open, and says which', () => {
    const line = lineOf('calcite', saying({ calcite: -0.5 }, { calcite: 1.2 }));
    expect(line).toMatchObject({ index: -0.5, openIndex: 1.2, verdict: 'will cloud', by: 'standing' });
    expect(cloudingSays(line)).toContain('after standing open to the air');
  });

  it('of the whole is the worst of the four', () => {
    expect(cloudingOf(both, saying({ gypsum: -2, brushite: 0.1, struvite: 0.5 })).verdict).toBe('will cloud');
    expect(cloudingOf(both, saying({ gypsum: -2 })).verdict).toBe('clear');
  });

  it('of what labels leave open is borderline at least', () => {
    const open = [source('cal', { Ca: 10 }), source('mystery', { K: 1, SO4: 0.1 }, { K: 1, SO4: 40 })];
    const gypsum = cloudingOf(open, solutionChemistry).minerals[0]!;
    expect(gypsum).toMatchObject({ mineral: 'gypsum', verdict: 'borderline', by: 'label' });
    expect(pair(gypsum)).toEqual(['cal', 'mystery']);
    expect(cloudingSays(gypsum)).toContain('what the labels leave open');
  });
});

describe('the pair responsible', () => {
  it('brings most of either part', () => {
    const can = [
      source('a', { Ca: 1, SO4: 0.2 }),
      source('b', { Ca: 3, P: 0.1 }),
      source('c', { SO4: 4, P: 2 }),
      source('water', { Ca: 0.1, HCO3: 1 }),
    ];
    const pairs = cloudingOf(can, saying({ gypsum: 1, brushite: 1, calcite: 1 })).minerals.map(pair);
    expect(pairs).toEqual([['b', 'c'], ['b', 'c'], ['b', 'water'], null]);
  });

  it('may be one item by itself', () => {
    const line = cloudingOf([source('all', { Ca: 1, SO4: 1 })], saying({ gypsum: 1 })).minerals[0]!;
    expect(pair(line)).toEqual(['all', 'all']);
    expect(cloudingSays(line)).toBe('calcium sulfate (gypsum), from all: will cloud.');
  });

  it('is nobody where a part is missing', () => {
    const line = cloudingOf([source('cal', { Ca: 1 })], saying({})).minerals[1]!;
    expect(line).toMatchObject({ mineral: 'brushite', index: null, verdict: 'clear', between: null });
  });
});

describe('stock bottles of published and random feeds', () => {
  /** PHREEQC at the bottles' own pH; see the first line of the table. */
  const rows = referenceRows('stock_bottles.csv').map((row) => ({
    row,
    clouding: cloudingOf(
      [
        {
          kind: 'product',
          id: 'all',
          name: 'all',
          ions: ionsOf(Object.fromEntries(SOLUTION_IONS.map((ion) => [ion, Number(row.get(`${ion}_mmol_L`) ?? 0)]))),
        },
      ],
      solutionChemistry,
    ),
  }));
  const judged = rows.flatMap(({ row, clouding }) =>
    clouding.minerals.flatMap((line) => {
      const cell = row.get(`SI_${line.mineral}`);
      return cell === undefined || cell === '' ? [] : [{ id: row.get('id'), line, index: Number(cell) }];
    }),
  );

  it('never calls clear what comes out, nor cloudy what cannot', () => {
    const called = (verdict: string) => judged.filter(({ line }) => line.verdict === verdict);
    const [clear, cloudy] = [called('clear'), called('will cloud')];
    expect([judged.length, clear.length, cloudy.length]).toEqual([119, 40, 51]);
    for (const { id, line, index } of clear) expect(index, `${id} ${line.mineral}`).toBeLessThan(0);
    for (const { id, line, index } of cloudy) expect(index, `${id} ${line.mineral}`).toBeGreaterThan(0);
  });
});

describe('a can', () => {
  it('of Hoagland & Arnon (1950) at working strength is clear of gypsum and brushite', () => {
    const can = [
      ionSourceOf(salt('KNO3'), 0.50551),
      ionSourceOf(salt('Ca(NO3)2·4H2O'), 1.18073),
      ionSourceOf(salt('KH2PO4'), 0.136084),
      ionSourceOf(salt('MgSO4·7H2O'), 0.492932),
    ];
    for (const { verdict } of cloudingOf(can, solutionChemistry).minerals) expect(verdict).toBe('clear');
  });

  it('of tap water given calcium and an alkali clouds with lime after standing, and names both', () => {
    const can = [ionSourceOf(salt('Ca(NO3)2·4H2O'), 1), ionSourceOf(salt('KHCO3'), 0.3), ionSourceOfWater(tap, 1)];
    const lime = cloudingOf(can, solutionChemistry).minerals.find((line) => line.mineral === 'calcite')!;
    expect(lime.verdict).toBe('will cloud');
    expect(pair(lime)).toEqual(['Ca(NO3)2·4H2O', 'KHCO3']);
  });

  it('is the same whether one product or two bring its ions', () => {
    const ions = ionsOf({ Ca: 4, SO4: 3, K: 2, NO3: 4, HCO3: 0.5 });
    const once = cloudingOf([{ kind: 'product', id: 'x', name: 'x', ions }], solutionChemistry);
    const twice = cloudingOf(
      [1, 2].map((n) => ({ kind: 'product' as const, id: `x${n}`, name: 'x', ions: times(ions, 0.5) })),
      solutionChemistry,
    );
    for (const [i] of MINERALS.entries())
      expect(twice.minerals[i]!.index ?? 0).toBeCloseTo(once.minerals[i]!.index ?? 0, 9);
  });
});

describe('where things meet undiluted', () => {
  it('calcium and phosphate of a clear can cloud in the first cup, calcium first avoids it', () => {
    const found = meetings(
      [
        ionSourceOf(salt('Ca(NO3)2·4H2O'), 0.8),
        ionSourceOf(salt('K2HPO4'), 0.1),
        ionSourceOf(salt('MgSO4·7H2O'), 0.5),
        ionSourceOf(salt('KNO3'), 0.5),
      ],
      solutionChemistry,
    );
    expect(found.map(({ between, minerals }) => [between.map(({ id }) => id).join(' + '), minerals.join()])).toEqual([
      ['Ca(NO3)2·4H2O + K2HPO4', 'brushite'],
      ['Ca(NO3)2·4H2O + MgSO4·7H2O', 'gypsum'],
    ]);
    expect(meetingSays(found[0]!)).toContain('Ca(NO3)2·4H2O first');
  });

  it('is no matter where nothing opposes', () => {
    expect(meetings([ionSourceOf(salt('KNO3'), 1), ionSourceOf(salt('MgSO4·7H2O'), 1)], solutionChemistry)).toEqual([]);
  });
});
