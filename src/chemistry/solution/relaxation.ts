/** Ions that carry current. */
export interface Carriers {
  count: number;
  /** mol/L */
  molar: Float64Array;
  charge: Float64Array;
  /** limiting molar conductivity, S·cm²/mol */
  lambda: Float64Array;
  /** ionic strength, mol/L */
  strength: number;
}

/**
 * Share of its velocity that each ion loses to the asymmetry of the cloud around it, per charge² and per unit of (Bjerrum length ·
 * κ/3): [(E − √H) v]ⱼ / vⱼ, with v the velocities in a field and H the matrix of Onsager & Fuoss 1932 (as in Harned & Owen, The
 * Physical Chemistry of Electrolytic Solutions, ch. 4). For a single salt it is Onsager's |z₁z₂| q/(1 + √q) / z².
 */
export function velocityLost({ count, molar, charge, lambda, strength }: Carriers): Float64Array {
  // mobility per force, share of the ionic strength, velocity in a unit field
  const omega = new Float64Array(count);
  const share = new Float64Array(count);
  let power = new Float64Array(count);
  for (let j = 0; j < count; j++) {
    const square = charge[j]! ** 2;
    omega[j] = lambda[j]! / square;
    share[j] = (molar[j]! * square) / (2 * strength);
    power[j] = charge[j]! * omega[j]!;
  }
  const matrix = onsagerMatrix(count, omega, share);
  const velocity = power;
  const lost = power.map((v) => v * SERIES[0]!);
  for (let order = 1; order < SERIES.length; order++) {
    const next = new Float64Array(count);
    for (let j = 0; j < count; j++) {
      let dot = 0;
      for (let i = 0; i < count; i++) dot += matrix[j * count + i]! * power[i]!;
      next[j] = 2 * dot - power[j]!;
      lost[j]! += SERIES[order]! * next[j]!;
    }
    power = next;
  }
  return lost.map((v, j) => v / velocity[j]!);
}

/** H, row by row; its eigenvalues lie between 0 and 1. */
function onsagerMatrix(count: number, omega: Float64Array, share: Float64Array): Float64Array {
  const matrix = new Float64Array(count * count);
  for (let j = 0; j < count; j++) {
    let diagonal = 0;
    for (let i = 0; i < count; i++) {
      const sum = omega[i]! + omega[j]!;
      diagonal += (share[i]! * omega[i]!) / sum;
      matrix[j * count + i]! += (share[i]! * omega[j]!) / sum;
    }
    matrix[j * count + j]! += diagonal;
  }
  return matrix;
}

/** Coefficients of 1 − √((1 + x)/2), so that x = 2H − E gives E − √H; more than twelve change no conductivity by 0.01 %. */
const SERIES = Array.from({ length: 12 }, (_, n) => (n === 0 ? 1 : 0) - binomialHalf(n) * Math.SQRT1_2);

function binomialHalf(n: number): number {
  let value = 1;
  for (let k = 0; k < n; k++) value *= (0.5 - k) / (k + 1);
  return value;
}
