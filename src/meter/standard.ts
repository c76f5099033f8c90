import { solutionChemistry } from '../chemistry/solution/index.js';
import { PER_DEGREE } from './batch.js';

/** A pen dipped into a standard solution. */
export interface StandardTrial {
  /** What the bottle says, mS/cm at 25 °C. */
  standard: number;
  /** What the pen shows: mS/cm, or ppm where it has a scale. */
  reads: number;
  /** ppm per mS/cm; null for a pen that shows EC. */
  scale: number | null;
  temperatureC: number | null;
  compensates: boolean | null;
}

/** How a pen stands; `calibrate` where it is off by up to 10 %, `clean or replace` beyond. */
export type PenCheck = PenFigures &
  ({ verdict: 'fine' } | { verdict: 'calibrate' | 'clean or replace'; suspects: Suspect[] });

interface PenFigures {
  /** What the pen should show, in its own unit. */
  shouldRead: number;
  /** Multiply a reading by it. */
  factor: number;
  /** Share by which the pen is off; positive reads too high. */
  off: number;
  /** True where the bottle says potassium chloride by its value, so that its own temperature table was used. */
  byTable: boolean;
}

/** Another explanation that fits the reading within 2 %. */
export type Suspect =
  /** A pen on another ppm scale. */
  | { kind: 'scale'; name: string }
  /** A pen said to show EC shows thousands of ppm. */
  | { kind: 'thousands of ppm'; scale: number }
  | { kind: 'no temperature correction' };

/** Leaflets print ±2 % (common practice, no source); beyond a tenth a calibration screw runs out and the electrodes are dirty (from memory). */
const FINE = 0.02;
const CALIBRATE = 0.1;

/** Judges a pen by a standard of known conductivity. */
export function checkPen({ standard, reads, scale, temperatureC, compensates }: StandardTrial): PenCheck {
  const chloride = chlorideOf(standard);
  const at = temperatureC === null ? 1 : warmthOf(chloride, temperatureC);
  const unit = scale ?? 1;
  const truth = standard * unit * (compensates === false ? at : 1);
  const off = reads / truth - 1;
  const figures = { shouldRead: truth, factor: truth / reads, off, byTable: chloride !== null };
  if (Math.abs(off) <= FINE) return { ...figures, verdict: 'fine' };
  const near = (expected: number): boolean => Math.abs(reads / expected - 1) <= FINE;
  const scales = suspectScales(scale, (ppmPerMilliSiemens) => near(standard * ppmPerMilliSiemens));
  const uncorrected = temperatureC !== null && compensates !== false && near(standard * unit * at);
  const suspects = [...scales, ...(uncorrected ? [{ kind: 'no temperature correction' } as const] : [])];
  return { ...figures, verdict: Math.abs(off) <= CALIBRATE ? 'calibrate' : 'clean or replace', suspects };
}

/** Scales other than the one that was said on which the pen would show this. */
function suspectScales(said: number | null, fits: (ppmPerMilliSiemens: number) => boolean): Suspect[] {
  if (said === null)
    return [500, 640, 700].filter((scale) => fits(scale / 1000)).map((scale) => ({ kind: 'thousands of ppm', scale }));
  return SCALES.filter(([, scale]) => Math.abs(scale / said - 1) > 0.02 && fits(scale)).map(([name]) => ({
    kind: 'scale',
    name,
  }));
}

/** Standards sold for pens are potassium chloride: mS/cm at 25 °C and mmol/L (CRC, Standard Methods 2510). */
const CHLORIDES: readonly (readonly [mSPerCm: number, mmolPerLitre: number])[] = [
  [0.0842, 0.56],
  [0.1469, 1],
  [0.447, 3.1],
  [0.7175, 5],
  [1.413, 10],
  [2.765, 20],
  [12.88, 100],
];

/** The strength of the chloride standard of that value, mmol/L; null for another value. */
function chlorideOf(standard: number): number | null {
  return CHLORIDES.find(([value]) => Math.abs(value / standard - 1) < 0.005)?.[1] ?? null;
}

/** What the standard conducts at a temperature, as a share of 25 °C: by the model for potassium chloride, else 2 % per degree. */
function warmthOf(chloride: number | null, celsius: number): number {
  if (chloride === null) return 1 + PER_DEGREE * (celsius - 25);
  const { ec, ec25 } = solutionChemistry({ K: chloride, Cl: chloride }, { temperatureC: celsius });
  return ec / ec25;
}

/**
 * ppm per mS/cm of the scales in use. The straight ones multiply; the curved ones are as at 1413 µS/cm, which reads 702 on a sodium chloride
 * scale, 745 on potassium chloride and 1000 on the 442 scale (two meter manuals).
 */
export const SCALES: readonly (readonly [name: string, ppmPerMilliSiemens: number])[] = [
  ['500', 500],
  ['640', 640],
  ['700', 700],
  ['sodium chloride', 702 / 1.413],
  ['potassium chloride', 745 / 1.413],
  ['442', 1000 / 1.413],
];
