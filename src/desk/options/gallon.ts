import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';

/** Which gallon is meant by a bare one. */
export type Gallon = 'US' | 'imperial';

/** `us` or `imperial`. */
export function parseGallon(text: string, where: Where): Checked<Gallon> {
  if (/^\s*(?:us|u\.s\.|usa|american)(?:\s+gal(?:lons?)?)?\s*$/i.test(text))
    return { ok: true, value: 'US', warnings: [] };
  if (/^\s*(?:imp(?:erial)?|uk|british)(?:\s+gal(?:lons?)?)?\s*$/i.test(text))
    return { ok: true, value: 'imperial', warnings: [] };
  const fix = 'A US gallon is 3.785 L, an imperial one 4.546 L.';
  return refused('gallon', where, `"${text}"`, 'us or imperial', fix);
}

const BARE = /(?<!\b(?:US|U\.S\.|UK|imp(?:erial)?|british)\.?\s*)\bgal(?:lons?)?\b/gi;

/** True where a gallon is named without saying which. */
export const hasBareGallon = (text: string): boolean => text.search(BARE) >= 0;

/** The text with its bare gallons named. */
export const withGallon = (text: string, gallon: Gallon | undefined): string =>
  gallon === undefined ? text : text.replace(BARE, `${gallon} gal`);
