/** What a unit measures. Base units: g, mL, %, mS/cm, drops. */
export type Dimension = 'mass' | 'volume' | 'share' | 'conductivity' | 'drops';

/** One unit: value in base units = written value × times ÷ over (two whole steps keep decimals such as 70 mg exact). */
export interface Unit {
  name: string;
  dimension: Dimension;
  times: number;
  over: number;
}

/** The unit of a name as people write it, in any case and with or without a plural s; undefined when unknown. */
export function unitNamed(text: string): Unit | undefined {
  return BY_NAME.get(key(text));
}

/** Why a name that people do write is not accepted: it means different amounts to different people. */
export function refusedUnit(text: string): { expected: string; fix: string } | undefined {
  const name = key(text);
  return REFUSED.get(name.startsWith('ppm ') ? 'ppm' : name);
}

/** Every name that is understood, for guesses. */
export function unitNames(): string[] {
  return [...BY_NAME.keys()];
}

const US_GALLON = 3785.411784;
const IMPERIAL_GALLON = 4546.09;

/**
 * Sources: international avoirdupois pound 0.45359237 kg and US gallon 231 cubic inches (NIST Handbook 44, appendix C, from
 * memory); imperial gallon 4.54609 L (UK Weights and Measures Act 1985, from memory). Tad, dash, pinch and smidgen: 1/4, 1/8,
 * 1/16 and 1/32 US teaspoon, as spoon sets are sold (from memory).
 */
const TABLE: readonly [name: string, dimension: Dimension, times: number, over: number, aliases: string][] = [
  ['µg', 'mass', 1, 1e6, 'ug,mcg,microgram,microgramme'],
  ['mg', 'mass', 1, 1000, 'milligram,milligramme'],
  ['g', 'mass', 1, 1, 'gram,gramme,gm'],
  ['kg', 'mass', 1000, 1, 'kilogram,kilogramme,kilo'],
  ['oz', 'mass', 28.349523125, 1, 'ounce,avoirdupois ounce,avdp oz,oz wt'],
  ['lb', 'mass', 453.59237, 1, 'pound'],
  ['µL', 'volume', 1, 1000, 'ul,microlitre,microliter'],
  ['mL', 'volume', 1, 1, 'millilitre,milliliter,cc,cm3'],
  ['cL', 'volume', 10, 1, 'centilitre,centiliter'],
  ['dL', 'volume', 100, 1, 'decilitre,deciliter'],
  ['L', 'volume', 1000, 1, 'litre,liter,ltr,dm3'],
  ['m³', 'volume', 1e6, 1, 'm3,cubic metre,cubic meter'],
  ['US gal', 'volume', US_GALLON, 1, 'us gallon,u.s. gal,u.s. gallon,gal us,gal (us),gallon us,gallon (us)'],
  ['US qt', 'volume', US_GALLON, 4, 'us quart'],
  ['US pt', 'volume', US_GALLON, 8, 'us pint'],
  ['US cup', 'volume', US_GALLON, 16, ''],
  ['US fl oz', 'volume', US_GALLON, 128, 'us fluid ounce,us floz,us fl. oz,us fluid oz'],
  ['US tbsp', 'volume', US_GALLON, 256, 'tbsp,tablespoon,us tablespoon'],
  ['US tsp', 'volume', US_GALLON, 768, 'tsp,teaspoon,us teaspoon'],
  ['tad', 'volume', US_GALLON, 768 * 4, ''],
  ['dash', 'volume', US_GALLON, 768 * 8, 'dashe'],
  ['pinch', 'volume', US_GALLON, 768 * 16, 'pinche'],
  ['smidgen', 'volume', US_GALLON, 768 * 32, 'smidgin,smidgeon'],
  ['metric tsp', 'volume', 5, 1, 'metric teaspoon,5 ml spoon'],
  ['metric tbsp', 'volume', 15, 1, 'metric tablespoon'],
  ['imperial gal', 'volume', IMPERIAL_GALLON, 1, 'imperial gallon,imp gal,imp gallon,uk gal,uk gallon'],
  ['imperial qt', 'volume', IMPERIAL_GALLON, 4, 'imperial quart,imp qt,uk quart'],
  ['imperial pt', 'volume', IMPERIAL_GALLON, 8, 'imperial pint,imp pt,uk pint'],
  ['imperial fl oz', 'volume', IMPERIAL_GALLON, 160, 'imperial fluid ounce,imp fl oz,uk fl oz'],
  ['%', 'share', 1, 1, 'percent,per cent,pct'],
  ['mS/cm', 'conductivity', 1, 1, 'ds/m,ms,millisiemens/cm'],
  ['µS/cm', 'conductivity', 1, 1000, 'us/cm,us,umho/cm,umhos/cm,umho,microsiemens/cm'],
  ['drops', 'drops', 1, 1, 'drop'],
];

const BY_NAME: ReadonlyMap<string, Unit> = new Map(
  TABLE.flatMap(([name, dimension, times, over, aliases]) =>
    [name, ...aliases.split(',')]
      .filter((alias) => alias !== '')
      .map((alias): [string, Unit] => [key(alias), { name, dimension, times, over }]),
  ),
);

const which = (us: string, other: string): { expected: string; fix: string } => ({
  expected: `which one: ${us} or ${other}`,
  fix: `Write ${us} or ${other}.`,
});

const REFUSED: ReadonlyMap<string, { expected: string; fix: string }> = new Map([
  ...['gal', 'gallon'].map((n) => [n, which('US gal', 'imperial gal')] as const),
  ...['fl oz', 'fluid ounce', 'floz', 'fl. oz', 'fluid oz'].map(
    (n) => [n, which('US fl oz', 'imperial fl oz')] as const,
  ),
  ...['qt', 'quart'].map((n) => [n, which('US qt', 'imperial qt')] as const),
  ...['pt', 'pint'].map((n) => [n, which('US pt', 'imperial pt')] as const),
  ['cup', { expected: 'a US cup (236.6 mL) or millilitres', fix: 'Write US cup, or the amount in mL.' }],
  [
    'ppm',
    {
      expected: 'parts per million of what',
      fix: 'Write mg/L and name the element (N 90 mg/L), or give a meter reading in mS/cm or with the scale of the pen.',
    },
  ],
  ['ec', { expected: 'a unit of conductivity', fix: 'Write mS/cm (the same as dS/m) or µS/cm.' }],
  ['cf', { expected: 'a unit of conductivity', fix: 'Write mS/cm; 10 CF are 1 mS/cm.' }],
  ['t', { expected: 'tsp or tbsp', fix: 'Write tsp (teaspoon) or tbsp (tablespoon); for tonnes, write kg.' }],
  ['spoon', { expected: 'which spoon', fix: 'Write tsp, tbsp, metric tsp, or the spoon in mL.' }],
  ['scoop', { expected: 'the size of the scoop', fix: 'Write the scoop in mL or tsp.' }],
  ['capful', { expected: 'the size of the cap', fix: 'Write the cap in mL.' }],
]);

function key(text: string): string {
  const plain = text
    .normalize('NFKC')
    .replace(/μ/g, 'u')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .replace(/ ?\/ ?/g, '/')
    .trim()
    .replace(/\.$/, '');
  return plain.length > 2 && plain.endsWith('s') && plain !== 'gls' ? plain.slice(0, -1) : plain;
}
