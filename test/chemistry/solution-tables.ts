import type { SolutionIons } from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/reference.js';

export type Row = Map<string, string>;

/** Rows of one of the computed tables; their first line names the code, its two releases and databases. */
export function table(name: string): Row[] {
  return referenceRows(`${name}.csv`);
}

export function number(row: Row, column: string): number {
  return Number(row.get(column));
}

/** The ions of a row in mmol/L, with an alkalinity where the table is of tap water. */
export function ionsOf(row: Row, alkalinity?: number): SolutionIons {
  const ions = Object.fromEntries(
    ['K', 'Ca', 'Mg', 'Na', 'NH4', 'NO3', 'P', 'SO4', 'Cl'].map((ion) => [ion, number(row, `${ion}_mmol_L`)]),
  );
  return alkalinity === undefined ? ions : { ...ions, HCO3: alkalinity };
}

/** Carbonate that the salts of a recipe bring, mmol/L. */
export function carbonateOf(row: Row): number {
  const grams = /K2CO3:([\d.]+)/.exec(row.get('recipe_g_per_L') ?? '')?.[1];
  return grams === undefined ? 0 : (Number(grams) / 138.205) * 1000;
}

/** The mean of the two releases, µS/cm: they differ by up to 5.9 %. */
export function meanEc(row: Row): number {
  return (number(row, 'EC25_uS_cm') + number(row, 'EC25_db2021_uS_cm')) / 2;
}

export function rms(errors: readonly number[]): number {
  return Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);
}

export function worst(errors: readonly number[]): number {
  return Math.max(...errors.map(Math.abs));
}

/** Share of the errors within a limit. */
export function within(errors: readonly number[], limit: number): number {
  return errors.filter((e) => Math.abs(e) <= limit).length / errors.length;
}
