import type { LinearProgram, Row } from '../../solver/index.js';
import { NONE } from '../chemistry/conductivity.js';
import { type Ions, WEAK_ACIDS } from '../chemistry/ions.js';
import { NUTRIENTS, type Nutrient, type PerNutrient, perNutrient } from '../chemistry/nutrients.js';
import { mainsDeclared, tolerance } from './allowance.js';
import type { Composition } from './composition.js';
import { SILENT, type Source, TRACES, isForm } from './sources.js';
import { LEAST_CLAIM } from './undeclared.js';

/** A figure that a make-up must give back, mg in one g or mL. */
export interface Figure {
  nutrient: Nutrient;
  mg: number;
  /** How far a make-up may fall short of it, and exceed it. */
  under: number;
  over: number;
  /** What a deviation is counted against. */
  size: number;
}

/** Amounts of sources that make up one g or mL, and what they come to: mg of each nutrient, ions in mmol. */
export interface MakeUp {
  mg: PerNutrient<number>;
  ions: Ions;
}

/** The mass of one g or mL, mg: what allowances are a share of, and what the dry matter may come to at most. */
export interface Mass {
  whole: number;
  most: number;
}

/** A liquid of unknown density counts as water for allowances; its dry matter as the densest on sale (2.2 g/mL, from memory). */
export function massOf({ per }: Composition, density: number | undefined): Mass {
  if (per === 'g') return { whole: 1000, most: 1000 };
  return { whole: 1000 * (density ?? 1), most: 1000 * (density ?? 2.2) };
}

/**
 * Every declared figure, with room for the label's allowance either way, and for what printing leaves out where that is more: half
 * a unit of the last digit below (rounded up) and a whole one above (rounded down). Forms of nitrogen that are settled at none count as declared.
 * @param share part of the allowance that counts; printing counts whole
 */
export function figuresOf({ content, printed, law }: Composition, { whole }: Mass, share = 1): Figure[] {
  const mains = mainsDeclared(content);
  return NUTRIENTS.flatMap((nutrient): Figure[] => {
    const { low, stated, high } = content[nutrient];
    const mg = stated ?? (isForm(nutrient) && low === high ? low : null);
    // the nitrogen of chelating agents is claimed by none, so that no other nitrogen is not binding
    if (mg === null || (nutrient === 'other-N' && mg === 0)) return [];
    const percent = (100 * mg) / whole;
    const allowed = tolerance(nutrient, percent, law, mains);
    const [below, above] = [(share * allowed.under * whole) / 100, (share * allowed.over * whole) / 100];
    const digit = printed?.get(nutrient) ?? 0;
    return [
      {
        nutrient,
        mg,
        under: Math.max(below, digit / 2),
        over: Math.max(above, digit),
        size: mg > 0 ? mg : Math.max(above, whole / 100),
      },
    ];
  });
}

/**
 * An allowance is the limit of the law and no usual error: it is taken as two standard deviations of one figure. Where all figures are at their limits at
 * once, the three or four that decide stray each for itself, so that end lies about four of its own standard deviations out (2·√4),
 * and nine of ten products within 1.645 of them.
 */
export const USUAL_SHARE = 1.645 / 4;

/** What stands for the mg of a source, by its place in the list. */
const sourceColumn = (index: number): string => `s${index}`;

/** Sources whose sums lie within the figures and the mass. */
export function makeUpsWithin(
  sources: readonly Source[],
  figures: readonly Figure[],
  others: readonly Row[],
  { most }: Mass,
): LinearProgram {
  return {
    columns: sources.map((_, i) => ({ id: sourceColumn(i), cost: 0 })),
    rows: [
      ...figures.map(({ nutrient, mg, under, over }) => ({
        id: `is:${nutrient}`,
        lower: mg - under,
        upper: mg + over,
        terms: termsOf(sources, nutrient),
      })),
      ...others,
      massRow(sources, most),
    ],
  };
}

/** The make-up nearest to the figures: least sum of relative deviations, each within its room or (`within` false) as large as need be. */
export function nearestMakeUp(
  sources: readonly Source[],
  figures: readonly Figure[],
  others: readonly Row[],
  { most }: Mass,
  within: boolean,
): LinearProgram {
  const deviations = figures.flatMap(({ nutrient, size, over, under }) =>
    [
      { id: `over:${nutrient}`, room: over },
      { id: `under:${nutrient}`, room: under },
    ].map(({ id, room }) => ({ id, cost: 1 / size, ...(within ? { upper: room } : {}) })),
  );
  const rows = figures.map(({ nutrient, mg }) => ({
    id: `is:${nutrient}`,
    lower: mg,
    upper: mg,
    terms: { ...termsOf(sources, nutrient), [`over:${nutrient}`]: -1, [`under:${nutrient}`]: 1 },
  }));
  return {
    columns: [...sources.map((_, i) => ({ id: sourceColumn(i), cost: 0 })), ...deviations],
    rows: [...rows, ...others, massRow(sources, most)],
  };
}

/**
 * Ceilings for what is neither declared nor among what labels may be silent on: what would print as zero, of a trace element
 * at least what a label may begin to claim. Others than trace elements may be silent too where a list names them (`main` false).
 */
export function unclaimed(
  { content, printed }: Composition,
  sources: readonly Source[],
  { whole }: Mass,
  main: boolean,
): Row[] {
  const digits = NUTRIENTS.filter((n) => !TRACES.includes(n) && !isForm(n)).map((n) => printed?.get(n) ?? 0);
  const zero = (PRINTS_AS_ZERO * whole) / 100;
  const each = NUTRIENTS.flatMap((nutrient): Row[] => {
    if (content[nutrient].stated !== null || SILENT.has(nutrient) || isForm(nutrient)) return [];
    const trace = TRACES.includes(nutrient);
    if (!trace && !(main && content[nutrient].high === 0)) return [];
    const terms = termsOf(sources, nutrient);
    if (Object.keys(terms).length === 0) return [];
    const upper = trace ? Math.max(zero, (LEAST_CLAIM.get(nutrient)! * whole) / 100) : Math.max(zero, ...digits);
    return [{ id: `unclaimed:${nutrient}`, upper, terms }];
  });
  if (!main) return each;
  const declared = NUTRIENTS.filter((n) => !isForm(n)).reduce((sum, n) => sum + (content[n].stated ?? 0), 0);
  const silent = TRACES.filter((n) => content[n].stated === null);
  const terms = sources.map((s, i) => [sourceColumn(i), silent.reduce((sum, n) => sum + s.mg[n], 0)] as const);
  const all = { id: 'unclaimed:traces', upper: declared * TRACES_PER_REST };
  return [...each, { ...all, terms: Object.fromEntries(terms.filter(([, mg]) => mg > 0)) }];
}

/** Trace elements are traces: in a complete feed they come to a hundredth of the rest (common practice, no source); three times that at most. */
const TRACES_PER_REST = 0.03;

/** What is less than a tenth of a per cent need not be printed, %. */
export const PRINTS_AS_ZERO = 0.1;

/** What amounts of the sources come to. @param amounts mg of each, in their order; what comes after them is something else */
export function makeUpOf(sources: readonly Source[], amounts: readonly number[]): MakeUp {
  const mg = perNutrient(() => 0);
  const ions = { ...NONE };
  sources.forEach((source, i) => {
    const amount = amounts[i]!;
    if (!(amount > 0)) return;
    for (const n of NUTRIENTS) mg[n] += amount * source.mg[n];
    for (const ion of IONS) ions[ion] += amount * source.ions[ion];
  });
  return { mg, ions };
}

/** The ions of a make-up as sums over its sources. */
export const ionForms = (sources: readonly Source[]): number[][] =>
  TOLD_APART.map((ion) => sources.map(({ ions }) => ions[ion])).filter((form) => form.some((mmol) => mmol !== 0));

/** All that a make-up comes to as sums over the columns of its program, of which the first are its sources. */
export function makeUpForms(sources: readonly Source[], columns: number): number[][] {
  const rest = new Array<number>(columns - sources.length).fill(0);
  const mg = NUTRIENTS.map((n) => sources.map((source) => source.mg[n])).filter((form) => form.some((by) => by > 0));
  return [...ionForms(sources), ...mg].map((form) => [...form, ...rest]);
}

const IONS = Object.keys(NONE) as (keyof Ions)[];
/** A weak acid that no alkalinity or nutrient tells makes no other make-up. */
const TOLD_APART = IONS.filter((ion) => !(WEAK_ACIDS as readonly string[]).includes(ion));

const termsOf = (sources: readonly Source[], nutrient: Nutrient): Record<string, number> =>
  Object.fromEntries(sources.flatMap((s, i) => (s.mg[nutrient] > 0 ? [[sourceColumn(i), s.mg[nutrient]]] : [])));

const massRow = (sources: readonly Source[], most: number): Row => ({
  id: 'mass',
  upper: most,
  terms: Object.fromEntries(sources.map((_, i) => [sourceColumn(i), 1])),
});
