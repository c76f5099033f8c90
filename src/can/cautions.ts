import { HAZARD_GROUPS, type HazardGroup } from '../catalog/hazards.js';
import { CAN_CAUTIONS, type CanCaution } from './can-cautions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { hazardsOf, inGroup } from './hazards.js';

/** What to take care of, with the ids of the products that call for it; the words stand in the report. */
export type Caution =
  | { code: (typeof GENERAL)[number] | 'label-first' | 'copper-in-bromeliads' | 'carnivorous-roots' }
  | { code: HazardGroup; hazards: ItemHazard[] }
  | { code: keyof typeof SPECIFIC; items: string[] }
  | { code: 'urea-where-little-turns-it'; items: string[] }
  | { code: 'leaf-burn'; limits: LeafLimit[] }
  | { code: 'urea-as-nitrogen'; items: string[] }
  | { code: 'alkali-beside-ammonium'; alkalis: string[]; ammonium: string[] }
  | CanCaution;

/** A product and its hazard statements of one group; `may`: taken over from the salts that it may be made of. */
export interface ItemHazard {
  item: string;
  codes: string[];
  may: boolean;
}

/** g/L (mL/L) of a product above which a leaf suffers. */
export interface LeafLimit {
  item: string;
  perLitre: number;
  form: 'powder' | 'liquid';
}

/**
 * The cautions that these very products and groups of plants call for, then the general ones; most pressing first, each once. Hazards are
 * those of `catalog/hazards.csv`; that ammonium stays away from alkali and bleach, and copper from bromeliads, is knowledge of the trade,
 * from memory. They defer to the label and to local rules.
 * @param fed plants by their ids in the catalog, with medium and phase where they are known
 */
export function cautionsFor(products: readonly ClosedProduct[], ...fed: readonly Fed[]): Caution[] {
  const plants = fed.map((one) => (typeof one === 'string' ? one : one.plants));
  const unlike = [...new Map(products.map((product) => [product.id, product])).values()];
  const beside = besideEachOther(unlike);
  const specific = (Object.keys(SPECIFIC) as (keyof typeof SPECIFIC)[]).flatMap((code): Caution[] => {
    const items = idsOf(unlike, SPECIFIC[code]);
    // beside an alkali of the same mix they are told of together
    return items.length === 0 || (code === 'ammonium' && beside.length > 0) ? [] : [{ code, items }];
  });
  return [
    { code: 'label-first' },
    ...HAZARD_GROUPS.flatMap((group) => hazardCaution(unlike, group)),
    ...specific,
    ...slowUrea(unlike, fed),
    ...leafBurn(unlike),
    ...beside,
    ...plantCautions(unlike, plants),
    ...GENERAL.map((code): Caution => ({ code })),
  ];
}

/** Plants that are fed, by their id or with where and when. */
export type Fed = string | { plants: string; medium: string; phase: string };

/** Cool roots and media without microbes: urea stays urea for long (common practice, no source; contested for roots themselves). */
const SLOW_MEDIA: readonly string[] = ['sphagnum', 'clay', 'mounted'];

function slowUrea(products: readonly ClosedProduct[], fed: readonly Fed[]): Caution[] {
  const slow = fed.some((one) => typeof one !== 'string' && (one.phase === 'rest' || SLOW_MEDIA.includes(one.medium)));
  const items = idsOf(products, (p) => stated(p, 'urea-N') > 0 || (stated(p, 'N') > 0 && mayHold(p, 'urea-N')));
  return slow && items.length > 0 ? [{ code: 'urea-where-little-turns-it', items }] : [];
}

function hazardCaution(products: readonly ClosedProduct[], group: HazardGroup): Caution[] {
  const hazards = products.flatMap((product): ItemHazard[] => {
    const { codes, may } = hazardsOf(product);
    const own = inGroup(codes, group);
    return own.length === 0 ? [] : [{ item: product.id, codes: own, may }];
  });
  return hazards.length === 0 ? [] : [{ code: group, hazards }];
}

/** Where the rate that its label or our ceiling allows is itself too much for a leaf. */
function leafBurn(products: readonly ClosedProduct[]): Caution[] {
  const limits = products.flatMap(({ id, form, maxRate = USUAL_RATE }, i): LeafLimit[] => {
    const { leafLimit } = hazardsOf(products[i]!);
    return leafLimit === null || leafLimit >= maxRate ? [] : [{ item: id, perLitre: leafLimit, form }];
  });
  return limits.length === 0 ? [] : [{ code: 'leaf-burn', limits }];
}

/** g/L or mL/L of a feed, where nothing is said; common practice, no source. */
const USUAL_RATE = 1;

/** The cautions of several feeds as one list: each once, with the products of all of them, in the same order. */
export function inOneList(lists: readonly (readonly Caution[])[]): Caution[] {
  const told = lists.flat();
  // where little turns urea over, that says more than that there is much of it
  const slow = told.some(({ code }) => code === 'urea-where-little-turns-it');
  const all = told.filter(({ code }) => !(slow && code === 'urea-as-nitrogen'));
  return ORDER.flatMap((code) => {
    const such = all.filter((caution) => caution.code === code);
    // figures of different cans are not one
    if ((CAN_CAUTIONS as readonly string[]).includes(code)) return distinct(such);
    const [first, ...others] = such;
    return first === undefined ? [] : [others.reduce(together, first)];
  });
}

/** Every product with hazard statements, once, with all of them. */
export function hazardsIn(cautions: readonly Caution[]): ItemHazard[] {
  const lines = new Map<string, ItemHazard>();
  for (const { item, codes, may } of cautions.flatMap((caution) => ('hazards' in caution ? caution.hazards : [])))
    lines.set(item, { item, codes: [...(lines.get(item)?.codes ?? []), ...codes], may });
  return [...lines.values()];
}

const distinct = (cautions: readonly Caution[]): Caution[] => [
  ...new Map(cautions.map((caution) => [JSON.stringify(caution), caution])).values(),
];

function together(a: Caution, b: Caution): Caution {
  const both = (x: readonly string[], y: readonly string[]): string[] => [...new Set([...x, ...y])];
  const unlike = <T extends { item: string }>(x: readonly T[], y: readonly T[]): T[] => [
    ...new Map([...x, ...y].map((line) => [line.item, line])).values(),
  ];
  if ('hazards' in a && 'hazards' in b) return { ...a, hazards: unlike(a.hazards, b.hazards) };
  if ('limits' in a && 'limits' in b) return { ...a, limits: unlike(a.limits, b.limits) };
  if ('items' in a && 'items' in b) return { ...a, items: both(a.items, b.items) };
  if ('alkalis' in a && 'alkalis' in b)
    return { ...a, alkalis: both(a.alkalis, b.alkalis), ammonium: both(a.ammonium, b.ammonium) };
  return a;
}

/** Products that call for a caution. */
const SPECIFIC = {
  acid: (p) => isAcid(p),
  alkali: (p) => isAlkali(p),
  'restricted-sale': (p) => hazardsOf(p).restricted,
  ammonium: (p) => stated(p, 'NH4-N') > 0 || (stated(p, 'N') > 0 && mayHold(p, 'NH4-N')),
  'boron-or-copper': (p) => stated(p, 'B') > 0 || stated(p, 'Cu') > 0,
} satisfies Record<string, (product: ClosedProduct) => boolean>;

/** What holds for every feed. */
const GENERAL = ['start-weak', 'out-of-reach', 'no-food-crops', 'runoff'] as const;

/** The most pressing first. */
const ORDER: readonly Caution['code'][] = [
  'label-first',
  ...HAZARD_GROUPS,
  ...(Object.keys(SPECIFIC) as (keyof typeof SPECIFIC)[]),
  'urea-where-little-turns-it',
  'leaf-burn',
  'alkali-beside-ammonium',
  'urea-as-nitrogen',
  ...CAN_CAUTIONS,
  'copper-in-bromeliads',
  'carnivorous-roots',
  ...GENERAL,
];

const idsOf = (products: readonly ClosedProduct[], applies: (product: ClosedProduct) => boolean): string[] =>
  products.filter(applies).map((product) => product.id);

/** From this share of a mix's nitrogen on its urea is worth a word: common practice, no source. */
const MUCH_UREA = 0.3;

/** What is to be known of a mix whose nitrogen is urea to a good part. @param share of its nitrogen, 0…1 */
export function ureaCaution(products: readonly ClosedProduct[], share: number): Caution[] {
  const items = idsOf(products, (p) => stated(p, 'urea-N') > 0);
  return share < MUCH_UREA || items.length === 0 ? [] : [{ code: 'urea-as-nitrogen', items }];
}

/** Alkali sets ammonia free. */
function besideEachOther(products: readonly ClosedProduct[]): Caution[] {
  const alkalis = idsOf(products, isAlkali);
  const ammonium = idsOf(products, SPECIFIC.ammonium);
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

const stated = (p: ClosedProduct, n: Nutrient): number => p.composition.content[n].stated ?? 0;
const mayHold = (p: ClosedProduct, n: Nutrient): boolean => p.composition.content[n].high > 0;
