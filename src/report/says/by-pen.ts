import type { PartByPen } from '../../advice/types.js';
import { amount, figure } from '../figures.js';

/** `Base A: 30 ppm more on the pen (500 scale): 0.21 g/L (0.19 to 0.23), 0.63 g in all; it then shows 151 ppm.` */
export function partByPenSays({ id, name, unit, told, before, after, ...dose }: PartByPen, litres: number): string {
  const { by, ppm, scale } = told;
  const shows = (mSPerCm: number): string =>
    scale === null ? `${figure(mSPerCm)} mS/cm` : `${figure(mSPerCm * scale)} ppm`;
  const reading = scale === null ? shows(told.mSPerCm) : `${figure(ppm!)} ppm`;
  const pen = scale === null ? 'the pen' : `the pen (${scale} scale)`;
  const said = by === 'more' ? `${reading} more on ${pen}` : `until ${pen} shows ${reading}`;
  const perLitre = (x: number): string => figure(x / litres);
  const range = `${perLitre(dose.low)} to ${perLitre(dose.high)}`;
  return `${name || id}: ${said}: ${perLitre(dose.amount)} ${unit}/L (${range}), ${amount(dose.amount, unit)} in all; it shows ${shows(before)} before and ${shows(after)} after.`;
}
