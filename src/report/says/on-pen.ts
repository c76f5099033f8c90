import { figure } from '../figures.js';

/** What the grower's pen shows: `395 ppm` on its scale, `0.79` of one that shows EC. @param mSPerCm at 25 °C @param scale ppm per mS/cm */
export const onPen = (mSPerCm: number, scale: number | null): string =>
  scale === null ? figure(mSPerCm) : figure(Math.round(mSPerCm * scale));

/** `ppm (500 scale)`, `mS/cm`. */
export const penUnit = (scale: number | null): string => (scale === null ? 'mS/cm' : `ppm (${figure(scale)} scale)`);
