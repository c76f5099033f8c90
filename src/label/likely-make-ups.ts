import { type LinearProgram, regionOf } from '../../solver/index.js';
import type { Ions } from '../chemistry/ions.js';
import { linearEcOfIons } from '../chemistry/linear-ec.js';
import { saltsOf } from '../chemistry/salts.js';
import type { Composition } from './composition.js';
import { between, type Ends } from './counter-ions.js';
import { FILLER, FULL, PRICE_LISTS, priceAt, UREA, UREA_UNASKED, USUAL } from './oddness.js';
import { oneSalt } from './one-salt.js';
import { type Sort, sortsOf } from './sorts.js';
import { type Source, sourcesNamed } from './sources.js';
import {
  figuresOf,
  ionForms,
  type Mass,
  makeUpOf,
  makeUpsWithin,
  massOf,
  nearestMakeUp,
  unclaimed,
  USUAL_SHARE,
} from './undeclared-program.js';

/** What makers are likely to put behind a label that names no salts: ions in mmol of one g or mL, each end a whole make-up. */
export interface LikelyMakeUps {
  value: Ions;
  ends: Ends<Ions>;
}

/**
 * The make-ups that are likely behind a label without a list that can be used. Each salt is odd by how seldom it goes into soluble feeds,
 * and so is what fills a powder up without feeding. Those that are odder than the least odd by `ROOM` at most are the range. The value is
 * what makers buy on average, each choosing what is cheapest to him on a price list of his own; or one salt, where that is all.
 * @param derivedFrom what its list says: the salts understood are not odd
 * @returns null where no make-up lies within the figures
 */
export async function likelyMakeUps(
  composition: Composition,
  derivedFrom: readonly string[],
  density?: number,
): Promise<LikelyMakeUps | null> {
  const mass = massOf(composition, density);
  const named = sourcesNamed(saltsOf(derivedFrom).known);
  const whole = await possible(sortsOf(composition, named), mass);
  // charges may need calcium or magnesium that nobody copied
  const sorts = whole.length > 0 ? whole : await possible(sortsOf(composition, named, true), mass);
  const most = Math.min(...sorts.map(({ least }) => least)) + ROOM * mass.whole;
  const ends: Ends<Ions>[] = [];
  for (const sort of sorts) {
    const found = sort.least > most ? null : await endsOf(sort, most);
    if (found) ends.push(found);
  }
  const ureaTold = composition.content['urea-N'].stated !== null || named.some(({ formula }) => formula === UREA);
  const spared = !ureaTold && (await goWithoutUrea(sorts, mass));
  const value = oneSalt(sorts, mass) ?? (await boughtBy(sorts, mass, spared));
  if (ends.length === 0 || value === null) return null;
  const outermost = outermostOf(ends);
  return { value: inside(value, outermost), ends: outermost };
}

/** How much odder than the least odd make-up one may be, as a share of the product: 0.06 holds 95 of 100 labels made up at random from common salts. */
const ROOM = 0.06;

async function possible(sorts: readonly Sort[], mass: Mass): Promise<Programs[]> {
  const found: Programs[] = [];
  for (const sort of sorts) {
    const programs = programsOf(sort, mass);
    const least = await regionOf(programs.within).least(programs.costs);
    if (least !== null) found.push({ ...programs, least });
  }
  return found;
}

interface Programs extends Sort {
  /** All make-ups within the figures, and the oddness of a mg in each column. */
  within: LinearProgram;
  costs: number[];
  /** Those near the figures: how far is its cost. */
  near: LinearProgram;
  least: number;
}

function programsOf(sort: Sort, mass: Mass): Omit<Programs, 'least'> {
  const { composition, sources, odd } = sort;
  const figures = figuresOf(composition, mass, USUAL_SHARE);
  const others = unclaimed(composition, sources, mass, true);
  const within = filledUp(makeUpsWithin(sources, figures, others, mass), composition, sources, mass);
  const near = filledUp(nearestMakeUp(sources, figures, others, mass, true), composition, sources, mass);
  const costs = within.columns.map((_, j) => odd(sources[j]?.formula ?? FILLER));
  return { ...sort, within, costs, near };
}

/** A powder is full: what its salts leave, as they are sold, is filler, but for what dye, damp and impurities may come to. */
function filledUp(
  program: LinearProgram,
  { per }: Composition,
  sources: readonly Source[],
  { whole }: Mass,
): LinearProgram {
  if (per !== 'g') return program;
  const sold = program.columns.slice(0, sources.length).map(({ id }, i) => [id, sources[i]!.asSold] as const);
  return {
    columns: [...program.columns, { id: FILLER, cost: 0 }],
    rows: [...program.rows, { id: 'full', lower: FULL * whole, terms: { ...Object.fromEntries(sold), [FILLER]: 1 } }],
  };
}

async function endsOf({ sources, within, costs }: Programs, most: number): Promise<Ends<Ions> | null> {
  const terms = within.columns.map(({ id }, j) => [id, costs[j]!] as const).filter(([, cost]) => cost > 0);
  const row = { id: 'odd', upper: most, terms: Object.fromEntries(terms) };
  const region = regionOf({ ...within, rows: [...within.rows, row] }, formsOf(sources, within));
  const end = async (of: (source: Source) => number): Promise<Ions | null> => {
    const amounts = await region.point(padded(sources.map(of), within));
    return amounts && makeUpOf(sources, amounts).ions;
  };
  const leastConductive = await end((s) => s.conducts);
  const mostConductive = await end((s) => -s.conducts);
  const acid = await end((s) => s.ions.alkalinity);
  const alkaline = await end((s) => -s.ions.alkalinity);
  if (!leastConductive || !mostConductive || !acid || !alkaline) return null;
  return { leastConductive, mostConductive, acid, alkaline };
}

/**
 * Whether makers of a powder are likely to leave urea out: where its nitrogen finds room without, as in 20-10-20 and not in 20-20-20. Powders
 * with calcium are full of its nitrate, so that the last of their nitrogen is urea: what may be one is left as it is.
 */
async function goWithoutUrea(sorts: readonly Programs[], mass: Mass): Promise<boolean> {
  let fits = false;
  for (const sort of sorts) {
    if (await fitsWithoutUrea(sort, mass, CALCIUM_SOLD)) return false;
    fits ||= await fitsWithoutUrea(sort, mass, 0);
  }
  return fits;
}

/** Whether a powder of usual salts without urea gives back the figures, with room for traces and dye. @param calcium its least share */
async function fitsWithoutUrea({ sources, odd, near }: Programs, { whole }: Mass, calcium: number): Promise<boolean> {
  if (!near.columns.some(({ id }) => id === FILLER)) return false;
  const summed = (of: (source: Source) => number): [string, number][] =>
    near.columns.slice(0, sources.length).map(({ id }, i) => [id, of(sources[i]!)]);
  const rows = [
    { id: 'sold', upper: MAIN_SALTS * whole, terms: Object.fromEntries(summed(({ asSold }) => asSold)) },
    { id: 'calcium', lower: calcium * whole, terms: Object.fromEntries(summed(({ mg }) => mg.Ca)) },
  ];
  const costs = near.columns.map(({ cost }, j) => {
    const source = sources[j]?.formula;
    return source !== undefined && (source === UREA || odd(source) > USUAL) ? 1 / whole : cost;
  });
  const least = await regionOf({ ...near, rows: [...near.rows, ...rows] }).least(costs);
  return least !== null && least < 1e-6;
}

/** What main salts may come to as they are sold (common practice, no source). */
const MAIN_SALTS = 0.97;
/** Of calcium in powders that are sold for it: 15-5-15 tells 5 % (common practice, no source). */
const CALCIUM_SOLD = 0.05;

/** The average over price lists of what is cheapest; a sum of whole make-ups, so its charges balance. @param spared no urea unasked */
async function boughtBy(sorts: readonly Programs[], { whole }: Mass, spared: boolean): Promise<Ions | null> {
  const regions = sorts.map(({ sources, near }) => regionOf(near, formsOf(sources, near)));
  let average: Ions | null = null;
  for (let list = 0; list < PRICE_LISTS; list += 1) {
    let cheapest: { price: number; ions: Ions } | null = null;
    for (const [i, { sources, odd, near }] of sorts.entries()) {
      const prices = near.columns.map(({ id, cost }, j) => {
        const bought = sources[j]?.formula ?? (id === FILLER ? FILLER : null);
        if (bought === null) return cost * whole;
        return odd(bought) + priceAt(list, bought) + (spared && bought === UREA ? UREA_UNASKED : 0);
      });
      const amounts = await regions[i]!.point(prices);
      if (amounts === null) continue;
      const price = amounts.reduce((sum, mg, j) => sum + mg * prices[j]!, 0);
      if (cheapest === null || price < cheapest.price) cheapest = { price, ions: makeUpOf(sources, amounts).ions };
    }
    if (cheapest === null) return null;
    average = average === null ? cheapest.ions : between(average, cheapest.ions, 1 / (list + 1));
  }
  return average;
}

function outermostOf(ends: readonly Ends<Ions>[]): Ends<Ions> {
  const lowest = (which: keyof Ends<Ions>, of: (ions: Ions) => number): Ions =>
    ends.map((end) => end[which]).reduce((best, ions) => (of(ions) < of(best) ? ions : best));
  return {
    leastConductive: lowest('leastConductive', linearEcOfIons),
    mostConductive: lowest('mostConductive', (ions) => -linearEcOfIons(ions)),
    acid: lowest('acid', ({ alkalinity }) => alkalinity),
    alkaline: lowest('alkaline', ({ alkalinity }) => -alkalinity),
  };
}

/** The likeliest, or the end that it lies beyond. */
function inside(value: Ions, { leastConductive, mostConductive }: Ends<Ions>): Ions {
  const ec = linearEcOfIons(value);
  if (ec < linearEcOfIons(leastConductive)) return leastConductive;
  return ec > linearEcOfIons(mostConductive) ? mostConductive : value;
}

const padded = (form: readonly number[], { columns }: LinearProgram): number[] => columns.map((_, j) => form[j] ?? 0);

const formsOf = (sources: readonly Source[], program: LinearProgram): number[][] =>
  ionForms(sources).map((form) => padded(form, program));

/** How odd the least odd make-up within the figures is, as a share of the product; null where there is none at all. */
export async function leastOddness(
  composition: Composition,
  derivedFrom: readonly string[],
  density?: number,
): Promise<number | null> {
  const mass = massOf(composition, density);
  const sorts = await possible(sortsOf(composition, sourcesNamed(saltsOf(derivedFrom).known)), mass);
  return sorts.length === 0 ? null : Math.min(...sorts.map(({ least }) => least)) / mass.whole;
}
