import { waterActivity, writeActivities } from './activity.js';
import { type Bench, newBench, solvePH } from './protons.js';
import {
  CARBONATE,
  CATION_CHARGES,
  CATIONS,
  type Constants,
  FREE_CATION,
  FREE_LIGAND,
  LIGAND_CHARGES,
  LIGANDS,
  SPECIES,
} from './species.js';
import type { Totals } from './totals.js';
import { exp, log, log10, pow } from '../../units/elementary.js';

export interface Speciation {
  pH: number;
  ionicStrength: number;
  waterActivity: number;
  /** mol/kg of each of SPECIES */
  molality: Float64Array;
  /** log10 γ of each of SPECIES */
  logGamma: Float64Array;
  /** potassium hydroxide (+) or nitric acid (−) that a fixed pH takes, mol/kg */
  titrant: number;
  sweeps: number;
}

/**
 * Distributes totals over ion pairs and protonated forms at equilibrium, in sweeps: activity coefficients; pH and free ligands by a
 * safeguarded Newton search of the proton balance; free cations from their mass balance. Every step is a closed formula with
 * positive results, so no input can make it fail; the ionic strength is damped when it swings.
 */
export function speciate(totals: Totals, constants: Constants): Speciation {
  const bench = newBench(totals, firstStrength(totals));
  const logGamma = new Float64Array(SPECIES.length);
  const molality = new Float64Array(SPECIES.length);
  const there = presentIn(totals);
  const history = { now: new Float64Array(CATIONS.length), before: new Float64Array(CATIONS.length) };
  let damping = 1;
  let lastStep = 0;
  let sweeps = 0;
  while (sweeps < MOST_SWEEPS) {
    sweeps++;
    writeActivities(bench.ionicStrength, constants.water, logGamma);
    condition(bench, constants, logGamma, there);
    bench.carbonDioxide = totals.carbonDioxide === null ? 0 : totals.carbonDioxide / pow(10, logGamma[CARBON_DIOXIDE]!);
    solvePH(bench, totals);
    const moved = freeCations(bench, totals, history, there);
    if (sweeps % LEAP_EVERY === 0) leap(bench.cations, history);
    const step = distribute(bench, molality, there) - bench.ionicStrength;
    if (step * lastStep < 0) damping = Math.max(0.1, damping * 0.7);
    lastStep = step;
    bench.ionicStrength += damping * step;
    if (moved < TOLERANCE && Math.abs(step) <= TOLERANCE * (bench.ionicStrength + 1e-9)) break;
  }
  return {
    pH: -log10(bench.hydrogen),
    ionicStrength: bench.ionicStrength,
    waterActivity: waterActivity(molality.reduce((sum, m) => sum + m, 0)),
    molality,
    logGamma,
    titrant: bench.titrant,
    sweeps,
  };
}

const CARBON_DIOXIDE = SPECIES.findIndex((s) => s.id === 'CO2');
const MOST_SWEEPS = 400;
const TOLERANCE = 1e-8;

/** Places in SPECIES of what the totals can form: what is not there is not reckoned with. */
function presentIn({ cations, ligands, carbonDioxide }: Totals): number[] {
  const has = (l: number): boolean => ligands[l]! > 0 || (l === CARBONATE && carbonDioxide !== null);
  return SPECIES.flatMap(({ cation, ligand }, i) => {
    if (ligand >= 0 && !has(ligand) && FIXED.has(ligand)) return [];
    return cation > 0 && ligand >= 0 && cations[cation] === 0 ? [] : [i];
  });
}

/** Ligands that no titrant adds to. */
const FIXED: ReadonlySet<number> = new Set(LIGANDS.flatMap((id, l) => (id === 'NO3' ? [] : [l])));

/** Ionic strength if nothing paired. */
function firstStrength({ cations, ligands }: Totals): number {
  const of = (molalities: Float64Array, charges: readonly number[]): number =>
    molalities.reduce((sum, m, i) => sum + m * (charges[i] ?? 0) ** 2, 0);
  return (
    0.5 * of(cations, CATION_CHARGES) +
    0.4 *
      of(
        ligands,
        LIGAND_CHARGES.map((z) => Math.max(-2, z)),
      )
  );
}

/** Constants in molalities (hydrogen as activity) at the ionic strength of this sweep. */
function condition(bench: Bench, { logK }: Constants, logGamma: Float64Array, there: readonly number[]): void {
  for (const i of there) {
    const { cation, ligand, ligandCount } = SPECIES[i]!;
    const gammas =
      (cation < 0 ? 0 : logGamma[FREE_CATION[cation]!]!) +
      (ligand < 0 ? 0 : ligandCount * logGamma[FREE_LIGAND[ligand]!]!);
    bench.k[i] = exp(Math.LN10 * (logK[i]! + gammas - logGamma[i]!));
  }
}

/** Free cations from their mass balance; returns the largest relative move. */
function freeCations(bench: Bench, totals: Totals, history: Steps, there: readonly number[]): number {
  const { shares, cations, ligands, k, powers } = bench;
  shares.fill(0);
  for (const i of there) {
    const { cation, ligand, ligandCount, protons } = SPECIES[i]!;
    if (cation >= 0) shares[cation]! += k[i]! * powers[protons + 1]! * held(ligands, ligand, ligandCount);
  }
  let moved = 0;
  for (let c = 0; c < CATIONS.length; c++) {
    const total = totals.cations[c]! + (c === 0 ? Math.max(0, bench.titrant) : 0);
    const free = total / shares[c]!;
    history.before[c] = history.now[c]!;
    history.now[c] = total > 0 && cations[c]! > 0 ? log(free / cations[c]!) : 0;
    moved = Math.max(moved, Math.abs(history.now[c]!));
    cations[c] = free;
  }
  return moved;
}

/** The last two moves of each cation, as logarithms. */
interface Steps {
  now: Float64Array;
  before: Float64Array;
}

/**
 * Where a cation and a ligand are nearly all paired, the sweeps creep in steps that shrink by a constant factor: leaps to where they
 * lead (Aitken), by a factor of 20 at most. Only a better guess for the next sweep, which balances masses again.
 */
function leap(cations: Float64Array, { now, before }: Steps): void {
  for (let c = 0; c < CATIONS.length; c++) {
    const ratio = now[c]! / before[c]!;
    if (ratio > 0.5 && ratio < 0.999) cations[c]! *= exp(Math.max(-3, Math.min(3, (now[c]! * ratio) / (1 - ratio))));
  }
}

const LEAP_EVERY = 12;

/** The factor that a species' ligands bring to its molality: none holds more than two. */
function held(ligands: Float64Array, ligand: number, count: number): number {
  if (ligand < 0) return 1;
  return count === 1 ? ligands[ligand]! : ligands[ligand]! * ligands[ligand]!;
}

/** Writes the molality of every species; returns the ionic strength. */
function distribute(bench: Bench, molality: Float64Array, there: readonly number[]): number {
  const { k, powers, cations, ligands } = bench;
  let strength = 0;
  for (const i of there) {
    const { cation, ligand, ligandCount, protons, charge } = SPECIES[i]!;
    const m = k[i]! * powers[protons + 1]! * (cation < 0 ? 1 : cations[cation]!) * held(ligands, ligand, ligandCount);
    molality[i] = m;
    strength += 0.5 * charge * charge * m;
  }
  return strength;
}
