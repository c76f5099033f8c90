import type { Product } from '../label/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';

/**
 * The cautions that these very products and plants call for, then the general ones; short lines, most pressing first.
 * Transport class of nitrates, the double salt's exemption, acids, ammonium and copper in bromeliads: handbook and trade
 * knowledge, from memory. They defer to the label and to local rules.
 */
export function cautionsFor(products: readonly Product[], plants: string): string[] {
  const specific = SPECIFIC.flatMap(({ applies, say }) => {
    const ids = products.filter(applies).map((product) => product.id);
    return ids.length === 0 ? [] : [say(ids.join(', '))];
  });
  return [FIRST, ...specific, ...together(products), ...plantCautions(products, plants), ...GENERAL];
}

interface Caution {
  applies: (product: Product) => boolean;
  say: (ids: string) => string;
}

const FIRST = 'The label comes first: where it asks for less, or for gloves and goggles, do as it says.';

const SPECIFIC: readonly Caution[] = [
  {
    applies: (p) => isAcid(p),
    say: (ids) => `${ids}: an acid. Pour acid into water, never water into acid; goggles and gloves.`,
  },
  {
    applies: (p) => isAlkali(p),
    say: (ids) =>
      `${ids}: strongly alkaline. Goggles and gloves; stir it into the full can first, before anything else.`,
  },
  {
    applies: (p) => p.form === 'powder' && holdsNitrate(p),
    say: (ids) =>
      `${ids}: holds nitrate, an oxidiser (class 5.1 as a pure salt). Keep dry, cool and closed, away from fuel, paper and other organic matter; never dry damp powder with heat.`,
  },
  {
    applies: (p) => isDoubleSalt(p),
    say: (ids) => `${ids}: calcium ammonium nitrate double salt damages eyes. Goggles; keep it closed, it draws water.`,
  },
  {
    applies: (p) => stated(p, 'NH4-N') > 0 || (stated(p, 'N') > 0 && mayHold(p, 'NH4-N')),
    say: (ids) => `${ids}: holds or may hold ammonium. Never together with lime, alkali or bleach: poisonous gas.`,
  },
  {
    applies: (p) => stated(p, 'B') > 0 || stated(p, 'Cu') > 0,
    say: (ids) =>
      `${ids}: boron or copper, where a little too much harms. Weigh it, or measure it from a stock solution; never by eye.`,
  },
];

const GENERAL: readonly string[] = [
  'Start weak, on a few plants, and watch them for two weeks.',
  'Out of reach of children and pets; never in a drink or food container; name and date every bottle.',
  'Not for food crops unless the label says so.',
  'Keep runoff out of drains, ponds and streams, as local rules ask. Local codes and licensed practice override this sheet.',
];

function together(products: readonly Product[]): string[] {
  const alkali = products.filter(isAlkali).map((p) => p.id);
  const ammonium = products.filter((p) => stated(p, 'NH4-N') > 0).map((p) => p.id);
  if (alkali.length === 0 || ammonium.length === 0) return [];
  return [
    `${alkali.join(', ')} with ${ammonium.join(', ')}: alkali sets ammonia free. Never bring the concentrates together.`,
  ];
}

function plantCautions(products: readonly Product[], plants: string): string[] {
  const group = plants.toLowerCase();
  const lines: string[] = [];
  if (group.includes('bromeliad') && products.some((p) => mayHold(p, 'Cu'))) {
    lines.push('Bromeliads are poisoned by copper: keep this feed out of the cup and try it on one plant first.');
  }
  if (group.includes('carnivorous'))
    lines.push(
      'Carnivorous plants are harmed by feed at the root: pure water in the tray, feed on the leaf only, if at all.',
    );
  return lines;
}

const words = (p: Product): string => [p.name, p.formula ?? '', ...p.derivedFrom].join(' ; ').toLowerCase();

/** Free acids; boric, humic, fulvic and amino acids are none in this sense. */
export function isAcid(p: Product): boolean {
  if (/^(HNO3|H3PO4|H2SO4|HCl|C6H8O7)\b/.test(p.formula ?? '')) return true;
  return /\b(nitric|phosphoric|sulfuric|sulphuric|hydrochloric|muriatic|citric|acetic|formic) acid\b/.test(words(p));
}

export function isAlkali(p: Product): boolean {
  if (/^(K|Na)OH$|^(K|Na)2CO3|^Ca\(OH\)2|^CaO$|SiO3|Si[2-9]O/.test(p.formula ?? '')) return true;
  return /\b(hydroxide|quicklime|hydrated lime|potassium carbonate|(potassium|sodium) (meta)?silicate)\b/.test(
    words(p),
  );
}

/** 5Ca(NO3)2·NH4NO3·10H2O, exempt from the oxidiser class. */
function isDoubleSalt(p: Product): boolean {
  const formula = p.formula ?? '';
  return (formula.includes('Ca(NO3)2') && formula.includes('NH4NO3')) || words(p).includes('calcium ammonium nitrate');
}

/** Holds a nitrate other than the double salt. */
function holdsNitrate(p: Product): boolean {
  if (p.formula !== undefined) return p.formula.includes('NO3') && !isDoubleSalt(p);
  const salts = p.derivedFrom
    .map((salt) => salt.toLowerCase())
    .filter((salt) => !salt.includes('calcium ammonium nitrate'));
  if (p.derivedFrom.length > 0) return salts.some((salt) => salt.includes('nitrate'));
  return stated(p, 'NO3-N') > 0 && !isDoubleSalt(p);
}

const stated = (p: Product, n: Nutrient): number => p.composition.content[n].stated ?? 0;
const mayHold = (p: Product, n: Nutrient): boolean => p.composition.content[n].high > 0;
