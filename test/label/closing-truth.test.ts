import { describe, expect, it } from 'vitest';
import type { Product } from '../../src/label/product.js';
import { readProducts } from '../../src/catalog/shelf.js';
import { formula, type Formula } from '../../src/chemistry/formula.js';
import { linearEcOfIons } from '../../src/chemistry/linear-ec.js';
import { ionsPerGram } from '../../src/chemistry/ions.js';
import { closeProduct } from '../../src/label/close.js';
import { unwrap } from '../../src/problem.js';

/**
 * Labels of mixtures that we make up ourselves: what is in them is counted from the formula masses, printed as a label would, and the parts that
 * the label is silent on must lie inside what closing it tells. Salts as sold: the names of labels.
 */
const SALTS: readonly [name: string, formula: string][] = [
  ['potassium nitrate', 'KNO3'],
  ['calcium nitrate', 'Ca(NO3)2·4H2O'],
  ['calcium nitrate', '5Ca(NO3)2·NH4NO3·10H2O'],
  ['magnesium nitrate', 'Mg(NO3)2·6H2O'],
  ['sodium nitrate', 'NaNO3'],
  ['ammonium nitrate', 'NH4NO3'],
  ['ammonium sulfate', '(NH4)2SO4'],
  ['ammonium chloride', 'NH4Cl'],
  ['urea', 'CO(NH2)2'],
  ['monoammonium phosphate', 'NH4H2PO4'],
  ['diammonium phosphate', '(NH4)2HPO4'],
  ['monopotassium phosphate', 'KH2PO4'],
  ['dipotassium phosphate', 'K2HPO4'],
  ['monosodium phosphate', 'NaH2PO4'],
  ['potassium sulfate', 'K2SO4'],
  ['potassium chloride', 'KCl'],
  ['potassium bicarbonate', 'KHCO3'],
  ['magnesium sulfate', 'MgSO4·7H2O'],
  ['magnesium chloride', 'MgCl2·6H2O'],
  ['calcium chloride', 'CaCl2·2H2O'],
  ['iron EDTA', 'FeC10H12N2O8Na'],
  ['iron sulfate', 'FeSO4·7H2O'],
  ['manganese sulfate', 'MnSO4·H2O'],
  ['zinc EDTA', 'ZnC10H12N2O8Na2'],
  ['borax', 'Na2B4O7·10H2O'],
  ['sodium molybdate', 'Na2MoO4·2H2O'],
  ['potassium silicate', 'K2SiO3'],
];
const TRACES = new Set(['iron EDTA', 'iron sulfate', 'manganese sulfate', 'zinc EDTA', 'borax', 'sodium molybdate']);

type Silent = 'S' | 'Na' | 'Cl';
interface Made {
  text: string;
  product: Product;
  /** mg per g or mL */
  truth: Record<Silent, number>;
  /** mS/cm of 1 g/L or 1 mL/L by the linear estimate */
  ec: number;
}

describe('what a label does not declare lies inside what closing it tells', () => {
  it.each([
    { what: 'powders with a list, in tenths', seed: 11, listed: true, liquid: false, decimals: 1, down: false },
    { what: 'powders with a list, rounded down', seed: 12, listed: true, liquid: false, decimals: 1, down: true },
    { what: 'powders with a list, in whole numbers', seed: 13, listed: true, liquid: false, decimals: 0, down: true },
    { what: 'liquids (w/v) with a list', seed: 14, listed: true, liquid: true, decimals: 1, down: false },
    { what: 'powders without a list', seed: 15, listed: false, liquid: false, decimals: 1, down: false },
    {
      what: 'powders without a list, in whole numbers',
      seed: 16,
      listed: false,
      liquid: false,
      decimals: 0,
      down: true,
    },
    { what: 'liquids (w/v) without a list', seed: 17, listed: false, liquid: true, decimals: 1, down: false },
  ])('$what: 60 of them, always', async ({ seed, ...how }) => {
    const random = stream(seed);
    for (let n = 0; n < 60; n += 1) {
      const made = madeUp(random, how);
      const closed = await closeProduct(made.product);
      const { content, closed: told } = closed.composition;
      for (const nutrient of ['S', 'Na', 'Cl'] as const) {
        if (content[nutrient].stated !== null) continue;
        const { low, high } = told?.get(nutrient) ?? content[nutrient];
        const about = `${nutrient} of ${made.text}`;
        // a millionth of the product: the arithmetic of the program
        expect(made.truth[nutrient], about).toBeGreaterThanOrEqual(low - 1e-3);
        expect(made.truth[nutrient], about).toBeLessThanOrEqual(high + 1e-3);
        // a cap counts by the list all that there can be
        if (how.listed) expect(content[nutrient].high, about).toBeGreaterThanOrEqual(made.truth[nutrient] - 1e-3);
      }
      const { leastConductive, mostConductive, from, usual } = closed.ions;
      expect(from, made.text).toBe(how.listed ? 'sources' : 'label alone');
      // without a list EC goes by what is likely: likely-make-ups.test.ts
      if (!how.listed) continue;
      expect(made.ec, made.text).toBeGreaterThanOrEqual(linearEcOfIons(leastConductive) - 1e-6);
      expect(made.ec, made.text).toBeLessThanOrEqual(linearEcOfIons(mostConductive) + 1e-6);
      // what a can's prediction counts holds whatever printing hides
      expect(made.ec, made.text).toBeGreaterThanOrEqual(linearEcOfIons(usual!.leastConductive) - 1e-6);
      expect(made.ec, made.text).toBeLessThanOrEqual(linearEcOfIons(usual!.mostConductive) + 1e-6);
    }
  });
});

/** Two to six salts of random amounts, up to 1 g per g; per mL 0.1–0.5 g. Trace salts up to 2 %. */
function madeUp(
  random: () => number,
  { listed, liquid, decimals, down }: { listed: boolean; liquid: boolean; decimals: number; down: boolean },
): Made {
  const chosen: [string, Formula, number][] = [];
  const count = 2 + Math.floor(random() * 5);
  const bases = SALTS.filter(([name]) => !TRACES.has(name));
  const first = bases[Math.floor(random() * bases.length)]!;
  for (const [name, text] of [
    first,
    ...Array.from({ length: count - 1 }, () => SALTS[Math.floor(random() * SALTS.length)]!),
  ]) {
    if (chosen.some(([n]) => n === name)) continue;
    chosen.push([name, formula(text), TRACES.has(name) ? 0.02 * random() : 0.1 + random()]);
  }
  const sum = chosen.reduce((total, [, , weight]) => total + weight, 0);
  const grams = (liquid ? 0.1 + 0.4 * random() : 0.7 + 0.3 * random()) / sum;
  const mg = (element: string): number => total(chosen, grams, (f) => massOf(f, element));
  const forms = (['NO3-N', 'NH4-N', 'urea-N'] as const).map((form): [string, number] => [
    form,
    total(chosen, grams, (f) => (f.nitrogen[form] * 14.007) / f.molarMass),
  ]);
  const print = (value: number, digits = decimals): number => {
    const scale = 10 ** digits;
    return (down ? Math.floor(value * scale + 1e-9) : Math.round(value * scale)) / scale;
  };
  const cells = new Map<string, number>();
  const some = new Set<string>();
  const put = (column: string, value: number, digits = decimals): void => {
    cells.set(column, print(value, digits));
    // a printed zero is one: what is more is left out where it rounds to nothing
    if (value > 0.04) some.add(column);
  };
  for (const [form, value] of forms) put(form, value / 10);
  put('N', forms.reduce((total, [, value]) => total + value, 0) / 10);
  put('P2O5', (mg('P') / 10) * (141.943 / 61.948));
  put('K2O', (mg('K') / 10) * (94.195 / 78.196));
  put('Ca', mg('Ca') / 10);
  put('Mg', mg('Mg') / 10);
  put('SiO2', (mg('Si') / 10) * (60.083 / 28.085));
  // one label in three prints its trace elements in tenths, the others in thousandths
  const fine = random() < 1 / 3 ? 1 : 3;
  for (const trace of ['Fe', 'Mn', 'Zn', 'B', 'Mo']) put(trace, mg(trace) / 10, fine);
  for (const told of ['S', 'Na', 'Cl']) if (random() < 0.2) put(told, mg(told) / 10);
  // one in four prints the forms of nitrogen and what else is zero; one in five no forms at all
  const zeros = random() < 0.25;
  if (random() < 0.2) for (const [form] of forms) cells.delete(form);
  const shown = [...cells].filter(([column, value]) => value > 0 || (zeros && !some.has(column)));
  const names = listed ? chosen.map(([name]) => name).join('; ') : '';
  const header = ['id', 'form', 'basis', 'derived_from', ...shown.map(([column]) => column)].join(',');
  const row = ['made', liquid ? 'liquid' : 'powder', liquid ? 'w/v' : '', names, ...shown.map(([, v]) => v)].join(',');
  return {
    text: `${chosen.map(([name, , w]) => `${(1000 * w * grams).toFixed(1)} ${name}`).join(' + ')} | ${shown.map((c) => c.join(' ')).join(', ')}`,
    product: unwrap(readProducts(`${header}\n${row}`, 'made.csv'))[0]!,
    truth: { S: mg('S'), Na: mg('Na'), Cl: mg('Cl') },
    ec: total(chosen, grams / 1000, (f) => linearEcOfIons(ionsPerGram(f))),
  };
}

/** Abridged standard atomic weights (CIAAW 2021). */
const WEIGHTS: Readonly<Record<string, number>> = {
  P: 30.974,
  K: 39.098,
  Ca: 40.078,
  Mg: 24.305,
  Si: 28.085,
  S: 32.06,
  Na: 22.99,
  Cl: 35.45,
  Fe: 55.845,
  Mn: 54.938,
  Zn: 65.38,
  B: 10.81,
  Mo: 95.95,
};

const massOf = (f: Formula, element: string): number => ((f.atoms.get(element) ?? 0) * WEIGHTS[element]!) / f.molarMass;

/** Sum over the salts, ×1000: mg from g. */
const total = (chosen: readonly [string, Formula, number][], grams: number, of: (f: Formula) => number): number =>
  chosen.reduce((sum, [, f, weight]) => sum + 1000 * weight * grams * of(f), 0);

/** Uniform in 0…1, from a seed (a linear congruential generator; constants of Numerical Recipes, from memory). */
function stream(seed: number): () => number {
  let state = seed >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  for (let i = 0; i < 8; i += 1) next();
  return next;
}
