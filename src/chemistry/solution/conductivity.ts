import type { Speciation } from './speciation.js';
import { CONDUCTION, type Constants, FREE_CATION, FREE_LIGAND, SPECIES } from './species.js';

/**
 * Conductivity in µS/cm of the ions that a speciation leaves free, by the Debye–Hückel–Onsager equation for mixtures (Onsager & Fuoss
 * 1932, J. Phys. Chem. 36:2689): each ion is held back by the lopsided cloud around it and by the counter-flow of water; both are
 * damped by the size of the ions (Falkenhagen, Leist & Kelbg 1952).
 */
export function conductivityOf(found: Speciation, waterKgPerLitre: number, { lambda, water }: Constants): number {
  const ions = conducting(found.molality, waterKgPerLitre, lambda);
  const strength = ions.reduce((sum, { z, c }) => sum + 0.5 * c * z * z, 0);
  if (strength === 0) return 0;
  const root = Math.sqrt(strength);
  // κa, with κ = B√I
  const thickness = water.b * SIZE * root;
  // Bjerrum length times κ/3: the relaxation effect of a singly charged ion
  const et = water.permittivity * water.kelvin;
  const relaxation = ((167100 / et / 10) * water.b * root * 10) / 3 / (1 + thickness);
  // F²κ/(6πη N), S·cm²/mol
  const electrophoresis = (F2_PER_6PI_N * water.b * root) / water.viscosity / (1 + thickness);
  const pull = relaxed(ions);
  let sum = 0;
  ions.forEach(({ z, c, lambda: free }, j) => {
    const slowed = free * (1 - relaxation * z * z * pull[j]!) - electrophoresis * z * z;
    sum += c * Math.max(0, slowed);
  });
  return sum * 1000;
}

/** The ions that carry current, a share of the sulfate pairs counted as free ions (see `conducts` in the data). */
function conducting(molality: Float64Array, waterKgPerLitre: number, lambda: readonly number[]): Ion[] {
  const free = Float64Array.from(molality);
  SPECIES.forEach(({ cation, ligand, conducts }, i) => {
    if (conducts === 0) return;
    const split = conducts * molality[i]!;
    free[i]! -= split;
    free[FREE_CATION[cation]!]! += split;
    free[FREE_LIGAND[ligand]!]! += split;
  });
  return SPECIES.flatMap(({ charge }, i) =>
    charge !== 0 && free[i]! > 0 ? [{ z: charge, c: free[i]! * waterKgPerLitre, lambda: lambda[i]! }] : [],
  );
}

interface Ion {
  z: number;
  /** mol/L */
  c: number;
  /** S·cm²/mol */
  lambda: number;
}

const SIZE = CONDUCTION.sizeAngstrom;
const F2_PER_6PI_N = 82.0;

/** Per unit charge² the share of its velocity that each ion loses: [(E − √H) v]ⱼ/vⱼ, with √H as a series. */
function relaxed(ions: readonly Ion[]): number[] {
  const n = ions.length;
  const omega = ions.map(({ lambda, z }) => lambda / (z * z));
  const total = ions.reduce((sum, { c, z }) => sum + c * z * z, 0);
  const mu = ions.map(({ c, z }) => (c * z * z) / total);
  const velocity = ions.map(({ z }, j) => z * omega[j]!);
  const h = omega.map((wj, j) =>
    omega.map((wi, i) => {
      const off = (mu[i]! * wj) / (wi + wj);
      if (i !== j) return off;
      return off + omega.reduce((sum, wk, k) => sum + (mu[k]! * wk) / (wk + wj), 0);
    }),
  );
  let power = velocity;
  const sum = velocity.map((v) => v * SERIES[0]!);
  for (let order = 1; order < SERIES.length; order++) {
    const next = power.map((_, j) => {
      let dot = 0;
      for (let i = 0; i < n; i++) dot += h[j]![i]! * power[i]!;
      return 2 * dot - power[j]!;
    });
    power = next;
    for (let j = 0; j < n; j++) sum[j]! += SERIES[order]! * power[j]!;
  }
  return sum.map((s, j) => s / velocity[j]!);
}

/** Coefficients of 1 − √((1 + x)/2). */
const SERIES = seriesOf(16);
function seriesOf(length: number): number[] {
  const out: number[] = [];
  let binomial = 1;
  for (let n = 0; n < length; n++) {
    out.push((n === 0 ? 1 : 0) - binomial * Math.SQRT1_2);
    binomial *= (0.5 - n) / (n + 1);
  }
  return out;
}
