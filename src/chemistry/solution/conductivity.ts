import { type Carriers, velocityLost } from './relaxation.js';
import type { Speciation } from './speciation.js';
import { CONDUCTION, type Constants, FREE_CATION, FREE_LIGAND, SPECIES } from './species.js';

/**
 * Conductivity in µS/cm of the ions that a speciation leaves free, by the Debye–Hückel–Onsager equation for mixtures (Onsager & Fuoss
 * 1932, J. Phys. Chem. 36:2689): each ion is held back by the lopsided cloud of ions around it and by the counter-flow of water; both
 * are damped by the size of the ions (Falkenhagen, Leist & Kelbg 1952, Ann. Phys. 446:51).
 */
export function conductivityOf(found: Speciation, waterKgPerLitre: number, constants: Constants): number {
  const ions = carriersOf(found.molality, waterKgPerLitre, constants.lambda);
  const slowed = slowedIn(ions, constants);
  let sum = 0;
  for (let j = 0; j < ions.count; j++) sum += ions.molar[j]! * slowed[j]!;
  return sum * 1000;
}

/** One kind of ion among those that carry the current of a solution. */
export interface IonPart {
  /** Its id among the species of `catalog/aqueous.json`, and its charge. */
  ion: string;
  charge: number;
  mmolPerLitre: number;
  /** Equivalent conductivity, S·cm²/eq: alone in endless water, and among the ions of this solution. */
  alone: number;
  among: number;
  /** Its part of the conductivity, µS/cm. */
  microSiemensPerCm: number;
}

/** The same conductivity ion by ion: the parts add up to it. */
export function ionPartsOf(found: Speciation, waterKgPerLitre: number, constants: Constants): IonPart[] {
  const ions = carriersOf(found.molality, waterKgPerLitre, constants.lambda);
  const slowed = slowedIn(ions, constants);
  return Array.from({ length: ions.count }, (_, j) => ({
    ion: SPECIES[ions.species[j]!]!.id,
    charge: ions.charge[j]!,
    mmolPerLitre: 1000 * ions.molar[j]!,
    alone: ions.lambda[j]! / Math.abs(ions.charge[j]!),
    among: slowed[j]! / Math.abs(ions.charge[j]!),
    microSiemensPerCm: 1000 * ions.molar[j]! * slowed[j]!,
  }));
}

/** Molar conductivity of each ion among the others, S·cm²/mol. */
function slowedIn(ions: Carriers, { water }: Constants): Float64Array {
  const slowed = new Float64Array(ions.count);
  if (ions.count === 0) return slowed;
  // thickness⁻¹ of the ion cloud, 1/Å
  const kappa = water.b * Math.sqrt(ions.strength);
  const damping = 1 / (1 + kappa * CONDUCTION.sizeAngstrom);
  const bjerrum = CHARGE2_PER_4PI_EPSILON_K / (water.permittivity * water.kelvin);
  const relaxation = (bjerrum * kappa * damping) / 3;
  const counterFlow = (FARADAY2_PER_6PI_N * kappa * damping) / water.viscosity;
  const lost = velocityLost(ions);
  for (let j = 0; j < ions.count; j++) {
    const square = ions.charge[j]! ** 2;
    slowed[j] = Math.max(0, ions.lambda[j]! * (1 - relaxation * square * lost[j]!) - counterFlow * square);
  }
  return slowed;
}

/** e²/(4π ε0 k), Å·K */
const CHARGE2_PER_4PI_EPSILON_K = 167_100;
/** F²/(6π N), S·cm²/mol · mPa·s · Å */
const FARADAY2_PER_6PI_N = 82;

/** The ions that carry current, a share of the sulfate pairs counted as free ions (see `conducts` in the data). */
function carriersOf(
  molality: Float64Array,
  waterKgPerLitre: number,
  lambdas: readonly number[],
): Carriers & { species: Int32Array } {
  const free = Float64Array.from(molality);
  for (const i of CONDUCTING_PAIRS) {
    const { cation, ligand, conducts } = SPECIES[i]!;
    const split = conducts * molality[i]!;
    free[i]! -= split;
    free[FREE_CATION[cation]!]! += split;
    free[FREE_LIGAND[ligand]!]! += split;
  }
  let strength = 0;
  for (const i of CHARGED) strength += 0.5 * SPECIES[i]!.charge ** 2 * free[i]! * waterKgPerLitre;
  const [molar, charge, lambda] = [
    new Float64Array(CHARGED.length),
    new Float64Array(CHARGED.length),
    new Float64Array(CHARGED.length),
  ];
  const species = new Int32Array(CHARGED.length);
  let count = 0;
  for (const i of CHARGED) {
    if (!(free[i]! * waterKgPerLitre > TRACE * strength)) continue;
    molar[count] = free[i]! * waterKgPerLitre;
    charge[count] = SPECIES[i]!.charge;
    species[count] = i;
    lambda[count++] = lambdas[i]!;
  }
  return { count, molar, charge, lambda, strength, species };
}

const CHARGED = SPECIES.flatMap(({ charge }, i) => (charge === 0 ? [] : [i]));
const CONDUCTING_PAIRS = SPECIES.flatMap(({ conducts }, i) => (conducts > 0 ? [i] : []));
/** An ion below this share of the ionic strength carries nothing that a meter shows. */
const TRACE = 1e-9;
