import { spelledOut } from '../../units/index.js';

/** What amounts of a product are told in, spoons of every kind included. */
export const MEASURE = String.raw`(?:tea|table)?spoon(?:ful)?s?|tsps?|tbsps?|tbs|grams?|grammes?|milligrams?|kilograms?|kilos?|gms?|kg|mg|g|ounces?|oz|pounds?|lbs?|millilit(?:re|er)s?|mls?|ml|cc|drops?|pinch(?:es)?|dash(?:es)?|smidgens?|tads?|scoop(?:ful)?s?|cap(?:ful)s?|caps?|cups?|fl\.?\s?oz|fluid\s+ounces?`;
const GALLON_KIND = String.raw`(?:u\.?s\.?|imp(?:erial)?\.?|uk|british|american)\s+`;
/** What water is told in. */
export const WATER = String.raw`(?:${GALLON_KIND})?(?:gallons?|gals?|quarts?|qts?|pints?|pts?)(?:\s*\((?:us|uk|imperial)\))?|litres?|liters?|ltrs?|l`;
export const QUALITY = `(?:level|heaped|heaping|rounded|scant|generous|big|small|us|metric|dessert)`;

const UNIT = `(?:${QUALITY}\\s+)*(?:${MEASURE}|${WATER})(?![\\p{L}\\d])`;
const CARDINALS = 'one two three four five six seven eight nine ten eleven twelve'.split(' ');
/** Numbers that are told in words. */
export const TENS: ReadonlyMap<string, number> = new Map([
  ...CARDINALS.map((word, i): [string, number] => [word, i + 1]),
  ['fifteen', 15],
  ['twenty', 20],
  ['thirty', 30],
  ['fifty', 50],
  ['a hundred', 100],
  ['a couple of', 2],
  ['a dozen', 12],
]);
export const CARDINAL = [...TENS.keys()].sort((a, b) => b.length - a.length).join('|');
/** Parts of a spoon or a litre that are told in words. */
export const PARTS: ReadonlyMap<string, string> = new Map([
  ['half', '1/2'],
  ['third', '1/3'],
  ['quarter', '1/4'],
  ['fourth', '1/4'],
  ['eighth', '1/8'],
  ['tenth', '1/10'],
]);
const PART = [...PARTS.keys()].join('|');

/**
 * Numbers in words before a unit as figures: `half a teaspoon` → `1/2 teaspoon`, `one and a half teaspoons` → `1 1/2 teaspoons`, `three
 * quarters of a litre` → `3/4 litre`, `two grams` → `2 grams`. Words that count anything else stay as they are.
 */
export function inFigures(text: string): string {
  const number = (word: string): string => String(TENS.get(word.toLowerCase()) ?? word);
  const many = (word: string, part: string): string => PARTS.get(part.toLowerCase())!.replace(/^1/, number(word));
  const before = (pattern: string): RegExp => new RegExp(`(?<![\\p{L}\\d/.-])${pattern}(?=${UNIT})`, 'giu');
  return spelledOut(text)
    .replace(/[’‘]/g, "'")
    .replace(/\s+/g, ' ')
    .replace(/\b(tea|table)spoonful(s?)\b/gi, '$1spoon$2')
    .replace(
      before(`(${CARDINAL}|\\d+) and (?:an?|one) (${PART})\\s+(?:of an? )?`),
      (_, n: string, part: string) => `${number(n)} ${PARTS.get(part.toLowerCase())} `,
    )
    .replace(
      before(`(two|three|five|seven|2|3|5|7)[ -](${PART})s?\\s+(?:of )?(?:an? |one )?`),
      (_, n: string, part: string) => `${many(n, part)} `,
    )
    .replace(
      before(`(?:an? |one )?(${PART})[ -](?:of )?(?:an? |one )?`),
      (_, part: string) => `${PARTS.get(part.toLowerCase())} `,
    )
    .replace(before(`(\\d+/\\d+) (?:of )?(?:an? |one )`), '$1 ')
    .replace(before(`(${CARDINAL})\\s+`), (_, n: string) => `${number(n)} `);
}

/** When in the year. */
export const SEASONS: string = String.raw`\b(?:in|during|through|all)\s+(?:the\s+)?(?:early |late )?(?:spring|summer|autumn|fall|winter|growing season|growth|active growth)\b|\b(?:all year round|all year|year round|as a one[- ]off|now and then|from time to time)\b`;

/** How often, and when: it says nothing of the strength of one can. */
export const HOW_OFTEN = new RegExp(
  [
    String.raw`\b(?:once|twice|(?:\d+|two|three|four)\s+times)\s+(?:an?|per|every|each)\s+(?:(?:\d+|two|three|second|other)\s+)?(?:days?|weeks?|months?|years?|waterings?|fortnight)\b`,
    String.raw`\b(?:at |with |on )?(?:every|each)\s+(?:(?:\d+\s*(?:-|to)\s*\d+|\d+(?:nd|rd|th)?|two|three|four|second|third|fourth|other|single)\s+)?(?:days?|weeks?|months?|waterings?|feeding|time|fortnight|year)\b`,
    String.raw`\b(?:bi-?)?(?:weekly|monthly)\b|\bfortnightly\b|\bdaily\b|\b(?:a|per)\s+(?:week|month|day|fortnight|year|watering)\b`,
    SEASONS,
  ].join('|'),
  'gi',
);

/** The kind of a water, with the word water behind it where one stands. */
export const WATER_NAME = String.raw`(?:(?:clean|fresh|lukewarm|warm|plain|pure|cold|room[- ]temperature|your|my|the)\s+)*(?:(?:ro|r\.o\.|r\/o|reverse[- ]osmosis|osmosis|rain|tap|distilled|deioni[sz]ed|demineralised|demineralized|di|soft(?:ened)?|hard|well|filtered|spring|mains|barrel|roof)\s+(?:or\s+(?:rain|distilled|ro)\s+)?water|rain-?water|water|ro|rain)(?![\p{L}\d])`;
