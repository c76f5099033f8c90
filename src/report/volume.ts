import { figure } from './figures.js';
import { litresText, markText, US_GALLON } from './sheet-page/readings.js';

/**
 * A volume of water as the grower's vessels count it: `4 L`, `750 mL`; whole quarters of a gallon are told in gallons, for nobody writes
 * them in litres: `1 US gal (3.79 L)`.
 */
export const volumeText = (litres: number): string => markText(litres, litres);

const FLUID_OUNCES = 128;

/** A part of a can that holds whole quarters of a US gallon, as its jug counts it: `53 US fl oz (1.57 L)`; null for other cans. */
export function fluidOuncesText(litres: number, can: number): string | null {
  const quarters = (4 * can) / US_GALLON;
  if (Math.abs(quarters - Math.round(quarters)) > 1e-6) return null;
  return `${figure((litres / US_GALLON) * FLUID_OUNCES)} US fl oz (${litresText(litres)})`;
}
