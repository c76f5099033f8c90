import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { massShare } from '../chemistry/oxides.js';
import { nutrientsPerGram, formula } from '../chemistry/formula.js';
import { type Salt, saltsOf } from '../chemistry/salts.js';
import { atomicWeight } from '../chemistry/weights.js';
import { formatNumber } from '../units/format.js';
import type { Analysis } from './analysis.js';
import type { Content } from './composition.js';

type Stated = ReadonlyMap<Nutrient, Content>;

/**
 * What a label that is silent on a nutrient may still hold, in %.
 *
 * Chloride and sulfur (as sulfate) can only be there as partners of cations: at most the charge of K, Ca, Mg, Na, NH4 and trace
 * metals that nitrate, phosphate (as H2PO4−) and stated sulfate and chloride leave over. Sodium likewise as the partner of
 * anions that the cations leave over. None can exceed the mass that the stated figures leave. Sodium chloride as a filler
 * cannot be seen this way; laws let it go unsaid only where it is no nutrient claim, and `open` names what was not counted.
 *
 * The sources (`derived from`) narrow this: a list that is understood and holds none of it settles it at none. A source named
 * for a nutrient without figure may bring: a major nutrient as much as the mass left allows, a trace element the least that a
 * label may claim (a maker of more would claim it). Without a named source any other nutrient counts as none.
 */
export function undeclared(analysis: Analysis, stated: Stated): { content: Map<Nutrient, Content>; open: string[] } {
  const sources = saltsOf(analysis.derivedFrom ?? []);
  const room = Math.max(0, massLimit(analysis) - leastMass(stated));
  const content = new Map<Nutrient, Content>();
  const missing = NUTRIENTS.filter((nutrient) => !stated.has(nutrient) && !nutrient.includes('-'));
  for (const nutrient of missing) {
    if (!PARTNERS.has(nutrient)) content.set(nutrient, upTo(named(nutrient, sources.known, room)));
  }
  const charge = charges(stated, content);
  const settles = (nutrient: Nutrient): boolean =>
    sources.known.length > 0 && sources.unknown.length === 0 && !sources.known.some((salt) => salt.holds.has(nutrient));
  for (const nutrient of missing.filter((n) => PARTNERS.has(n))) {
    content.set(nutrient, upTo(settles(nutrient) ? 0 : partner(nutrient, charge, room, sources.known, stated)));
  }
  if (!stated.has('N')) spreadNitrogen(content, sources.known);
  return { content, open: sentences(content, sources.unknown) };
}

/** g that 100 g (w/w) or 100 mL (w/v) of the product can hold at most. */
export function massLimit({ basis, density }: Analysis): number {
  return basis === 'w/v' ? 100 * (density ?? 2.2) : 100;
}

/** The least mass in % that the figures can take up: nitrate as NO3, ammonium as NH3, phosphorus as PO3, silicon as SiO2. */
export function leastMass(stated: Stated): number {
  const low = (nutrient: Nutrient): number => stated.get(nutrient)?.low ?? 0;
  const forms = low('NO3-N') + low('NH4-N') + low('urea-N') + low('other-N');
  const nitrogen =
    low('NO3-N') / massShare('N', 'NO3') +
    low('urea-N') / massShare('N', 'CO(NH2)2') +
    low('other-N') +
    (low('NH4-N') + Math.max(0, low('N') - forms)) / massShare('N', 'NH3');
  const others = PLAIN.reduce((sum, nutrient) => sum + low(nutrient), 0);
  return nitrogen + low('P') / massShare('P', 'PO3') + low('Si') / massShare('Si', 'SiO2') + others;
}

const PLAIN: readonly Nutrient[] = ['K', 'Ca', 'Mg', 'S', 'Na', 'Cl', 'Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo', 'Co', 'Ni'];
const PARTNERS: ReadonlySet<Nutrient> = new Set<Nutrient>(['S', 'Na', 'Cl']);

/** Least guarantees that a US label may claim, % (AAPFCO rule, from memory); taken as the most that goes unclaimed. */
const LEAST_CLAIM: ReadonlyMap<Nutrient, number> = new Map<Nutrient, number>([
  ['Fe', 0.1],
  ['Mn', 0.05],
  ['Zn', 0.05],
  ['Cu', 0.05],
  ['B', 0.02],
  ['Mo', 0.0005],
  ['Co', 0.0005],
  ['Ni', 0.001],
]);

/** Most of a nutrient that sources named for it may bring. */
function named(nutrient: Nutrient, sources: readonly Salt[], room: number): number {
  const holding = sources.filter((salt) => salt.holds.has(nutrient));
  if (holding.length === 0) return 0;
  const trace = LEAST_CLAIM.get(nutrient);
  if (trace !== undefined) return Math.min(trace, room);
  const carriers = holding.filter((salt) => ![...LEAST_CLAIM.keys()].some((n) => salt.holds.has(n)));
  return Math.max(0, ...carriers.map((salt) => (room * shareOf(nutrient, salt)) / 1000));
}

const shareOf = (nutrient: Nutrient, salt: Salt): number => nutrientsPerGram(formula(salt.formula))[nutrient];

/** Charge in mmol per g ÷ 10 that stated (and named) ions leave over, at most, for anions and for cations. */
function charges(stated: Stated, extra: ReadonlyMap<Nutrient, Content>): { forAnions: number; forCations: number } {
  const of = (nutrient: Nutrient, end: 'low' | 'high'): number => {
    const content = stated.get(nutrient) ?? (end === 'high' ? extra.get(nutrient) : undefined);
    return (content?.[end] ?? 0) / atomicWeight(nutrient.endsWith('-N') ? 'N' : nutrient);
  };
  const cations = (end: 'low' | 'high'): number =>
    of('K', end) +
    of('Na', end) +
    of('NH4-N', end) +
    2 * (of('Ca', end) + of('Mg', end)) +
    (end === 'high' ? 2 * METALS.reduce((sum, metal) => sum + of(metal, end), 0) : 0);
  const anions = (end: 'low' | 'high'): number => of('NO3-N', end) + of('P', end) + of('Cl', end) + 2 * of('S', end);
  return {
    forAnions: Math.max(0, cations('high') - anions('low')),
    forCations: Math.max(0, anions('high') - cations('low')),
  };
}

const METALS: readonly Nutrient[] = ['Fe', 'Mn', 'Zn', 'Cu', 'Co', 'Ni'];

function partner(
  nutrient: Nutrient,
  charge: ReturnType<typeof charges>,
  room: number,
  sources: readonly Salt[],
  stated: Stated,
): number {
  if (nutrient === 'Cl') return Math.min(charge.forAnions * atomicWeight('Cl'), room);
  if (nutrient === 'S') return Math.min((charge.forAnions / 2) * atomicWeight('S'), room * massShare('S', 'SO4'));
  return Math.min(charge.forCations * atomicWeight('Na') + carriedSodium(sources, stated), room);
}

/** Sodium that comes with stated trace elements in the salts named for them, such as FeNaEDTA and borax. */
function carriedSodium(sources: readonly Salt[], stated: Stated): number {
  return [...LEAST_CLAIM.keys()].reduce((sum, trace) => {
    const figure = stated.get(trace)?.high ?? LEAST_CLAIM.get(trace)!;
    const ratios = sources
      .filter((salt) => salt.holds.has(trace) && salt.holds.has('Na'))
      .map((salt) => shareOf('Na', salt) / shareOf(trace, salt));
    return sum + figure * Math.max(0, ...ratios);
  }, 0);
}

/** Nitrogen that is not stated at all but named among the sources: each form that they hold may be all of it. */
function spreadNitrogen(content: Map<Nutrient, Content>, sources: readonly Salt[]): void {
  const high = content.get('N')?.high ?? 0;
  for (const form of ['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const) {
    content.set(form, upTo(sources.some((salt) => salt.holds.has(form)) ? high : 0));
  }
}

function sentences(content: ReadonlyMap<Nutrient, Content>, unknown: readonly string[]): string[] {
  const open: string[] = [];
  const none: string[] = [];
  for (const nutrient of NUTRIENTS) {
    const range = content.get(nutrient);
    if (!range || nutrient.includes('-')) continue;
    if (range.high > 0) open.push(`${nutrient} is not stated: between 0 and ${formatNumber(range.high, 2)} %.`);
    else if (!RARE.has(nutrient)) none.push(nutrient);
  }
  if (none.length > 0) open.push(`Not stated and counted as none: ${none.join(', ')}.`);
  if (unknown.length > 0) open.push(`Sources that are not understood and may hold anything: ${unknown.join(', ')}.`);
  return open;
}

const RARE: ReadonlySet<Nutrient> = new Set<Nutrient>(['Co', 'Ni', 'Si']);

const upTo = (high: number): Content => ({ low: 0, stated: null, high: high > 1e-9 ? high : 0 });
