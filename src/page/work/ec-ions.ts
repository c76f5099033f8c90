import { conductivityParts } from '../../chemistry/conductivity.js';
import type { Ions } from '../../chemistry/ions.js';
import { figure } from '../../report/figures.js';
import { formatFixed } from '../../units/index.js';
import type { SumLine } from './sums.js';

/** A conductivity as the sum of what each ion carries, and what of it is told beside. */
export interface EcSum {
  lines: SumLine[];
  total: string;
  microSiemensPerCm: number;
  /** How far the ions slow one another, as one sentence. */
  note: string;
}

type Part = ReturnType<typeof conductivityParts>[number];

/**
 * Ion by ion: mmol/L × charges × equivalent conductivity; its part in µS/cm and its share. Printed parts add up to the printed total, and
 * shares to 100 %: what rounding leaves goes to the parts that lost most.
 */
export function ecSumOf(ions: Ions): EcSum {
  const parts = conductivityParts(ions).sort((a, b) => b.microSiemensPerCm - a.microSiemensPerCm);
  const total = sum(parts.map(carried));
  const told = parts.filter((part) => part.microSiemensPerCm >= LEAST_TOLD * total);
  const rest = sum(parts.slice(told.length).map(carried));
  const carry = [...told.map(carried), ...(rest > 0 ? [rest] : [])];
  const figures = apportioned(carry, 1);
  const shares = apportioned(
    carry.map((one) => (100 * one) / Math.max(total, Number.MIN_VALUE)),
    0,
  );
  const alone = sum(parts.map((part) => part.mmolPerLitre * Math.abs(part.charge) * part.alone));
  const line = (of: string, how: string, i: number): SumLine => ({
    of: `${of}, ${shares[i]} %`,
    how,
    comes: `${figures[i]} µS/cm`,
  });
  return {
    lines: [
      ...told.map((part, i) => line(nameOf(part), howOf(part), i)),
      ...(rest > 0 ? [line('all others', 'each less than half a percent', told.length)] : []),
    ],
    total: `${formatFixed(total, 1)} µS/cm = ${figure(total / 1000)} mS/cm`,
    microSiemensPerCm: total,
    note: `Each ion alone in endless water would carry more, ${figure(alone / 1000)} mS/cm together: the ions around it hold it back, which takes ${figure(100 * (1 - total / Math.max(alone, Number.MIN_VALUE)))} %.`,
  };
}

/** Of the whole; what carries less is told together. */
const LEAST_TOLD = 0.005;

const carried = ({ microSiemensPerCm }: Part): number => microSiemensPerCm;
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

function howOf({ mmolPerLitre, charge, alone, among }: Part): string {
  const charges = Math.abs(charge) === 1 ? '' : ` × ${Math.abs(charge)} charges`;
  return `${figure(mmolPerLitre)} mmol/L${charges} × ${formatFixed(among, 1)} S·cm²/eq (alone ${formatFixed(alone, 1)})`;
}

/** `calcium Ca²⁺`. */
function nameOf({ ion, charge }: Part): string {
  const sign = `${['', '', '²', '³'][Math.abs(charge)] ?? ''}${charge > 0 ? '⁺' : '⁻'}`;
  const formula = [...ion].map((letter) => LOWERED[letter] ?? letter).join('');
  return NAMES[ion] === undefined ? `${formula}${sign}` : `${NAMES[ion]} ${formula}${sign}`;
}

const LOWERED: Readonly<Record<string, string>> = { 2: '₂', 3: '₃', 4: '₄' };

const NAMES: Readonly<Record<string, string>> = {
  H: 'acid',
  OH: 'hydroxide',
  K: 'potassium',
  Ca: 'calcium',
  Mg: 'magnesium',
  Na: 'sodium',
  NH4: 'ammonium',
  NO3: 'nitrate',
  Cl: 'chloride',
  SO4: 'sulfate',
  H2PO4: 'phosphate',
  HPO4: 'phosphate',
  HCO3: 'bicarbonate',
  CO3: 'carbonate',
};

/** Figures of so many decimals that add up to their rounded sum. */
export function apportioned(values: readonly number[], decimals: 0 | 1): string[] {
  const unit = decimals === 0 ? 1 : 10;
  const whole = values.map((value) => Math.floor(value * unit));
  const left = Math.round(sum(values) * unit) - sum(whole);
  const first = values
    .map((value, i) => ({ i, lost: value * unit - whole[i]! }))
    .sort((a, b) => b.lost - a.lost)
    .slice(0, left);
  for (const { i } of first) whole[i]! += 1;
  return whole.map((one) => formatFixed(one / unit, decimals));
}
