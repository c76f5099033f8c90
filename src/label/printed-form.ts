import type { Analysis } from './analysis.js';
import { packIn } from './printed-pack.js';

/**
 * Powder unless a liquid is told; a liquid's density, and whether its figures are by volume.
 * @param perLitre true where figures of the analysis are printed in g/L
 */
export function formOf(text: string, perLitre: boolean): Pick<Analysis, 'form' | 'basis' | 'density'> {
  const density = densityOf(text);
  const byVolume = perLitre || BY_VOLUME.test(text);
  const byWeight = !byVolume && /\b[wm]\s?\/\s?[wm]\b/i.test(text);
  const liquid =
    byVolume ||
    density !== undefined ||
    LIQUID.test(text) ||
    SOLD_BY_VOLUME.test(text) ||
    packIn(text).sizes.some((size) => size.endsWith('fl oz'));
  return {
    form: liquid ? 'liquid' : 'powder',
    ...(byVolume ? { basis: 'w/v' as const } : liquid && byWeight ? { basis: 'w/w' as const } : {}),
    ...(density === undefined ? {} : { density }),
  };
}

const BY_VOLUME = /\b[wm]\s?\/\s?v\b|\bg\s*(?:\/|per)\s*100\s*ml\b|\bper\s+100\s*ml\b|(?:mass|weight)\s+by\s+volume/i;

const LIQUID =
  /\b(?:liquid|solution|fluid)\s*(?:fertili[sz]er|feed|food|plant|concentrate|seaweed|kelp|\n|$)|^[^\n%]{0,40}\bliquid\b|\bshake\s+(?:well|before)\b|\d\s*ml\s*(?:\/|per|in|to|for\s+each|of\s+\w+\s+(?:per|in))\s*(?:a\s+|each\s+|\d+(?:[.,]\d+)?\s*)?(?:us\s+)?(?:l\b|lit|gal)/im;

/** `Net contents 8 fl oz (237 mL)`. */
const SOLD_BY_VOLUME =
  /\b(?:net(?:\s+(?:contents?|volume|vol))?|contents?|volume)\b[^\n%]{0,25}?\d\s*(?:ml|cl|l|lit(?:re|er)s?|fl\.?\s*oz|fluid\s+ounces?|qt|quarts?|pt|pints?|gal(?:lons?)?)\b/i;

function densityOf(text: string): number | undefined {
  const metric = /(?:density|specific\s+gravity|spec\.?\s*gr(?:avity)?\.?|\bS\.?G\.?)[^\d\n]{0,20}([01][.,]\d+)/i.exec(
    text,
  );
  if (metric) return Number(metric[1]!.replace(',', '.'));
  const pounds = /(\d{1,2}(?:[.,]\d+)?)\s*(?:lbs?|pounds?)\.?\s*(?:\/|per)\s*(?:us\s+)?gal/i.exec(text);
  // the avoirdupois pound in a US gallon; a product whose gallon weighs less than alcohol's is dosed so, it does not weigh so
  const found = pounds
    ? Math.round((Number(pounds[1]!.replace(',', '.')) * 453.59237 * 1000) / 3785.411784) / 1000
    : undefined;
  return found !== undefined && found >= 0.7 && found <= 2 ? found : undefined;
}
