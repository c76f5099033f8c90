import { atDoor } from '../../door.js';
import type { PartByPen } from '../../advice/types.js';
import type { StepOfPen } from '../../sheet/sheet-types.js';
import { formatFixed } from '../../units/format.js';
import { amount, figure } from '../figures.js';

/** `Base Powder B: 30 ppm more on the pen (500 scale): 0.21 g/L (0.19 to 0.23), 0.63 g in all; it then shows 151 ppm.` */
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

/** What to do at a step of a can that is dosed by the pen. */
export function stepByPenSays(step: StepOfPen, form: 'powder' | 'liquid' = 'powder'): string {
  if (step.by === 'measure') return `By measure: ${WHY_MEASURED[step.why]}.`;
  const { until, tolerance, unit } = step;
  const at = (x: number): string => formatFixed(x, unit === 'ppm' ? 0 : 2);
  return `Stir until it is wholly clear, dip, add a ${form === 'powder' ? 'pinch' : 'drop'}, stir: ${at(until - tolerance)} to ${at(until + tolerance)} ${unit} will do.`;
}

const WHY_MEASURED: Readonly<Record<Extract<StepOfPen, { by: 'measure' }>['why'], string>> = {
  'does not conduct': 'a pen does not see it',
  organic: 'what a pen shows of it is not told by its label',
  'too little': 'it is too little for a pen to tell',
};

/** What a grower has to know before a can is dosed by the pen. */
export const byPenSays = (water: string): string =>
  atDoor({
    typed: `By the pen: all the water first, then each item until the pen shows its figure; what one step is off the next makes good. If your water alone does not read ${water}, add the difference to every figure, or say --reading-of-water.`,
    page: `By the pen: all the water first, then each item until the pen shows its figure; what one step is off the next makes good. If your water alone does not read ${water}, add the difference to every figure.`,
  });
