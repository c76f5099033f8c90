import type { Analysis } from './analysis.js';

/** What a text tells of the pack, and not of what is in it. */
export interface PrintedPack {
  /** Sizes in their order, each as an amount: `2 lb`, `946 mL`. */
  sizes: readonly string[];
  /** What the pack costs, and the sign or the code of ISO 4217 that stands beside it; null where none, or more than one, is told. */
  price: { amount: number; currency: string } | null;
  /** All of it, as printed. */
  printed: readonly string[];
}

const NUMBER = String.raw`(?<![\d.,\w-])\d{1,5}(?:[.,]\d{1,3})?`;
const LEAD = String.raw`(?:\b(?:net|gross|wt|weight|contents?|vol(?:ume)?|size|pack(?:age|et)?|of|price|costs?|for|at)\b[ \t.:]*)*@?[ \t]*`;
const VESSEL = String.raw`(?:[ \t-]*\b(?:bags?|bottles?|packs?|pouch|jars?|tubs?|box|jugs?|buckets?|sacks?|net)\b)?`;
const UNIT = String.raw`lbs?|pounds?|kgs?|kilograms?|oz|ounces?|fl\.?[ \t]?oz|fluid[ \t]ounces?|ml|millilit(?:re|er)s?|l|lit(?:re|er)s?|grams?|g|(?:us[ \t]|imp(?:erial)?[ \t])?gal(?:lons?)?|quarts?|qt|pints?|pt`;
/** A rate, a density or a share goes on behind the unit; a size ends there. */
const ENDS = String.raw`(?=\.?[ \t]*(?:$|[,;\n()|\p{Sc}]|[-–—][ \t]|[ \t]\/[ \t]|\.[ \t]|(?:for|at|USD|EUR|GBP)\b|@))(?![ \t]*\/[ \t]*(?:1[ \t]|100[ \t])?[ \t]*(?:l|lit|gal|k?g|m)\b)`;
const SIZE = new RegExp(
  String.raw`(?<=^|[,;\n(|]|[ \t][/–—-])(?<!\d[ \t]*(?:k?g|ml|l|oz|tsp|tbsp|drops?)[ \t]*\/)[ \t]*${LEAD}(${NUMBER})[ \t-]*(${UNIT})\b${VESSEL}${ENDS}`,
  'giu',
);
/** In one short line a size needs no mark before it; grams and volumes do, for figures of an analysis stand in them too. */
const SIZE_IN_LINE = new RegExp(
  String.raw`(?<!\bper[ \t]*)${LEAD}(${NUMBER})[ \t-]*(lbs?|pounds?|kgs?|oz|ounces?)\b${VESSEL}${ENDS}`,
  'giu',
);
const CODE = 'USD|EUR|GBP|CAD|AUD|NZD|CHF|SEK|NOK|DKK|PLN|CZK|JPY|INR|ZAR';
/** Behind it, what is asked for a weight and not for the pack. */
const BY_UNIT = String.raw`(?:[ \t]*(?:\/|per\b|an?\b|each\b)[ \t]*(lbs?|pounds?|kgs?|oz|ounces?|g|l|lit(?:re|er)s?|gal(?:lons?)?)\b)?`;
const MONEY = new RegExp(
  String.raw`${LEAD}(?:(?:((?:\b(?:US|CA|AU|NZ|A|C))?\p{Sc})|\b(${CODE}))[ \t]*(\d{1,6}(?:[.,]\d{1,2})?)|(${NUMBER})[ \t]*(?:(\p{Sc})(?![ \t]*\d)|(${CODE})\b|(dollars?|euros?|pounds[ \t]sterling)\b))${BY_UNIT}`,
  'gu',
);

/** The sizes and the price of the pack in a label's text. */
export function packIn(text: string): PrintedPack {
  const money = [...text.matchAll(MONEY)];
  const sizes = sizesIn(text);
  return {
    sizes: sizes.map((match) => `${match[1]!.replace(',', '.')} ${unitOf(match[2]!)}`),
    price: money.length === 1 && money[0]![8] === undefined ? priceOf(money[0]!) : null,
    printed: [...sizes, ...money].sort((a, b) => a.index - b.index).map(([whole]) => whole.trim()),
  };
}

/** The text without the sizes and prices of packs: their figures are none of the analysis. */
export function withoutPack(text: string): string {
  const bare = text.replace(MONEY, ' ');
  return sizesIn(bare).reduceRight(
    (rest, match) => `${rest.slice(0, match.index)} ${rest.slice(match.index + match[0].length)}`,
    bare,
  );
}

function sizesIn(text: string): RegExpExecArray[] {
  const isLine = text.trim().length <= 100 && !text.trim().includes('\n');
  const strict = [...text.matchAll(SIZE)];
  const more = isLine ? [...text.matchAll(SIZE_IN_LINE)] : [];
  const apart = more.filter((one) => !strict.some((other) => overlap(one, other)));
  return [...strict, ...apart].sort((a, b) => a.index - b.index);
}

const overlap = (a: RegExpExecArray, b: RegExpExecArray): boolean =>
  a.index < b.index + b[0].length && b.index < a.index + a[0].length;

const unitOf = (printed: string): string => {
  const unit = printed.toLowerCase().replace(/\s+/g, ' ');
  const short = SHORT.find(([long]) => long.test(unit));
  return short === undefined ? unit : short[1];
};
const SHORT: readonly (readonly [RegExp, string])[] = [
  [/^(?:lb|pound)/, 'lb'],
  [/^fl/, 'fl oz'],
  [/^o/, 'oz'],
  [/^k/, 'kg'],
  [/^m/, 'mL'],
  [/^l/, 'L'],
  [/^g(?!al)/, 'g'],
];

function priceOf(match: RegExpExecArray): PrintedPack['price'] {
  const amount = Number((match[3] ?? match[4])!.replace(',', '.'));
  const word = match[7];
  const named = word === undefined ? undefined : /^d/.test(word) ? '$' : /^e/.test(word) ? 'EUR' : 'GBP';
  const sign = match[1] ?? match[2] ?? match[5] ?? match[6] ?? named!;
  return { amount, currency: CODES.get(sign) ?? sign };
}

const CODES: ReadonlyMap<string, string> = new Map([
  ['€', 'EUR'],
  ['£', 'GBP'],
  ['₹', 'INR'],
  ['US$', 'USD'],
  ['CA$', 'CAD'],
  ['C$', 'CAD'],
  ['AU$', 'AUD'],
  ['A$', 'AUD'],
  ['NZ$', 'NZD'],
]);

const BY_VOLUME = /(?:fl oz|mL|L|gal(?:lons?)?|quarts?|qt|pints?|pt)$/;

/**
 * The size that tells what a pack of this form holds, and those that do not: a liquid's by volume (or by weight where its density is
 * known), a powder's by weight. A bare fl oz, gallon or quart is the US or the imperial one, which nobody told.
 */
export function sizeFor(
  sizes: readonly string[],
  { form, density }: Pick<Analysis, 'form' | 'density'>,
): string | null {
  const isPlain = (size: string): boolean => !/(?:fl oz|gal(?:lons?)?|quarts?|qt|pints?|pt)$/.test(size);
  const fits = (size: string): boolean => BY_VOLUME.test(size) === (form === 'liquid');
  const plain = sizes.filter(isPlain);
  return plain.find(fits) ?? (form === 'liquid' && density !== undefined ? (plain[0] ?? null) : null);
}
