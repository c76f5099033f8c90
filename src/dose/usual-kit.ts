import type { Kit } from '../catalog/bench-types.js';
import { grams, millilitres } from '../units/index.js';

/** mL of a US teaspoon, by definition. */
const TEASPOON = 3785.411784 / 768;

/** What most kitchens hold (common practice, no source): assumed, and said, where nobody names a kit. */
export const USUAL_KIT: Kit = {
  spoons: [1, 2, 4, 8].map((part) => ({
    label: part === 1 ? '1 US tsp' : `1/${part} US tsp`,
    millilitres: millilitres(TEASPOON / part),
  })),
  scaleStepGrams: grams(0.1),
};

/** Whether a kit names nothing to measure a product with. */
export const isEmptyKit = ({ spoons, scaleStepGrams, syringeMillilitres, dropsPerMillilitre }: Kit): boolean =>
  spoons.length === 0 &&
  scaleStepGrams === undefined &&
  syringeMillilitres === undefined &&
  dropsPerMillilitre === undefined;
