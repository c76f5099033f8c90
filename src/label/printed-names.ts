import type { AnalysisColumn } from './analysis.js';

/** A nutrient as a label prints it: words, with its sign in brackets or alone, and the column that is meant. */
interface PrintedName {
  column: AnalysisColumn;
  pattern: string;
}

/** `(P2O5)`, `[N]`, `as K2O`: a sign beside the words decides what is counted. */
const signed = (sign: string): string =>
  String.raw`(?:\s*[([]\s*(?:(?:expressed\s+)?as\s+)?${sign}\s*[)\]]|,?\s+(?:expressed\s+)?as\s+${sign}\b)`;
const beside = (words: string, sign: string): string => `(?:${words})${signed(sign)}`;
const nitrogen = String.raw`(?:nitrogen|N\b)(?:\s*[([](?:(?:as\s+)?N|NO3-?N?|NH4-?N?|NH2-?N?)[)\]])?`;

/** `N (nitrate)`, `nitrogen, ureic`. */
const ofKind = (words: string): string => `${nitrogen}\\s*(?:\\(\\s*${words}(?:\\s+form)?\\s*\\)|,\\s*${words})`;

/** Longest readings first: what stands further up wins where two begin at the same letter. English words of labels in the US and the EU. */
export const PRINTED_NAMES: readonly PrintedName[] = [
  ...of('NO3-N', [
    `(?:nitrate|nitric)[\\s-]+${nitrogen}`,
    `${nitrogen}\\s+(?:as\\s+)?(?:nitrates?|nitric)`,
    ofKind('(?:nitrate|nitric)'),
    'NO3-?\\s?N\\b',
    'N-?\\s?NO3\\b',
  ]),
  ...of('NH4-N', [
    `(?:ammoniacal|ammonical|ammonium|ammonia|ammonic)[\\s-]+${nitrogen}`,
    `${nitrogen}\\s+(?:(?:as|from)\\s+)?(?:ammoniacal|ammonium)`,
    ofKind('(?:ammoniacal|ammonium)'),
    'NH4-?\\s?N\\b',
    'N-?\\s?NH4\\b',
  ]),
  ...of('urea-N', [
    `(?:urea|ureic|carbamide|amide|amidic)[\\s-]+${nitrogen}`,
    `${nitrogen}\\s+(?:as\\s+)?(?:urea|ureic|carbamide)`,
    ofKind('(?:urea|ureic|carbamide)'),
    '(?:ureic|carbamide|amidic)\\b',
    'N-?\\s?(?:ureic|NH2)\\b',
    'NH2-?\\s?N\\b',
  ]),
  ...of('other-N', [
    `(?:organic|(?:other\\s+)?water[\\s-]+(?:in)?soluble|slowly\\s+available(?:\\s+water[\\s-]+soluble)?|methylene\\s*urea)[\\s-]+${nitrogen}`,
  ]),
  ...of('NO3-N', ['(?<!\\b(?:as|potassium|calcium|magnesium|ammonium|sodium)\\s+)nitrate\\b']),
  ...of('NO3-N', ['nitric\\b(?!\\s+acid)']),
  ...of('NH4-N', ['(?<!\\bas\\s+)(?:ammoniacal|ammonical|ammonium(?!\\s+(?:nitrate|phosph|sul|citrate)))\\b']),
  ...of('urea-N', ['(?<!\\bas\\s+)urea\\b']),
  // `10.5 % as nitrate`, `8 %, as ammonium`: of the nitrogen; `potassium (K) as nitrate` is none
  ...of('NO3-N', ['(?<=[%,(:;]\\s*(?:is\\s+)?as\\s+)nitrate\\b', 'NO3(?![-\\w])']),
  ...of('NH4-N', ['(?<=[%,(:;]\\s*(?:is\\s+)?as\\s+)ammonium\\b', 'NH4(?![-\\w])']),
  ...of('urea-N', ['(?<=[%,(:;]\\s*(?:is\\s+)?as\\s+)urea\\b']),
  ...of('N', [
    `total[\\s-]+${nitrogen}`,
    `${nitrogen}[\\s,(-]*(?:total|tot\\.)\\)?`,
    'nitrogen(?:\\s*[([]N[)\\]])?',
    'N\\b',
  ]),
  ...of('P2O5', [
    beside('(?:available\\s+|total\\s+|soluble\\s+)*phosph[a-z]*(?:\\s+(?:acid|pentoxide|anhydride))?', 'P2O5'),
    'phosph[a-z]*\\s+(?:pent?a?oxide|oxide|anhydride)',
    '(?:(?:available|soluble)\\s+)?phosph(?:ate|oric\\s+acid)',
    'P2O5\\b',
    'phosphate\\b',
  ]),
  ...of('P', ['phosphoro?us(?:\\s*[([]P[)\\]])?', 'P\\b']),
  ...of('K2O', [
    beside('(?:soluble\\s+|total\\s+)*(?:potash|potassium(?:\\s+oxide)?)', 'K2O'),
    'potassium\\s+oxide',
    'soluble\\s+potash',
    'K2O\\b',
    'potash\\b',
  ]),
  ...of('K', ['(?:soluble\\s+)?potassium(?:\\s*[([]K[)\\]])?', 'K\\b']),
  ...oxide('CaO', 'Ca', 'calcium'),
  ...oxide('MgO', 'Mg', 'magnesium'),
  ...of('MgO', ['magnesia(?:\\s*[([]MgO[)\\]])?']),
  ...oxide('SO3', 'S', 'sul(?:f|ph)ur', 'trioxide'),
  ...oxide('Na2O', 'Na', 'sodium'),
  ...oxide('SiO2', 'Si', 'silicon', 'dioxide'),
  ...of('SiO2', ['silica\\b']),
  ...plainly('Cl', 'chlorine|chloride'),
  ...plainly('Fe', 'iron'),
  ...plainly('Mn', 'manganese'),
  ...plainly('Zn', 'zinc'),
  ...plainly('Cu', 'copper'),
  ...plainly('B', 'boron'),
  ...plainly('Mo', 'molybdenum'),
  ...plainly('Co', 'cobalt'),
  ...plainly('Ni', 'nickel'),
];

function of(column: AnalysisColumn, patterns: readonly string[]): PrintedName[] {
  return patterns.map((pattern) => ({ column, pattern }));
}

function oxide(column: AnalysisColumn, element: AnalysisColumn, word: string, kind = 'oxide'): PrintedName[] {
  return [
    ...of(column, [beside(`${word}(?:\\s+${kind})?`, column), `${word}\\s+${kind}`, `${column}\\b`]),
    ...plainly(element, word),
  ];
}

function plainly(column: AnalysisColumn, words: string): PrintedName[] {
  return of(column, [`(?:${words})(?:\\s*[([]\\s*(?:as\\s+)?${column}\\s*[)\\]])?`, `${column}\\b`]);
}
