import { markText } from './sheet-page/readings.js';

/**
 * A volume of water as the grower's vessels count it: `4 L`, `750 mL`; whole quarters of a gallon are told in gallons, for nobody writes
 * them in litres: `1 US gal (3.79 L)`.
 */
export const volumeText = (litres: number): string => markText(litres, litres);
