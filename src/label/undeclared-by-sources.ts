import { type LinearProgram, type Row, solve } from '../../solver/index.js';
import { formula, nutrientsPerGram } from '../chemistry/formula.js';
import { type Ions, ionsPerGram } from '../chemistry/ions.js';
import { linearEcOfIons } from '../chemistry/linear-ec.js';
import { NITROGEN_FORMS, NUTRIENTS, type Nutrient, type PerNutrient, perNutrient } from '../chemistry/nutrients.js';
import { type Salt, saltsOf } from '../chemistry/salts.js';
import { allowance, primaryAllowance } from './allowance.js';
import type { Composition, Content } from './composition.js';

/** One way in which the named salts can make up one g or mL: mg of each nutrient and its ions in mmol. */
export interface MakeUp {
  mg: PerNutrient<number>;
  ions: Ions;
}

/** The salts of a label in the amounts that give back its analysis. */
export interface Closed {
  verdict: 'closed';
  /** Nearest to the declared figures: least sum of relative deviations. */
  nearest: MakeUp;
  /** As near to the label as that within `SLACK`: the least and most conductive make-up, the least and most alkaline. */
  dim: MakeUp;
  bright: MakeUp;
  acid: MakeUp;
  alkaline: MakeUp;
  /** mg of what the label is silent on, over all such make-ups. */
  open: Map<Nutrient, { low: number; high: number }>;
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
 * Sum of relative deviations that other make-ups may have beyond the nearest: a label's figures are rounded to some 1 % each,
 * and half a dozen decide.
 */
const SLACK = 0.03;

/**
 * Closes a label by what it is derived from. Columns are mg of each named salt, dry, in one g or mL; each declared figure is a row that
 * may miss by the label's allowance at most; the masses sum to the product or less. Least total relative deviation gives the
 * make-up, and with that held the ends of whatever the label does not declare.
 * @param most mg of dry matter in one g or mL
 */
export async function closeBySources(
  { content }: Composition,
  derivedFrom: readonly string[],
  most: number,
): Promise<Closure> {
  const { known, unknown } = saltsOf(derivedFrom);
  if (known.length === 0 || unknown.length > 0) return null;
  const sources = [...new Set(known.flatMap(kinds))].map(asSource);
  const declared = targets(content, most);
  const model = programOf(sources, declared, most);
  const nearest = await solve(model(true));
  if (nearest.verdict === 'infeasible') return impossible(await solve(model(false)), sources, declared, most);
  if (nearest.verdict !== 'optimal') return null;

  const held: Row = {
    id: 'near',
    upper: nearest.objective + SLACK,
    terms: Object.fromEntries(
      model(true)
        .columns.filter((c) => c.cost > 0)
        .map((c) => [c.id, c.cost]),
    ),
  };
  const base = model(true);
  const end = async (of: (source: Source) => number, sign: 1 | -1): Promise<MakeUp | null> => {
    const verdict = await solve({
      rows: [...base.rows, held],
      columns: base.columns.map((c) => {
        const source = sources[Number(c.id.slice(1))];
        return { ...c, cost: c.id.startsWith('s') ? sign * of(source!) : 0 };
      }),
    });
    return verdict.verdict === 'optimal' ? makeUp(sources, verdict.x) : null;
  };
  const [dim, bright] = [await end(conduct, 1), await end(conduct, -1)];
  const value = makeUp(sources, nearest.x);
  const alkali = sources.some((s) => s.ions.alkalinity !== 0);
  const acid = alkali ? await end((s) => s.ions.alkalinity, 1) : value;
  const alkaline = alkali ? await end((s) => s.ions.alkalinity, -1) : value;
  if (!dim || !bright || !acid || !alkaline) return null;
  const open = new Map<Nutrient, { low: number; high: number }>();
  for (const nutrient of OPEN.filter((n) => content[n].stated === null)) {
    const held = sources.some((s) => s.mg[nutrient] > 0);
    const [low, high] = held
      ? [await end((s) => s.mg[nutrient], 1), await end((s) => s.mg[nutrient], -1)]
      : [value, value];
    if (low && high) open.set(nutrient, { low: low.mg[nutrient], high: high.mg[nutrient] });
  }
  return { verdict: 'closed', nearest: value, dim, bright, acid, alkaline, open };
}

/** What a label may be silent on and a list of salts can tell. */
const OPEN: readonly Nutrient[] = ['S', 'Na', 'Cl'];

/** One mg of a dry salt. */
interface Source {
  mg: PerNutrient<number>;
  ions: Ions;
}

const conduct = (source: Source): number => linearEcOfIons(source.ions);

/**
 * "Calcium nitrate" may be the double salt as well, as it is sold to growers; soluble silicates hold up to four times the silica of
 * their formula (both common practice, no source).
 */
function kinds({ name, formula: text }: Salt): string[] {
  if (name === 'calcium nitrate') return [text, '5Ca(NO3)2·NH4NO3·10H2O'];
  return name.endsWith(' silicate') ? [text, 'SiO2'] : [text];
}

/**
 * Without water of crystallisation, which labels seldom tell and spray-dried products do not hold. The nitrogen of chelating agents
 * is no plant food and no label claims it.
 */
function asSource(text: string): Source {
  const bare = text
    .split('·')
    .filter((part) => !/^\d*H2O$/.test(part))
    .join('·');
  const read = formula(bare);
  const mg = nutrientsPerGram(read);
  const ions = ionsPerGram(read);
  const claimed = (n: Nutrient): number => {
    if (n === 'other-N') return 0;
    return n === 'N' ? mg.N - mg['other-N'] : mg[n];
  };
  const chelate = TRACES.some((trace) => mg[trace] > 0);
  return {
    mg: perNutrient((n) => (chelate ? claimed(n) : mg[n]) / 1000),
    ions: Object.fromEntries(Object.entries(ions).map(([ion, mmol]) => [ion, mmol / 1000])) as unknown as Ions,
  };
}

const TRACES: readonly Nutrient[] = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo', 'Co', 'Ni'];

interface Target {
  nutrient: Nutrient;
  /** mg in one g or mL. */
  mg: number;
  allowed: number;
  /** What a deviation is counted against. */
  size: number;
}

/** Every declared figure; forms of nitrogen that are settled at none count as declared too. */
function targets(content: PerNutrient<Content>, most: number): Target[] {
  return NUTRIENTS.flatMap((nutrient): Target[] => {
    const { low, stated, high } = content[nutrient];
    const isForm = (NITROGEN_FORMS as readonly Nutrient[]).includes(nutrient);
    const mg = stated ?? (isForm && low === high ? low : null);
    if (mg === null || (isForm && nutrient === 'other-N' && mg === 0)) return [];
    const percent = (100 * mg) / most;
    const share = allowance(nutrient, percent) ?? primaryAllowance(nutrient, percent);
    const allowed = (share * most) / 100;
    return [{ nutrient, mg, allowed, size: mg > 0 ? mg : Math.max(allowed, most / 100) }];
  });
}

type Model = (within: boolean) => LinearProgram;

function programOf(sources: readonly Source[], declared: readonly Target[], most: number): Model {
  const salts = sources.map((_, i) => ({ id: `s${i}`, cost: 0 }));
  const misses = declared.flatMap(({ nutrient, size }) =>
    ['over', 'under'].map((side) => ({ id: `${side}:${nutrient}`, cost: 1 / size })),
  );
  const rows: Row[] = declared.map(({ nutrient, mg }) => ({
    id: `is:${nutrient}`,
    lower: mg,
    upper: mg,
    terms: {
      ...Object.fromEntries(sources.map((s, i) => [`s${i}`, s.mg[nutrient]])),
      [`over:${nutrient}`]: -1,
      [`under:${nutrient}`]: 1,
    },
  }));
  rows.push({ id: 'mass', upper: most, terms: Object.fromEntries(sources.map((_, i) => [`s${i}`, 1])) });
  const bound = new Map(declared.map((t) => [t.nutrient as string, t.allowed]));
  return (within) => ({
    rows,
    columns: [...salts, ...misses.map((c) => (within ? { ...c, upper: bound.get(c.id.split(':')[1]!)! } : c))],
  });
}

function makeUp(sources: readonly Source[], x: Record<string, number>): MakeUp {
  const sum = (of: (source: Source) => number): number =>
    sources.reduce((total, source, i) => total + Math.max(0, x[`s${i}`] ?? 0) * of(source), 0);
  const ions = Object.fromEntries(
    (Object.keys(sources[0]!.ions) as (keyof Ions)[]).map((ion) => [ion, sum((s) => s.ions[ion])]),
  ) as unknown as Ions;
  return { mg: perNutrient((n) => sum((s) => s.mg[n])), ions };
}

function impossible(
  verdict: Awaited<ReturnType<typeof solve>>,
  sources: readonly Source[],
  declared: readonly Target[],
  most: number,
): Impossible | null {
  if (verdict.verdict !== 'optimal') return null;
  const { mg } = makeUp(sources, verdict.x);
  const off = declared
    .map((t) => ({ ...t, found: mg[t.nutrient] }))
    .filter((t) => Math.abs(t.found - t.mg) > t.allowed * (1 + 1e-6))
    .map((t) => ({ nutrient: t.nutrient, declared: (100 * t.mg) / most, nearest: (100 * t.found) / most }));
  return { verdict: 'impossible', off };
}
