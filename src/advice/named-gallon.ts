/** Whose gallon, quart and pint words mean that name none. */
export type Gallon = 'US' | 'imperial';

const UNNAMED =
  /(?<!\b(?:u\.?s\.?|imp(?:erial)?\.?|uk|british|american)\s*)\b(gallons?|gals?|quarts?|qts?|pints?|pts?)\b(?!\s*\((?:us|uk|imperial)\))/giu;

/** The words with gallons, quarts and pints of the bench where they name no other. */
export const withGallon = (words: string, gallon: Gallon | null | undefined): string =>
  gallon ? words.replace(UNNAMED, (unit) => `${gallon} ${unit}`) : words;
