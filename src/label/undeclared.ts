import { formula, nutrientsPerGram } from '../chemistry/formula.js';
import { NITROGEN_FORMS, NUTRIENTS, type Nutrient, type PerNutrient } from '../chemistry/nutrients.js';
import { massShare } from '../chemistry/oxides.js';
import { allSalts, type Salt, saltsOf } from '../chemistry/salts.js';
import { atomicWeight } from '../chemistry/weights.js';
import type { Analysis } from './analysis.js';
import { type Contents, chargeLeft, leastMass, massLimit, sodiumRoom, unrounded } from './balance.js';
import type { Composition, Content } from './composition.js';
import type { LeftOpen } from './left-open.js';
import { lastDigits } from './printed.js';
import { isForm } from './sources.js';

/**
 * What a label that is silent on a nutrient may still hold, in %.
 *
 * Chloride and sulfur (as sulfate) can only be there as partners of cations: at most the charge of K, Ca, Mg, Na, NH4 and trace
 * metals that nitrate, phosphate (as H2PO4−) and stated sulfate and chloride leave over. Sodium likewise as the partner of
 * anions that the cations leave over, or with trace elements. Printed digits hide some of each. None can exceed the mass that the
 * stated figures leave. Sodium chloride as a mere filler, or the same in disguise (sodium nitrate with potassium sulfate, beside which potassium
 * nitrate would look alike) cannot be seen this way: the closure of the label tells how much there could be.
 *
 * The sources (`derived from`) narrow this: a list that is understood settles a nutrient that it does not hold at none, or, where
 * only trace salts hold it (sodium in FeNaEDTA), at what comes with those. A source named for a nutrient without figure may bring
 * as much of it as the mass left allows; of a trace element the least that a label may claim (a maker of more would claim it).
 * Without a named source any other nutrient counts as none.
 */
export function undeclared(
  analysis: Analysis,
  stated: Contents,
): { content: Map<Nutrient, Content>; open: LeftOpen[] } {
  const sources = saltsOf(analysis.derivedFrom ?? []);
  const printed = unrounded(stated, lastDigits(analysis));
  const room = Math.max(0, massLimit(analysis) - leastMass(printed));
  const missing = NUTRIENTS.filter((nutrient) => !stated.has(nutrient) && !isForm(nutrient));
  const content = new Map<Nutrient, Content>();
  for (const nutrient of missing.filter((n) => !PARTNERS.has(n))) {
    content.set(nutrient, upTo(broughtBy(nutrient, sources.known, room)));
  }
  if (!stated.has('N')) spreadNitrogen(content, sources.known);
  const charge = chargeLeft(new Map([...content, ...printed]));
  for (const nutrient of missing.filter((n) => PARTNERS.has(n))) {
    content.set(nutrient, upTo(ceilingOf(nutrient, sources, printed, room, charge)));
  }
  return { content, open: leftOpen(content, sources.unknown) };
}

/**
 * mg of sulfur, sodium and chloride in one g or mL that a label may hold whatever list it prints: the same, for a list that cannot be
 * believed.
 */
export function ceilingsWithoutList({ content, printed, per }: Composition, density?: number): Map<Nutrient, number> {
  const settled = NUTRIENTS.filter((n) => content[n].stated !== null || isForm(n));
  const percent = (mg: number): number => mg / 10;
  const stated = settled.map((n): [Nutrient, Content] => {
    const { low, stated: mg, high } = content[n];
    return [n, { low: percent(low), stated: mg === null ? null : percent(mg), high: percent(high) }];
  });
  const digits = new Map([...(printed ?? [])].map(([n, mg]) => [n, percent(mg)]));
  const figures = unrounded(new Map(stated), digits);
  const limit = per === 'g' ? { basis: 'w/w' as const } : { basis: 'w/v' as const, ...(density ? { density } : {}) };
  const room = Math.max(0, massLimit(limit) - leastMass(figures));
  const charge = chargeLeft(figures);
  const silent = [...PARTNERS].filter((n) => content[n].stated === null);
  const none = { known: [], unknown: [] };
  return new Map(silent.map((n) => [n, 10 * upTo(ceilingOf(n, none, figures, room, charge)).high]));
}

/** % of a partner of charges that its sources, the charge and the mass left allow. */
function ceilingOf(
  nutrient: Nutrient,
  sources: ReturnType<typeof saltsOf>,
  figures: Contents,
  room: number,
  charge: ReturnType<typeof chargeLeft>,
): number {
  const carried = carriedBy(nutrient, sources.known, figures);
  const paired = Math.min(partner(nutrient, charge), nutrient === 'Na' ? sodiumRoom(figures, room) : room);
  const most = onlyTraces(nutrient, sources) ? carried : carried + paired;
  return Math.min(most, nutrient === 'S' ? room * massShare('S', 'SO4') : room);
}

const PARTNERS: ReadonlySet<Nutrient> = new Set<Nutrient>(['S', 'Na', 'Cl']);

/** Least guarantees that a US label may claim, % (AAPFCO rule, from memory); taken as the most that goes unclaimed. */
export const LEAST_CLAIM: ReadonlyMap<Nutrient, number> = new Map<Nutrient, number>([
  ['Fe', 0.1],
  ['Mn', 0.05],
  ['Zn', 0.05],
  ['Cu', 0.05],
  ['B', 0.02],
  ['Mo', 0.0005],
  ['Co', 0.0005],
  ['Ni', 0.001],
]);
const TRACES = [...LEAST_CLAIM.keys()];
const isTrace = (salt: Salt): boolean => TRACES.some((trace) => salt.holds.has(trace));

/** The most of a nutrient that the sources named for it may bring into the mass left. */
function broughtBy(nutrient: Nutrient, sources: readonly Salt[], room: number): number {
  const holding = sources.filter((salt) => salt.holds.has(nutrient));
  const trace = LEAST_CLAIM.get(nutrient);
  if (trace !== undefined) return holding.length > 0 ? Math.min(trace, room) : 0;
  return Math.max(0, ...holding.filter((salt) => !isTrace(salt)).map((salt) => room * shareOf(nutrient, salt)));
}

/** g in one gram of a pure salt. */
function shareOf(nutrient: Nutrient, { formula: text }: Salt): number {
  const perGram = PER_GRAM.get(text) ?? nutrientsPerGram(formula(text));
  PER_GRAM.set(text, perGram);
  return perGram[nutrient] / 1000;
}

/** mg in one gram, by formula. */
const PER_GRAM = new Map<string, PerNutrient<number>>();

function partner(nutrient: Nutrient, left: ReturnType<typeof chargeLeft>): number {
  if (nutrient === 'Na') return left.forCations * atomicWeight('Na');
  return (nutrient === 'S' ? left.forAnions / 2 : left.forAnions) * atomicWeight(nutrient);
}

/** True where every source is understood and none but trace salts holds the nutrient. */
function onlyTraces(nutrient: Nutrient, { known, unknown }: ReturnType<typeof saltsOf>): boolean {
  return known.length > 0 && unknown.length === 0 && !known.some((salt) => salt.holds.has(nutrient) && !isTrace(salt));
}

/**
 * What comes with trace elements in the salts named for them, such as sodium in FeNaEDTA and borax; without a list, sodium in any of
 * the salts that bring what is stated.
 */
function carriedBy(nutrient: Nutrient, sources: readonly Salt[], stated: Contents): number {
  const listed = sources.length > 0;
  if (!listed && nutrient !== 'Na') return 0;
  return TRACES.reduce((sum, trace) => {
    const figure = stated.get(trace)?.high ?? (listed ? LEAST_CLAIM.get(trace)! : 0);
    const ratios = (listed ? sources : allSalts())
      .filter((salt) => salt.holds.has(trace) && salt.holds.has(nutrient))
      .map((salt) => shareOf(nutrient, salt) / shareOf(trace, salt));
    return sum + figure * Math.max(0, ...ratios);
  }, 0);
}

/** Nitrogen that is not stated at all but named among the sources: each form that they hold may be all of it. */
function spreadNitrogen(content: Map<Nutrient, Content>, sources: readonly Salt[]): void {
  const high = content.get('N')?.high ?? 0;
  for (const form of NITROGEN_FORMS) {
    content.set(form, upTo(sources.some((salt) => salt.holds.has(form) && !isTrace(salt)) ? high : 0));
  }
}

function leftOpen(content: ReadonlyMap<Nutrient, Content>, unknown: readonly string[]): LeftOpen[] {
  const open: LeftOpen[] = [];
  const none: Nutrient[] = [];
  for (const [nutrient, { high }] of [...content].sort(([a], [b]) => NUTRIENTS.indexOf(a) - NUTRIENTS.indexOf(b))) {
    if (isForm(nutrient)) continue;
    if (high > 0) open.push({ kind: 'not stated', nutrient, upToPercent: high });
    else if (!UNUSUAL.has(nutrient)) none.push(nutrient);
  }
  if (none.length > 0) open.push({ kind: 'counted as none', nutrients: none });
  if (unknown.length > 0) open.push({ kind: 'unknown sources', names: [...unknown] });
  return open;
}

/** Seldom on any label, so their absence is not worth a word. */
const UNUSUAL: ReadonlySet<Nutrient> = new Set<Nutrient>(['Co', 'Ni', 'Si']);

const upTo = (high: number): Content => ({ low: 0, stated: null, high: high > 1e-9 ? high : 0 });
