import type { Product } from '../label/product.js';
import { nearest } from '../problem.js';

/** Who may be meant by a name: one product, or several that answer to it equally well. */
export interface Named<P> {
  found: P[];
  /** Products that answer less fully, or are not on the shelf. */
  others: P[];
}

/**
 * The product that words name: its id or whole name, blind to case, spaces and dashes, that on the shelf before others; else the one of which the words are a part
 * (`calcium-magnesium`), on the shelf before the catalog, and the fuller match before the others. An element alone (`calcium`) is no part of
 * a name, nor are words that any feed may be called by.
 */
export function productNamed<P extends Product>(
  name: string,
  products: readonly P[],
  onShelf: ReadonlySet<string> = new Set(),
): Named<P> {
  const wanted = tidy(name);
  const own = products.filter((p) => onShelf.has(p.id) && [p.id, p.name].some((text) => tidy(text) === wanted));
  const exact = products.filter((p) => p.id === name || (own.length === 0 && tidy(p.id) === wanted));
  if (exact.length > 0) return { found: exact.slice(0, 1), others: [] };
  if (own.length > 0) return { found: own, others: [] };
  const called = products.filter((p) => tidy(p.name) === wanted);
  if (called.length > 0) return { found: called, others: [] };
  const part = tokensOf(name);
  if (!isTelling(part)) return { found: [], others: [] };
  const ranked = products
    .map((product) => ({ product, full: fullness(part, product), shelved: onShelf.has(product.id) }))
    .filter(({ full }) => full > 0)
    .sort((a, b) => Number(b.shelved) - Number(a.shelved) || b.full - a.full);
  const [best] = ranked;
  const isBest = (r: (typeof ranked)[number]): boolean => r.shelved === best?.shelved && r.full === best.full;
  return {
    found: ranked.filter(isBest).map(({ product }) => product),
    others: ranked.filter((r) => !isBest(r)).map(({ product }) => product),
  };
}

/** Ids of the products whose id or name, or a part of it as long, is nearest to what was written. */
export function productsNear(name: string, products: readonly Product[]): string[] {
  const count = Math.max(1, tokensOf(name).length);
  const owners = new Map<string, string>();
  for (const { id, name: called } of products)
    for (const text of [id, called])
      for (const run of [text.toLowerCase(), ...runsOf(tokensOf(text), count)])
        if (!owners.has(run) && (run === text.toLowerCase() || isTelling(run.split(' ')))) owners.set(run, id);
  const written = name.length > 60 ? [] : [name, tokensOf(name).join(' ')];
  const guesses = written.flatMap((text) => nearest(text, owners.keys(), 5).map((run) => owners.get(run)!));
  return [...new Set(guesses)].slice(0, 3);
}

/** Products of the shelf whose name tells a grade (`20-20-20`). */
export function productsOfGrade<P extends Product>(
  grade: string,
  products: readonly P[],
  onShelf: ReadonlySet<string> = new Set(),
): P[] {
  const bare = (text: string): string => text.replace(/\s+/g, '').replace(/–/g, '-');
  const telling = new RegExp(`(?<![\\d.-])${bare(grade).replace(/[.+]/g, '\\$&')}(?![\\d.-])`);
  return products.filter(({ id, name }) => onShelf.has(id) && telling.test(bare(name)));
}

/** True where the words are nothing but the name of an element, an ion or an oxide. */
export const isElement = (name: string): boolean => ELEMENTS.has(tidy(name));

const tidy = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** Words of a name without what only joins; cal-mag is what the trade calls calcium and magnesium. */
const tokensOf = (name: string): string[] =>
  name
    .toLowerCase()
    .replace(/\bcal[\s-]?mag\b/g, 'calcium magnesium')
    .replace(SHORT, (word) => LONG.get(word)!)
    .replaceAll('sulph', 'sulf')
    .replace(/\bsalts\b/g, 'salt')
    .split(/[^\p{L}\p{N}.]+/u)
    .filter((token) => token !== '' && !/^(?:and|of|the|with)$/.test(token));

/** Salts by the formulas and letters that the trade uses. */
const LONG: ReadonlyMap<string, string> = new Map([
  ['kno3', 'potassium nitrate'],
  ['saltpetre', 'potassium nitrate'],
  ['saltpeter', 'potassium nitrate'],
  ['mkp', 'monopotassium phosphate'],
  ['kh2po4', 'monopotassium phosphate'],
  ['map', 'monoammonium phosphate'],
  ['dap', 'diammonium phosphate'],
  ['mgso4', 'magnesium sulfate'],
  ['k2so4', 'potassium sulfate'],
  ['epsoms', 'epsom salt'],
  ['cal nitrate', 'calcium nitrate'],
  ['mag nitrate', 'magnesium nitrate'],
  ['mag sulfate', 'magnesium sulfate'],
]);
const SHORT = new RegExp(`(?<![\\p{L}\\d])(?:${[...LONG.keys()].join('|')})(?![\\p{L}\\d])`, 'gu');

const runsOf = (tokens: readonly string[], count: number): string[] =>
  tokens.slice(0, Math.max(0, tokens.length - count + 1)).map((_, i) => tokens.slice(i, i + count).join(' '));

/** How much of an id or a name the words are, from 0 (no part) to 1. */
const fullness = (part: readonly string[], { id, name }: Product): number =>
  Math.max(
    ...[id, name].map(tokensOf).map((tokens) => {
      const isPart = runsOf(tokens, part.length).includes(part.join(' '));
      return isPart ? part.length / tokens.length : 0;
    }),
  );

/** Whether words tell one product from others. */
const isTelling = (part: readonly string[]): boolean =>
  part.some((token) => /\p{L}{3}/u.test(token) || part.length > 1) &&
  part.some((token) => /\p{L}/u.test(token) && !ANY_FEED.has(token)) &&
  !ELEMENTS.has(part.join(' '));

const ANY_FEED = new Set(
  'fertilizer fertiliser fert ferts feed feeds food solution nutrient nutrients water orchid orchids plant plants liquid powder soluble balanced product part parts salt'.split(
    ' ',
  ),
);
const ELEMENTS = new Set(
  'n p k s ca mg na cl fe mn zn cu b mo si nitrogen nitrate ammonium phosphorus phosphate p2o5 potassium potash k2o calcium cao magnesium mgo sulfur sulphur sulfate sulphate sodium chlorine chloride iron manganese zinc copper boron molybdenum silicon silica no3 nh4'.split(
    ' ',
  ),
);
