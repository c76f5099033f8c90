import type { Nutrient } from '../chemistry/nutrients.js';
import { readPenScale } from '../units/index.js';
import type { PenScaleNamed } from './types.js';

/** Words of advice on feeding, as patterns; all are tried without regard to case. */
export const NUMBER = String.raw`(?:\d+\s+\d+\s*\/\s*\d+|\d+\s*\/\s*\d+|\d+(?:[.,]\d+)*|[.,]\d+)`;
export const RANGE = String.raw`(?<from>${NUMBER})(?:\s*(?:-|–|—|to)\s*(?<to>${NUMBER}))?`;

export const GRADE =
  /(?<![\d.-]|\d,)(?<n>\d{1,2}(?:[.,]\d+)?)\s?(?<elemental>N)?\s?[-–]\s?(?<p>\d{1,2}(?:[.,]\d+)?)\s?P?\s?[-–]\s?(?<k>\d{1,2}(?:[.,]\d+)?)\s?K?(?<more>(?:\s?[-+]\s?\d{1,2}(?:[.,]\d+)?\s?(?:Ca|Mg|S)\b)*)(?![\d.-]|,\d)/i;

const SHARE_WORDS: ReadonlyMap<string, number> = new Map([
  ['full', 1],
  ['half', 1 / 2],
  ['quarter', 1 / 4],
  ['three quarter', 3 / 4],
  ['third', 1 / 3],
  ['fifth', 1 / 5],
  ['sixth', 1 / 6],
  ['eighth', 1 / 8],
  ['tenth', 1 / 10],
  ['double', 2],
]);
const SHARE_NAMES = [...SHARE_WORDS.keys()]
  .sort((a, b) => b.length - a.length)
  .join('|')
  .replaceAll(' ', '[ -]');

/** `quarter strength`, `1/4-strength`, `at 25 % of full strength`, `half the label rate`. */
export const SHARE = new RegExp(
  String.raw`\b(?:at\s+)?(?:an?\s+|one[ -])?(?:(?<word>${SHARE_NAMES})s?|(?<number>${NUMBER})\s*(?<percent>%|per\s?cent)?)[ -]*(?:(?:of\s+)?(?:the\s+|its\s+)?(?:full|label|recommended|usual|normal)?[ -]*(?:strength|label rate|recommended rate|rate|dose))(?:\s+of)?\b`,
  'i',
);

/** The factor that a word of strength stands for. */
export const shareOfWord = (word: string): number => SHARE_WORDS.get(word.toLowerCase().replace('-', ' '))!;

const GALLON_KIND = String.raw`(?:u\.?\s?s\.?|imp(?:erial)?\.?|uk)\s+`;
export const WATER_UNIT = String.raw`(?:${GALLON_KIND})?(?:gallons?|gals?|quarts?|qts?|pints?|pts?)\b(?:\s*\(us\))?|litres?\b|liters?\b|ltrs?\b|l\b|millilit(?:re|er)s?\b|ml\b|m3\b|m³`;
/** `1/4 tsp per US gal`, `2 g/L`, `1 tbsp per 5 gal`, `5 mL to the litre`. */
export const RATE = new RegExp(
  String.raw`${RANGE}\s*(?!mg\s*(?:\/|per))(?<unit>[a-zµ][a-zµ. ]*?)\s*(?:\/|\b(?:per|in|into|to|an?)\b)\s*(?:an?\s+|the\s+|each\s+|every\s+)?(?<count>${NUMBER})?\s*(?<per>${WATER_UNIT})`,
  'i',
);

const EC_UNIT = String.raw`(?:(?<milli>(?:m\s?S(?:iemens)?|milli\s?siemens)(?:\s*(?:\/|per)\s*cm\b)?|dS(?:\s*(?:\/|per)\s*m\b)?)|(?<micro>(?:[µu]\s?S|micro\s?siemens|[µu]mhos?)(?:\s*(?:\/|per)\s*cm\b)?))`;
export const CONDUCTIVITY = new RegExp(
  String.raw`(?:\bEC\b\s*(?:of|=|:|at)?\s*)?${RANGE}\s*${EC_UNIT}(?![a-z])(?:\s*EC\b)?`,
  'i',
);
export const BARE_EC = new RegExp(
  String.raw`\bEC\b\s*(?:of|=|:|at)?\s*${RANGE}|${RANGE.replaceAll('from', 'from2').replaceAll('to>', 'to2>')}\s*EC\b`,
  'i',
);
export const CF = new RegExp(
  String.raw`\bCF\b\s*(?:of|=|:|at)?\s*${RANGE}|${RANGE.replaceAll('from', 'from2').replaceAll('to>', 'to2>')}\s*CF\b`,
  'i',
);

/** Nutrients as advice names them, with the mg of nutrient in one mg of what is named left to the reader. */
export const NUTRIENT_WORDS: ReadonlyMap<string, { as: Nutrient; written: string }> = new Map(
  (
    [
      ['n', 'N', 'N'],
      ['nitrogen', 'N', 'N'],
      ['p', 'P', 'P'],
      ['phosphorus', 'P', 'P'],
      ['p2o5', 'P', 'P2O5'],
      ['k', 'K', 'K'],
      ['potassium', 'K', 'K'],
      ['k2o', 'K', 'K2O'],
      ['potash', 'K', 'K2O'],
      ['ca', 'Ca', 'Ca'],
      ['calcium', 'Ca', 'Ca'],
      ['mg', 'Mg', 'Mg'],
      ['magnesium', 'Mg', 'Mg'],
    ] as const
  ).map(([word, as, written]) => [word, { as, written }]),
);
const NUTRIENT = [...NUTRIENT_WORDS.keys()].sort((a, b) => b.length - a.length).join('|');
const PPM = String.raw`(?:p\.?p\.?m\.?|mg\s*(?:\/|per)\s*(?:l|litre|liter)\b)`;
/** `125 ppm N`, `125 mg/L of nitrogen`, `N 125 ppm`, `200 ppm TDS`, `200 ppm`. */
export const PARTS = new RegExp(
  String.raw`(?:\b(?<tds1>TDS)\b\s*(?:of|=|:|at)?\s*|\b(?<before>${NUTRIENT})\b\s*(?:of|=|:|at)?\s*)?${RANGE}\s*${PPM}(?:\s*(?:of\s+|as\s+)?(?:(?<tds2>TDS|dissolved solids)|(?<after>${NUTRIENT}))(?![a-z0-9]))?`,
  'i',
);
export const BARE_TDS = new RegExp(
  String.raw`\bTDS\b\s*(?:of|=|:|at)?\s*${RANGE}|${RANGE.replaceAll('from', 'from2').replaceAll('to>', 'to2>')}\s*TDS\b`,
  'i',
);

/** `on a 500 pen`, `(500 scale)`, `0.7 conversion`, `NaCl scale`, `442`. */
export const SCALE =
  /\b(?:(?:on|with|at|by)\s+)?(?:an?\s+|the\s+)?(?:(?:scale|factor|conversion)\s*(?:of\s+)?(?<named1>500|640|700|0?[.,]5|0?[.,]64|0?[.,]7|442|NaCl|KCl)\b|(?<named2>500|640|700|0?[.,]5|0?[.,]64|0?[.,]7|442|NaCl|KCl)[ -]*(?:ppm[ -]*)?(?:(?:scale|factor|conversion|tds)[ -]*)?(?:scale|pen|meter|metre|factor|conversion)\b)|\b(?:on\s+)?(?<named3>NaCl|KCl)\b|\b(?:(?:on|by|with)\s+)?(?:an?\s+|the\s+)?(?<unknown>(?:tds[ -])?(?:pen|meter))(?:\s+(?:reads?|reading|says|shows))?\b/i;

/**
 * The scale of a pen. 1413 µS/cm (0.01 M KCl at 25 °C) reads 702 ppm on a NaCl scale, 745 on KCl and 1000 on the "442" scale in two meter
 * manuals; pens round to 0.5, 0.64 and 0.7.
 */
export function scaleNamed(name: string): PenScaleNamed {
  const point = (ppm: number): number => ppm / 1.413;
  const key = name.toLowerCase();
  if (key === 'nacl') return { name: 'NaCl scale', ppmPerMilliSiemens: { low: point(702), high: 500 } };
  if (key === 'kcl') return { name: 'KCl scale', ppmPerMilliSiemens: { low: point(745), high: point(745) } };
  if (key === '442') return { name: '442 scale', ppmPerMilliSiemens: { low: 700, high: point(1000) } };
  const read = readPenScale(key);
  if (!read.ok || read.value === null) throw new Error(`no scale of a pen: ${name}`);
  const scale = read.value;
  return { name: `${scale} scale`, ppmPerMilliSiemens: { low: scale, high: scale } };
}

/** Words that carry nothing for the strength. */
export const FILLERS =
  /\b(?:i(?:['’]d)?|we(?:['’]d)?|would|like|want|using|cal?[- ]?mag|ca[- ]mg|water[- ]soluble|soluble|balanced|complete|orchids?|fertili[sz]ers?|ferts?|feeds?|food|solution|nutrients?|waterings?|water|weekly|weakly|always|constantly?|growing|season|dilute(?:d)?|mix(?:ed)?|about|approx(?:imately)?|around|roughly|level|use|give|every|each|week|day|time|the|your|my|our|keep|stay|hold|them|they|it|that|run|aim|target|go|should|be|do|please|just|try|feeding|fed|(?:ro|r\/o|reverse[- ]osmosis|rain|tap|distilled|deioni[sz]ed|demineralised|demineralized|soft|hard|well|pure|filtered|spring)\s+water|rainwater)\b|~|≈/gi;
/** Words that only join. */
export const JOINTS = /\b(?:of|an?|the|at|in|with|to|for|is|and|on|from|as|per|by)\b|[.,;:()!"'=@/-]/gi;

/** Known words, for the nearest meaning of one that is not. */
export const KNOWN_WORDS: readonly string[] = [
  ...SHARE_WORDS.keys(),
  ...['strength', 'label', 'rate', 'ppm', 'TDS', 'scale', 'pen', 'meter', 'EC', 'CF', 'mS/cm', 'µS/cm', 'mg/L'],
  ...[
    'tsp',
    'teaspoon',
    'tbsp',
    'tablespoon',
    'gallon',
    'litre',
    'nitrogen',
    'phosphorus',
    'potassium',
    'powder',
    'liquid',
  ],
];
