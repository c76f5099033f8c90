import aqueous from '../../../catalog/aqueous.json' with { type: 'json' };
import { logKAt, type Water, waterAt } from './temperature.js';
import { exp } from '../../units/elementary.js';

/** Cations that pair, ligands that pair or take up protons; NO3 and Cl stay free. */
export const CATIONS = ['K', 'Ca', 'Mg', 'Na', 'NH4'] as const;
export const LIGANDS = ['SO4', 'PO4', 'H2SiO4', 'B(OH)4', 'citrate', 'acetate', 'CO3', 'NO3', 'Cl'] as const;
export const CATION_CHARGES = [1, 2, 2, 1, 1] as const;
export const LIGAND_CHARGES = [-2, -3, -2, -1, -3, -1, -2, -1, -1] as const;
export const CARBONATE = 6;

export interface Species {
  id: string;
  charge: number;
  /** index in CATIONS, −1 for none */
  cation: number;
  /** index in LIGANDS, −1 for none */
  ligand: number;
  /** how many of the ligand it holds */
  ligandCount: number;
  /** protons taken up; negative: given off to water */
  protons: number;
  size: number;
  b: number;
  /** of a pair, the share that conducts as two free ions */
  conducts: number;
}

export const SPECIES: readonly Species[] = aqueous.species.map((row) => ({
  id: row.id,
  charge: row.charge,
  cation: row.cation === null ? -1 : CATIONS.indexOf(row.cation as (typeof CATIONS)[number]),
  ligand: row.ligand === null ? -1 : LIGANDS.indexOf(row.ligand as (typeof LIGANDS)[number]),
  ligandCount: row.ligandCount ?? 1,
  protons: row.h,
  size: row.sizeAngstrom,
  b: row.b,
  conducts: row.conducts ?? 0,
}));

/** Where the free form of each cation and ligand stands in SPECIES. */
export const FREE_CATION = CATIONS.map((id) => SPECIES.findIndex((s) => s.id === id));
export const FREE_LIGAND = LIGANDS.map((id) => SPECIES.findIndex((s) => s.id === id));

export const MINERALS = aqueous.minerals;
export type MineralName = 'gypsum' | 'brushite' | 'calcite' | 'struvite';

/** Everything that depends on temperature alone. */
export interface Constants {
  water: Water;
  /** log10 K of each species */
  logK: readonly number[];
  /** limiting molar conductivity of each species, S·cm²/mol */
  lambda: readonly number[];
  minerals: readonly number[];
  /** log10 of molality of CO2 per atm */
  logHenry: number;
}

const known = new Map<number, Constants>();

/** Constants at a temperature in °C, kept for the temperatures asked last. */
export function constantsAt(celsius: number): Constants {
  const old = known.get(celsius);
  if (old) return old;
  if (known.size > 50) known.clear();
  const water = waterAt(celsius);
  const constants: Constants = {
    water,
    logK: aqueous.species.map((row) => logKAt(row, water.kelvin)),
    lambda: aqueous.species.map((row) => lambdaAt(row, water)),
    minerals: MINERALS.map((row) => logKAt(row, water.kelvin)),
    logHenry: logKAt(aqueous.carbonDioxide, water.kelvin),
  };
  known.set(celsius, constants);
  return constants;
}

export const CONDUCTION = aqueous.conduction;
export const VOLUME_GROWTH = aqueous.water.volumeSlope;
export const LOG_CO2_IN_AIR = aqueous.carbonDioxide.logPressureInAir;

/** Walden's rule, conductivity as one over the viscosity of water, with the small departure published for each ion. */
function lambdaAt(row: { lambda25: number; mobilityKelvin?: number }, { kelvin, viscosity }: Water): number {
  return row.lambda25 * (VISCOSITY_25 / viscosity) * exp((row.mobilityKelvin ?? 0) * (1 / kelvin - 1 / 298.15));
}
const VISCOSITY_25 = waterAt(25).viscosity;

/** Partial molar volumes at 25 °C, cm³/mol, by species. */
export const VOLUMES: Readonly<Record<string, { charge: number; volume: number }>> = Object.fromEntries(
  ['K', 'Ca', 'Mg', 'Na', 'NH4', 'NO3', 'Cl', 'SO4', 'H2PO4', 'HCO3'].map((id) => {
    const row = aqueous.species.find((s) => s.id === id);
    return [id, { charge: row?.charge ?? 0, volume: row?.volume ?? 0 }];
  }),
);
