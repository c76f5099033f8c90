import type { Checked } from '../problem.js';
import { Refusal } from '../problem.js';
import { readWish } from './options/read-wish.js';
import { shippedCatalog } from './shipped-catalog.js';
import { waterLike } from './start/water-like.js';

/** The usual water that reads most like what a pen shows of the plain water. */
export interface WaterByPen {
  /** As `water: { use: … }` of bench.yaml names it. */
  id: string;
  name: string;
  /** What the pen showed and what that water reads, mS/cm at 25 °C. */
  mSPerCm: number;
  readsMSPerCm: number;
}

/**
 * @param reading `120 ppm`, `240 µS`, or a bare number as the pen prints it
 * @param scale ppm per mS/cm of the pen; null for one that shows EC, or where nobody said
 * @throws Refusal where it is no reading of a water
 */
export function waterByPen(reading: string, scale: number | null): WaterByPen {
  const read: Checked<number> = readWish('readingOfWater', reading, { scale });
  if (!read.ok) throw new Refusal(read.problems);
  const { id, name, reads } = waterLike(read.value, shippedCatalog());
  return { id, name, mSPerCm: read.value, readsMSPerCm: reads };
}
