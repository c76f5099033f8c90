import { type LinearProgram, regionOf, solve } from '../../solver/index.js';
import type { Ions } from '../chemistry/ions.js';
import { NUTRIENTS, type Nutrient, perNutrient } from '../chemistry/nutrients.js';
import { saltsOf } from '../chemistry/salts.js';
import {
  type Figure,
  figuresOf,
  ionForms,
  type MakeUp,
  makeUpForms,
  makeUpOf,
  makeUpsWithin,
  massOf,
  nearestMakeUp,
  unclaimed,
  USUAL_SHARE,
} from './undeclared-program.js';
import type { Composition } from './composition.js';
import { between, type Ends } from './counter-ions.js';
import { isForm, plausibleSources, SILENT, type Source, sourcesNamed } from './sources.js';

/** The ions of the ends of all make-ups that keep within a label. */
interface Span extends Pick<Ends<Ions>, 'leastConductive' | 'mostConductive'> {
  /** mg in one g or mL of what the label is silent on. */
  open: Map<Nutrient, { low: number; high: number }>;
}

/** All ends of a label: the most acid and the most alkaline make-up too. */
export interface WholeSpan extends Span, Ends<Ions> {}

/** The salts of a label in the amounts that give back its analysis. */
export interface Closed extends WholeSpan {
  verdict: 'closed';
  /** Nearest to the declared figures: least sum of relative deviations. */
  nearest: MakeUp;
  /** The same ends for nine of ten products with this label: whatever printing hides, and `USUAL_SHARE` of the allowances. */
  usual: Ends<Ions>;
}

/** No amounts of the named salts lie within the label's allowances; what the nearest of them would have instead. */
export interface Impossible {
  verdict: 'impossible';
  /** The worst figures, % of the product. */
  off: { nutrient: Nutrient; declared: number; nearest: number }[];
}

/** Null where there is no list, where a name in it is not understood, or where no proof was found. */
export type Closure = Closed | Impossible | null;

/**
 * Closes a label by what it is derived from. Columns are mg of each named salt, dry, in one g or mL; each declared figure is a row that
 * may miss by the label's allowance, or by its printed rounding, at most; the masses sum to the product or less. Least total relative
 * deviation gives the value, and all make-ups within those rows the ends of whatever the label does not declare.
 * @param density g/mL of a liquid, where known
 */
export async function closeBySources(
  composition: Composition,
  derivedFrom: readonly string[],
  density?: number,
): Promise<Closure> {
  const { known, unknown } = saltsOf(derivedFrom);
  if (known.length === 0 || unknown.length > 0) return null;
  const sources = sourcesNamed(known);
  const mass = massOf(composition, density);
  const declared = figuresOf(composition, mass);
  const others = unclaimed(composition, sources, mass, false);
  const within = (figures: readonly Figure[]) => {
    const program = nearestMakeUp(sources, figures, others, mass, true);
    const region = regionOf(program, makeUpForms(sources, program.columns.length));
    return { figures, near: program, point: () => region.point(program.columns.map(({ cost }) => cost)) };
  };
  let { figures, near, point } = within(declared);
  let nearest = await point();
  if (nearest === null && sources.length === 1) {
    ({ figures, near, point } = within(ofOneSalt(declared, mass.whole)));
    nearest = await point();
    // what is off is told of the allowances of the law
    if (nearest === null) figures = declared;
  }
  if (nearest === null) {
    if ((await solve(near)).verdict !== 'infeasible') return null;
    const far = nearestMakeUp(sources, figures, others, mass, false);
    const amounts = await regionOf(far, makeUpForms(sources, far.columns.length)).point(
      far.columns.map(({ cost }) => cost),
    );
    return amounts && impossible(makeUpOf(sources, amounts), figures, mass.whole);
  }
  const value = await amongNearest(sources, near, nearest);

  const { least, end } = endsOf(sources, makeUpsWithin(sources, figures, others, mass));
  const span = await spanOf(composition, sources, { least, end });
  const alkali = sources.some((s) => s.ions.alkalinity !== 0);
  const acid = alkali ? await end((s) => s.ions.alkalinity) : value.ions;
  const alkaline = alkali ? await end((s) => -s.ions.alkalinity) : value.ions;
  if (!span || !acid || !alkaline) return null;
  const ends = { leastConductive: span.leastConductive, mostConductive: span.mostConductive, acid, alkaline };
  const nearer = figuresOf(composition, mass, USUAL_SHARE);
  const usual = await usualEnds(
    value.ions,
    ends,
    alkali,
    endsOf(sources, makeUpsWithin(sources, nearer, others, mass)).end,
  );
  return { verdict: 'closed', nearest: value, ...span, acid, alkaline, usual };
}

/**
 * Room for the figures of one salt alone. Its elements and forms stand in a fixed ratio, so that a label which names no other says no
 * more than that salt by its rounded figures: 1.0 % ammoniacal for the 1.29 % of 5Ca(NO3)2·NH4NO3·10H2O. A twentieth of an element and
 * 0.3 points of a form (our own, no source).
 */
const ofOneSalt = (figures: readonly Figure[], whole: number): Figure[] =>
  figures.map((figure) => {
    const room = isForm(figure.nutrient) ? (0.3 * whole) / 100 : 0.05 * figure.mg;
    return { ...figure, under: Math.max(figure.under, room), over: Math.max(figure.over, room) };
  });

/**
 * Where several make-ups are equally near (two of the salts named bring the same), the value lies halfway between the least and the
 * most conductive of them: a list names no salt for nothing.
 */
async function amongNearest(
  sources: readonly Source[],
  program: LinearProgram,
  nearest: readonly number[],
): Promise<MakeUp> {
  const costs = program.columns.filter((c) => c.cost > 0).map((c): [string, number] => [c.id, c.cost]);
  const farthest = program.columns.reduce((sum, { cost }, j) => sum + cost * nearest[j]!, 0) + NO_FARTHER;
  const near = { id: 'near', upper: farthest, terms: Object.fromEntries(costs) };
  const region = regionOf({ ...program, rows: [...program.rows, near] }, makeUpForms(sources, program.columns.length));
  const conducting = program.columns.map((_, i) => sources[i]?.conducts ?? 0);
  const one = makeUpOf(sources, nearest);
  const [lowest, highest] = [await region.least(conducting), await region.least(times(conducting, -1))];
  if (lowest === null || highest === null || -highest < lowest * (1 + ALIKE)) return one;
  const least = await region.point(conducting);
  const most = await region.point(times(conducting, -1));
  if (!least || !most) return one;
  const [first, last] = [makeUpOf(sources, least), makeUpOf(sources, most)];
  return { mg: perNutrient((n) => (first.mg[n] + last.mg[n]) / 2), ions: between(first.ions, last.ions, 0.5) };
}

/** Sum of relative deviations that is the arithmetic of the program. */
const NO_FARTHER = 1e-6;
const ALIKE = 1e-3;

/** Where even the nearest make-up lies farther from a figure than is usual: part of the way from it to the ends. */
async function usualEnds(value: Ions, ends: Ends<Ions>, alkali: boolean, end: End): Promise<Ends<Ions>> {
  const [leastConductive, mostConductive] = [await end(conduct), await end((s) => -conduct(s))];
  const acid = alkali ? await end((s) => s.ions.alkalinity) : value;
  const alkaline = alkali ? await end((s) => -s.ions.alkalinity) : value;
  if (leastConductive && mostConductive && acid && alkaline) return { leastConductive, mostConductive, acid, alkaline };
  const part = (ions: Ions): Ions => between(value, ions, USUAL_SHARE);
  return {
    leastConductive: part(ends.leastConductive),
    mostConductive: part(ends.mostConductive),
    acid: part(ends.acid),
    alkaline: part(ends.alkaline),
  };
}

/**
 * What a label without a list that can be used leaves open of what labels may be silent on: over all amounts of every plausible source.
 * Null where none of them make the analysis.
 */
export async function openByCounterIons(composition: Composition, density?: number): Promise<Span['open'] | null> {
  const sources = plausibleSources(composition);
  if (sources.length === 0) return null;
  const mass = massOf(composition, density);
  const figures = figuresOf(composition, mass);
  const others = unclaimed(composition, sources, mass, true);
  return openOf(composition, sources, endsOf(sources, makeUpsWithin(sources, figures, others, mass)), (n) =>
    SILENT.has(n),
  );
}

/** The ions of the make-up with the least sum of a figure per mg of source. */
type End = (of: (source: Source) => number) => Promise<Ions | null>;

interface EndsOf {
  end: End;
  /** The least sum alone. */
  least(of: (source: Source) => number): Promise<number | null>;
}

function endsOf(sources: readonly Source[], program: LinearProgram): EndsOf {
  // different salts may bring the same ions (and urea none), so that make-ups are told apart by those alone
  const region = regionOf(program, ionForms(sources));
  return {
    async end(of) {
      const amounts = await region.point(sources.map(of));
      return amounts && makeUpOf(sources, amounts).ions;
    },
    least: (of) => region.least(sources.map(of)),
  };
}

async function spanOf(composition: Composition, sources: readonly Source[], ends: EndsOf): Promise<Span | null> {
  const [leastConductive, mostConductive] = [await ends.end(conduct), await ends.end((s) => -conduct(s))];
  const open = await openOf(composition, sources, ends, () => true);
  return leastConductive && mostConductive && open && { leastConductive, mostConductive, open };
}

async function openOf(
  { content }: Composition,
  sources: readonly Source[],
  { least }: EndsOf,
  asked: (nutrient: Nutrient) => boolean,
): Promise<Span['open'] | null> {
  const open = new Map<Nutrient, { low: number; high: number }>();
  for (const nutrient of NUTRIENTS.filter((n) => content[n].stated === null && asked(n))) {
    const brought = sources.some((s) => s.mg[nutrient] > 0);
    const low = brought ? await least((s) => s.mg[nutrient]) : 0;
    const high = brought ? await least((s) => -s.mg[nutrient]) : 0;
    if (low === null || high === null) return null;
    open.set(nutrient, { low: Math.max(0, low), high: Math.max(0, -high) });
  }
  return open;
}

const conduct = ({ conducts }: Source): number => conducts;
const times = (values: readonly number[], factor: number): number[] => values.map((value) => factor * value);

function impossible({ mg }: MakeUp, figures: readonly Figure[], whole: number): Impossible {
  const off = figures
    .map((f) => ({ ...f, found: mg[f.nutrient] }))
    .filter(({ found, mg: declared, under, over }) => {
      return found > declared + over * (1 + 1e-6) || found < declared - under * (1 + 1e-6);
    })
    .map((f) => ({ nutrient: f.nutrient, declared: (100 * f.mg) / whole, nearest: (100 * f.found) / whole }));
  return { verdict: 'impossible', off };
}
