import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';

/** What to take care of, with the ids of the products that call for it; the words stand in the report. */
export type Caution =
  | { code: (typeof GENERAL)[number] | 'label-first' | 'copper-in-bromeliads' | 'carnivorous-roots' }
  | { code: keyof typeof SPECIFIC; items: string[] }
  | { code: 'alkali-beside-ammonium'; alkalis: string[]; ammonium: string[] };

/**
 * The cautions that these very products and groups of plants call for, then the general ones; most pressing first.
 * Transport class of nitrates, the double salt's exemption, acids, ammonium and copper in bromeliads: handbook and trade
 * knowledge, from memory. They defer to the label and to local rules.
 * @param plants ids of the catalog
 */
export function cautionsFor(products: readonly ClosedProduct[], ...plants: readonly string[]): Caution[] {
  const specific = (Object.keys(SPECIFIC) as (keyof typeof SPECIFIC)[]).flatMap((code): Caution[] => {
    const items = idsOf(products, SPECIFIC[code]);
    return items.length === 0 ? [] : [{ code, items }];
  });
  return [
    { code: 'label-first' },
    ...specific,
    ...besideEachOther(products),
    ...plantCautions(products, plants),
    ...GENERAL.map((code): Caution => ({ code })),
  ];
}

/** The cautions of several feeds as one list: each once, with the products of all of them, in the same order. */
export function inOneList(lists: readonly (readonly Caution[])[]): Caution[] {
  const all = lists.flat();
  return ORDER.flatMap((code) => {
    const [first, ...others] = all.filter((caution) => caution.code === code);
    return first === undefined ? [] : [others.reduce(together, first)];
  });
}

function together(a: Caution, b: Caution): Caution {
  const both = (x: readonly string[], y: readonly string[]): string[] => [...new Set([...x, ...y])];
  if ('items' in a && 'items' in b) return { ...a, items: both(a.items, b.items) };
  if ('alkalis' in a && 'alkalis' in b)
    return { ...a, alkalis: both(a.alkalis, b.alkalis), ammonium: both(a.ammonium, b.ammonium) };
  return a;
}

/** Products that call for a caution. */
const SPECIFIC = {
  acid: (p) => isAcid(p),
  alkali: (p) => isAlkali(p),
  oxidiser: (p) => p.form === 'powder' && holdsNitrate(p),
  'double-salt': (p) => isDoubleSalt(p),
  ammonium: (p) => stated(p, 'NH4-N') > 0 || (stated(p, 'N') > 0 && mayHold(p, 'NH4-N')),
  'boron-or-copper': (p) => stated(p, 'B') > 0 || stated(p, 'Cu') > 0,
} satisfies Record<string, (product: ClosedProduct) => boolean>;

/** What holds for every feed. */
const GENERAL = ['start-weak', 'out-of-reach', 'no-food-crops', 'runoff'] as const;

/** The most pressing first. */
const ORDER: readonly Caution['code'][] = [
  'label-first',
  ...(Object.keys(SPECIFIC) as (keyof typeof SPECIFIC)[]),
  'alkali-beside-ammonium',
  'copper-in-bromeliads',
  'carnivorous-roots',
  ...GENERAL,
];

const idsOf = (products: readonly ClosedProduct[], applies: (product: ClosedProduct) => boolean): string[] =>
  products.filter(applies).map((product) => product.id);

/** Alkali sets ammonia free. */
function besideEachOther(products: readonly ClosedProduct[]): Caution[] {
  const alkalis = idsOf(products, isAlkali);
  const ammonium = idsOf(products, (p) => stated(p, 'NH4-N') > 0);
  return alkalis.length === 0 || ammonium.length === 0 ? [] : [{ code: 'alkali-beside-ammonium', alkalis, ammonium }];
}

function plantCautions(products: readonly ClosedProduct[], plants: readonly string[]): Caution[] {
  const copper = plants.includes('bromeliad') && products.some((p) => mayHold(p, 'Cu'));
  return [
    ...(copper ? [{ code: 'copper-in-bromeliads' } as const] : []),
    ...(plants.includes('carnivorous') ? [{ code: 'carnivorous-roots' } as const] : []),
  ];
}

const words = (p: ClosedProduct): string => [p.name, p.formula ?? '', ...p.derivedFrom].join(' ; ').toLowerCase();

/** Free acids; boric, humic, fulvic and amino acids are none in this sense. */
export function isAcid(p: ClosedProduct): boolean {
  if (/^(HNO3|H3PO4|H2SO4|HCl|C6H8O7)\b/.test(p.formula ?? '')) return true;
  return /\b(nitric|phosphoric|sulfuric|sulphuric|hydrochloric|muriatic|citric|acetic|formic) acid\b/.test(words(p));
}

export function isAlkali(p: ClosedProduct): boolean {
  if (/^(K|Na)OH$|^(K|Na)2CO3|^Ca\(OH\)2|^CaO$|SiO3|Si[2-9]O/.test(p.formula ?? '')) return true;
  return /\b(hydroxide|quicklime|hydrated lime|potassium carbonate|(potassium|sodium) (meta)?silicate)\b/.test(
    words(p),
  );
}

/** 5Ca(NO3)2·NH4NO3·10H2O, exempt from the oxidiser class. */
function isDoubleSalt(p: ClosedProduct): boolean {
  const formula = p.formula ?? '';
  return (formula.includes('Ca(NO3)2') && formula.includes('NH4NO3')) || words(p).includes('calcium ammonium nitrate');
}

/** Holds a nitrate other than the double salt. */
function holdsNitrate(p: ClosedProduct): boolean {
  if (p.formula !== undefined) return p.formula.includes('NO3') && !isDoubleSalt(p);
  const salts = p.derivedFrom
    .map((salt) => salt.toLowerCase())
    .filter((salt) => !salt.includes('calcium ammonium nitrate'));
  if (p.derivedFrom.length > 0) return salts.some((salt) => salt.includes('nitrate'));
  return stated(p, 'NO3-N') > 0 && !isDoubleSalt(p);
}

const stated = (p: ClosedProduct, n: Nutrient): number => p.composition.content[n].stated ?? 0;
const mayHold = (p: ClosedProduct, n: Nutrient): boolean => p.composition.content[n].high > 0;
