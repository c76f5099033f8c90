import { NINETY } from '../chance/deviates.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { usualPen } from '../dose/by-pen.js';
import { hypot } from '../units/elementary.js';

const PEN = usualPen(null);

/**
 * Relative standard deviations that a reading has even when nobody made a mistake. A pen is good to ±2 % (common practice: what leaflets
 * print), half of its variance the same for all readings of one pen, half new with each dip.
 */
export const SPREADS = {
  /** The same for every reading of this pen. */
  penCommon: PEN.common,
  /** New with each dip. */
  penEach: PEN.each,
  /** Half of the last digit, mS/cm. */
  lastDigit: 0.005,
  /** The conductivity model: 1 % against published tables. */
  model: 0.01,
  /** Water filled to a mark: 2 % (common practice, no source). */
  water: 0.02,
} as const;

/** Pure salts of horticultural grade hold 98 % or more: 1 % sd, from memory. */
const GRADE = 0.01;
/** Labels guarantee minimums and are rounded down: 1.5 % sd at least, from memory. */
const LABEL = 0.015;

/** Relative sd of what a gram or mL of a product adds to a reading, beside what its label says. */
export function labelSpread(product: ClosedProduct): number {
  if (product.ec !== undefined) return GRADE;
  const ions = product.ions;
  if (ions.from === 'formula') return GRADE;
  const bare = conductivity(NONE);
  const { leastConductive, mostConductive } = ions.usual ?? ions;
  const [value, low, high] = [ions.value, leastConductive, mostConductive].map((i) => conductivity(i) - bare);
  const open = value! > 1e-6 ? Math.abs(high! - low!) / (2 * NINETY * value!) : 0;
  // the range by named salts comes from allowances, and so from the same guarantees; without them it is about counter-ions
  return Math.min(0.25, ions.from === 'sources' ? Math.max(LABEL, open) : hypot(LABEL, open));
}

/** Narrower than this, as a share, a label leaves nothing open that a pen would tell. */
const TOLD = 0.03;

/**
 * What a product conducts at the ends of what its label leaves open, as factors on what is likeliest. Null where the label names its salts, where
 * it was measured, or where nothing is left open.
 */
export function labelConducts({ ec, ions }: Pick<ClosedProduct, 'ec' | 'ions'>): { low: number; high: number } | null {
  if (ec !== undefined || ions.from !== 'label alone') return null;
  const bare = conductivity(NONE);
  const [value, ...ends] = [ions.value, ions.leastConductive, ions.mostConductive].map((i) => conductivity(i) - bare);
  if (!(value! > 1e-6)) return null;
  const [low, high] = [Math.max(0.3, Math.min(value!, ...ends) / value!), Math.max(value!, ...ends) / value!];
  return high - low > TOLD ? { low, high } : null;
}
