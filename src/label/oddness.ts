import { log } from '../units/elementary.js';

/**
 * How odd a mg of a salt is behind a label that does not name it: 0 for what every maker buys, 1 for what few do, more for what hardly
 * any does. By dry formula; `FILLER` is what feeds nothing.
 */
export const oddness = (formula: string): number => ODDNESS.get(formula) ?? HARDLY_ANY;

export const FILLER = 'filler';
export const UREA = 'CO(NH2)2';

const HARDLY_ANY = 6;
/** How odd a usual salt is at most. */
export const USUAL = 0.5;
/** How much of a powder its salts and filler come to at least: the rest is dye, damp and impurities (common practice, no source). */
export const FULL = 0.88;

/** By what they cost, how commonly they are sold to makers and how well they dissolve (common practice, no source). */
const ODDNESS: ReadonlyMap<string, number> = new Map([
  ...['KNO3', 'CO(NH2)2', 'NH4H2PO4', 'NH4NO3', 'Ca(NO3)2', '5Ca(NO3)2·NH4NO3'].map((f) => [f, 0] as const),
  ...['KH2PO4', 'Mg(NO3)2', 'MgSO4', 'K2SO4', '(NH4)2SO4'].map((f) => [f, 0.1] as const),
  ['KCl', 0.15],
  [FILLER, 0.3],
  ['(NH4)2HPO4', 0.3],
  ['H3PO4', 0.3],
  ...['CaCl2', 'NaNO3', 'K2HPO4'].map((f) => [f, 1] as const),
  ...['H3BO3', 'Na2B4O7', 'Na2B8O13', 'Na2MoO4', 'FeSO4', 'MnSO4', 'ZnSO4', 'CuSO4'].map((f) => [f, 0] as const),
  ...['FeC10H12N2O8Na', 'FeC14H18N3O10Na2', 'FeC18H16N2O6Na'].map((f) => [f, 0] as const),
  ...['Mn', 'Zn', 'Cu'].map((metal) => [`${metal}C10H12N2O8Na2`, 0] as const),
]);

/** Makers whose price lists are tried; more of them move the average by less than what they differ in. */
export const PRICE_LISTS: number = 17;

/**
 * What a salt costs on one of the price lists, above its oddness: spread exponentially, and the same in every run. (A model of random
 * utility, as choices are commonly modelled; its spread was chosen so that published readings of common grades come out.)
 */
export function priceAt(list: number, formula: string): number {
  let hash = 2166136261;
  for (const char of formula) hash = Math.imul(hash ^ char.codePointAt(0)!, 16777619);
  hash = Math.imul(hash ^ (hash >>> 15), 0x85ebca6b);
  hash = (hash ^ (hash >>> 13)) >>> 0;
  // each salt stands once on every rung, in an order of its own, so that few lists do
  const factor = 1 + (hash % (PRICE_LISTS - 1));
  const rung = (factor * list + Math.floor(hash / PRICE_LISTS)) % PRICE_LISTS;
  return -PRICES_SPREAD * log((rung + 0.5) / PRICE_LISTS);
}

const PRICES_SPREAD = 0.2;

/**
 * What urea costs more where nitrogen fits without it: once the spread, so that most lists leave it out. (Makers of soluble feeds sell nitrate
 * and ammonium where they can: common practice, no source.)
 */
export const UREA_UNASKED: number = PRICES_SPREAD;
