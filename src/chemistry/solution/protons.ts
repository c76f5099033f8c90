import { CARBONATE, CATION_CHARGES, CATIONS, LIGAND_CHARGES, LIGANDS, SPECIES } from './species.js';
import type { Totals } from './totals.js';
import { exp, log, pow } from '../../units/elementary.js';

/** The state between two sweeps of a speciation. */
export interface Bench {
  ionicStrength: number;
  /** activity of hydrogen ions */
  hydrogen: number;
  /** hydrogen to the powers −1, 0, 1, 2, 3 */
  powers: Float64Array;
  /** conditional constant of each species */
  k: Float64Array;
  /** free molalities */
  cations: Float64Array;
  ligands: Float64Array;
  /** room for sums per cation */
  shares: Float64Array;
  /** molality of CO2 where the can is open to air */
  carbonDioxide: number;
  /** potassium hydroxide (+) or nitric acid (−) that a fixed pH takes */
  titrant: number;
}

export function newBench(totals: Totals, ionicStrength: number): Bench {
  const bench: Bench = {
    ionicStrength,
    hydrogen: pow(10, -(totals.pH ?? 6)),
    powers: new Float64Array(5),
    k: new Float64Array(SPECIES.length),
    cations: Float64Array.from(totals.cations),
    ligands: Float64Array.from(totals.ligands),
    shares: new Float64Array(CATIONS.length),
    carbonDioxide: 0,
    titrant: 0,
  };
  raise(bench, bench.hydrogen);
  return bench;
}

/**
 * Finds the hydrogen activity at which the protons taken up balance the charge of all else. Ligands are re-distributed at each trial;
 * cations keep what the last sweep left them, hydrolysis included. With a fixed pH it finds the base or acid needed instead.
 */
export function solvePH(bench: Bench, totals: Totals): void {
  const charge = chargeWithoutProtons(totals);
  const kept = unpaired(bench);
  if (totals.pH !== null) {
    bench.titrant = -(charge + protonsTaken(bench, totals, kept).sum);
    bench.ligands[NITRATE] = totals.ligands[NITRATE]! + Math.max(0, -bench.titrant);
    return;
  }
  let [low, high] = [LOWEST, HIGHEST];
  let x = log(bench.hydrogen);
  for (let trial = 0; trial < 80; trial++) {
    raise(bench, exp(x));
    const { sum, slope } = protonsTaken(bench, totals, kept);
    const excess = charge + sum;
    if (excess > 0) high = x;
    else low = x;
    const step = -excess / slope;
    if (Math.abs(step) < 1e-10 || high - low < 1e-12) return;
    const next = x + Math.max(-4, Math.min(4, step));
    x = next > low && next < high ? next : (low + high) / 2;
  }
}

const NITRATE = LIGANDS.indexOf('NO3');
const CARBON_DIOXIDE = SPECIES.findIndex((s) => s.id === 'CO2');
const [LOWEST, HIGHEST] = [log(1e-17), log(1e4)];
const WITH_LIGAND = LIGANDS.map((_, l) => SPECIES.flatMap((s, i) => (s.ligand === l ? [i] : [])));
const HYDROLYSED = CATIONS.map((_, c) => SPECIES.findIndex((s) => s.cation === c && s.ligand < 0 && s.protons < 0));
const BARE = ['H', 'OH'].map((id) => SPECIES.findIndex((s) => s.id === id));

function raise(bench: Bench, hydrogen: number): void {
  bench.hydrogen = hydrogen;
  const { powers } = bench;
  powers[0] = 1 / hydrogen;
  powers[1] = 1;
  powers[2] = hydrogen;
  powers[3] = hydrogen * hydrogen;
  powers[4] = hydrogen * hydrogen * hydrogen;
}

/** Charge of everything with no proton on it; carbonate from the air counts with its protons instead. */
function chargeWithoutProtons({ cations, ligands, unexplained, carbonDioxide }: Totals): number {
  let charge = -unexplained;
  for (let c = 0; c < CATIONS.length; c++) charge += CATION_CHARGES[c]! * cations[c]!;
  for (let l = 0; l < LIGANDS.length; l++) {
    if (l !== CARBONATE || carbonDioxide === null) charge += LIGAND_CHARGES[l]! * ligands[l]!;
  }
  return charge;
}

/** Each cation that no ligand holds: free and hydrolysed together. */
function unpaired({ cations, powers, k }: Bench): number[] {
  return HYDROLYSED.map((i, c) => cations[c]! * (i < 0 ? 1 : 1 + k[i]! * powers[0]!));
}

/** Σ protons · molality and its slope against ln(hydrogen); writes the free cations and ligands that belong to it. */
function protonsTaken(bench: Bench, totals: Totals, kept: number[]): { sum: number; slope: number } {
  const { k, powers, cations, ligands } = bench;
  let [sum, slope] = [0, 0];
  for (const i of BARE) {
    const m = k[i]! * powers[SPECIES[i]!.protons + 1]!;
    sum += SPECIES[i]!.protons * m;
    slope += m;
  }
  for (let c = 0; c < CATIONS.length; c++) {
    const i = HYDROLYSED[c]!;
    if (i < 0) continue;
    const ratio = k[i]! * powers[0]!;
    cations[c] = kept[c]! / (1 + ratio);
    sum -= cations[c]! * ratio;
    slope += (cations[c]! * ratio) / (1 + ratio);
  }
  for (let l = 0; l <= CARBONATE; l++) {
    const open = l === CARBONATE && totals.carbonDioxide !== null;
    if (!open && totals.ligands[l] === 0) continue;
    const offset = open ? LIGAND_CHARGES[CARBONATE] : 0;
    let [share, doubled, taken, squares] = [0, 0, 0, 0];
    for (const i of WITH_LIGAND[l]!) {
      const { cation, ligandCount, protons } = SPECIES[i]!;
      const part = k[i]! * powers[protons + 1]! * (cation < 0 ? 1 : cations[cation]!);
      if (ligandCount === 2) {
        doubled += part;
        continue;
      }
      share += part;
      taken += (protons + offset) * part;
      squares += (protons + offset) ** 2 * part;
    }
    const free = open ? carbonateFromAir(bench, totals, share) : freeLigand(totals.ligands[l]!, share, doubled);
    ligands[l] = free;
    sum += taken * free;
    slope += open ? squares * free : (squares - (taken * taken) / share) * free;
  }
  return { sum, slope };
}

/**
 * Free carbonate beside the CO2 of air, which grows a hundredfold with each unit of pH. Where base holds the pH up it would go on without
 * end, so there it stops at what air can bring to a can.
 */
function carbonateFromAir({ carbonDioxide, k, powers }: Bench, totals: Totals, share: number): number {
  const balanced = carbonDioxide / (k[CARBON_DIOXIDE]! * powers[3]!);
  return totals.pH === null ? balanced : Math.min(balanced, MOST_FROM_AIR / share);
}

/**
 * mol/kg. A mmol of CO2 is in 58 L of air (420 ppm; 24.5 L/mol at 25 °C), so this much takes more than a cubic metre for each litre
 * of can; a can that base holds above pH 9.3 is not at rest with the air for weeks.
 */
const MOST_FROM_AIR = 0.02;

/** Root of free · share + 2 · free² · doubled = total; species that hold two of a ligand take up no protons. */
function freeLigand(total: number, share: number, doubled: number): number {
  return (2 * total) / (share + Math.sqrt(share * share + 8 * total * doubled));
}
