import { log10, powerOfTen } from '../../units/elementary.js';
import { roundDigits } from '../../units/index.js';

/** Four significant digits, rounded so that the number printed asks no more than the exact one. */
export function roundedTo(x: number, way: 'down' | 'up'): number {
  if (x === 0) return 0;
  const step = powerOfTen(Math.floor(log10(Math.abs(x))) - 3);
  const parts = x / step;
  const near = Math.round(parts);
  // a number that is round already stays as it is
  if (Math.abs(parts - near) <= 1e-6) return tidy(near * step);
  return tidy((way === 'down' ? Math.floor(parts) : Math.ceil(parts)) * step);
}

/** Without the dust that multiplying by a power of ten leaves. */
function tidy(x: number): number {
  return roundDigits(x, 12);
}
