import type { DosePlan } from '../../src/dose/plan-types.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { LinearProgram, Row } from '../../solver/index.js';
import { dice } from '../solver/dice.js';
import { independent } from '../solver/independent.js';

/** What stands here is written from the design alone: no rows, spreads or counts of the tool's own. */

const MAIN: readonly string[] = ['P', 'K', 'Ca', 'Mg', 'S'];
type End = 'low' | 'stated' | 'high';

/** mg per g or mL. */
function holds({ composition, ions }: FeedRequest['shelf'][number], nutrient: string, end: End): number {
  // mg of CaCO3 that a meq of alkalinity is
  if (nutrient === 'alkalinity') return 50.04 * ions.value.alkalinity;
  const content = composition.content[nutrient as Nutrient];
  return end === 'stated' ? (content.stated ?? content.low) : content[end];
}

/** Σ weight · nutrient as a row over products; rain holds next to nothing and is counted by `rain`. */
function terms({ shelf }: FeedRequest, weights: Record<string, number>, side: 'floor' | 'cap' | 'stated') {
  return Object.fromEntries(
    shelf.map((product, i) => [
      `x${i}`,
      Object.entries(weights).reduce((sum, [nutrient, w]) => {
        const end: End = side === 'stated' ? 'stated' : (side === 'floor') === w > 0 ? 'low' : 'high';
        return sum + w * holds(product, nutrient, end);
      }, 0),
    ]),
  );
}

/** mg/L in rain; its nitrogen is the sum of its forms where no total is told. */
function rain({ waters }: FeedRequest, weights: Record<string, number>): number {
  const told = (n: string): number | undefined =>
    n === 'alkalinity' ? waters[0]!.alkalinity : waters[0]!.mgPerLitre[n as Nutrient];
  const of = (n: string): number => told(n) ?? (n === 'N' ? (told('NO3-N') ?? 0) + (told('NH4-N') ?? 0) : 0);
  return Object.entries(weights).reduce((sum, [nutrient, w]) => sum + w * of(nutrient), 0);
}

/** The aims with main and trace elements, times from each. */
export function aims({ programme }: FeedRequest): [nutrient: string, aim: number][] {
  return Object.entries(programme.bands).flatMap(([nutrient, { aim }]) =>
    aim ? [[nutrient, aim] as [string, number]] : [],
  );
}

const times = (nutrient: string, width: number): number => (MAIN.includes(nutrient) ? width : (width * 2) / 1.35);

/** How many times from its aim a mix is, in the measure of main elements; `own` elements only. */
export function widthOf(request: FeedRequest, amounts: readonly number[], skip: ReadonlySet<string>): number {
  let most = 1;
  for (const [nutrient, aim] of aims(request)) {
    if (nutrient === 'N' || skip.has(nutrient)) continue;
    const held = heldIn(request, amounts, nutrient);
    const ratio = Math.max(held / aim, aim / held);
    most = Math.max(most, MAIN.includes(nutrient) ? ratio : (ratio * 1.35) / 2);
  }
  return most;
}

/** mg/L by the labels. */
export function heldIn(request: FeedRequest, amounts: readonly number[], nutrient: string): number {
  const weights = { [nutrient]: 1 };
  const own = terms(request, weights, 'stated');
  return amounts.reduce((sum, x, i) => sum + x * own[`x${i}`]!, rain(request, weights));
}

/** Aims that nothing on the shelf brings. */
export function missing(request: FeedRequest): Set<string> {
  const held = (n: string) => request.shelf.some((p) => holds(p, n, 'stated') > 0) || rain(request, { [n]: 1 }) > 0;
  return new Set(aims(request).flatMap(([n]) => (held(n) ? [] : [n])));
}

/** What a mix is held to. */
export interface Held {
  width: number;
  /** Share of its aim within which nitrogen lies. */
  nitrogen?: number;
  /** Whether leasts that only convention stands behind hold. */
  custom: boolean;
  skip: ReadonlySet<string>;
  /** Only mixes that hands can make: each product at what the kit measures at least or not at all, each band in 85 of 100 cans. */
  byHand?: boolean;
}

/** Rows of the limits, without the EC cap, and of a width around the aims. */
export function program(
  request: FeedRequest,
  { width, nitrogen = 0.02, custom, skip, byHand = false }: Held,
): LinearProgram {
  const rows: Row[] = [];
  const add = (
    weights: Record<string, number>,
    side: 'floor' | 'cap' | 'stated',
    ends: { lower?: number; upper?: number },
    by = 1,
  ) => {
    const water = rain(request, weights);
    const shifted = Object.fromEntries(Object.entries(ends).map(([end, value]) => [end, value - water]));
    const own = Object.entries(terms(request, weights, side)).map(([id, term]) => [id, term * by]);
    rows.push({ id: `r${rows.length}`, terms: Object.fromEntries(own), ...shifted });
  };
  const band = (nutrient: string, side: 'floor' | 'cap', bound: number) => {
    const sign = side === 'floor' ? -1 : 1;
    const ends = side === 'floor' ? { lower: bound } : { upper: bound };
    if (!byHand) return add({ [nutrient]: 1 }, side, ends);
    const spread = IN_85 * leastSpread(request, nutrient);
    add({ [nutrient]: 1 }, side, ends, 1 + sign * spread);
    // two errors together are at least their sum over the root of two
    request.shelf.forEach((product, i) => {
      const off = (IN_85 * WEIGHED_WITHIN * holds(product, nutrient, 'stated')) / CAN;
      if (product.form !== 'powder' || off === 0) return;
      add({ [nutrient]: 1 }, side, ends, 1 + (sign * spread) / Math.SQRT2);
      Object.assign(rows.at(-1)!.terms, { [`used-x${i}`]: (sign * off) / Math.SQRT2 });
    });
  };
  for (const [nutrient, { min, max }] of Object.entries(request.programme.bands)) {
    const tried = request.programme.evidence.some(
      ({ of, evidence }) => of.kind === 'band' && of.nutrient === nutrient && evidence === 'trial',
    );
    const isCustom = !tried && !['N', 'P', 'K', 'Ca', 'Mg'].includes(nutrient);
    if (min && (custom || !isCustom)) band(nutrient, 'floor', min);
    if (max !== undefined) band(nutrient, 'cap', max);
  }
  for (const rule of [...request.programme.rules, ...request.rules]) {
    if (rule.kind !== 'linear') continue;
    const weights = rule.terms as Record<string, number>;
    if (rule.upper !== undefined) add(weights, 'cap', { upper: rule.upper });
    if (rule.lower !== undefined) add(weights, 'floor', { lower: rule.lower });
  }
  for (const [nutrient, aim] of aims(request)) {
    if (skip.has(nutrient)) continue;
    const share = 1 + nitrogen;
    if (nutrient === 'N') add({ N: 1 }, 'stated', { lower: aim * (1 - nitrogen), upper: aim * share });
    else if (Number.isFinite(width)) {
      const by = times(nutrient, width);
      add({ [nutrient]: 1 }, 'stated', { lower: aim / by, upper: aim * by });
    }
  }
  const columns = request.shelf.map((product, i) => ({
    id: `x${i}`,
    cost: product.price !== undefined && product.pack ? product.price / product.pack : 0,
    lower: 0,
    ...(product.maxRate === undefined ? {} : { upper: product.maxRate as number }),
  }));
  if (!byHand) return { columns, rows };
  // a product is in it or not
  const used = columns.map(({ id }) => ({ id: `used-${id}`, cost: 0, lower: 0, upper: 1, integer: true }));
  request.shelf.forEach(({ form }, i) => {
    const [id, least] = [`x${i}`, LEAST_DOSE[form] / CAN];
    rows.push({ id: `least ${id}`, lower: 0, terms: { [id]: 1, [`used-${id}`]: -least } });
    rows.push({ id: `most ${id}`, upper: 0, terms: { [id]: 1, [`used-${id}`]: -MOST_DOSE } });
  });
  return { columns: [...columns, ...used], rows };
}

/** Litres of the can. */
const CAN = 4;
/** g on a 0.01 g scale (good to 0.025 g), mL of a syringe with marks of 0.01 mL: common practice, no source. */
const LEAST_DOSE = { powder: 0.06, liquid: 0.02 };
/** g by which a weighing is off, a standard deviation, as in `cansThatHold`. */
const WEIGHED_WITHIN = 0.01;
/** g or mL per litre: more is no feed. */
const MOST_DOSE = 50;
/** Standard deviations between a limit and a figure that keeps it in 85 of 100 cans (normal distribution). */
const IN_85 = 1.036;

/**
 * What a band's figure varies by at least, whatever the mix, as a share of what products bring: the can is filled to 2 %, and jars differ as in
 * `cansThatHold`, the least where every jar that holds it brings the same.
 */
function leastSpread(request: FeedRequest, nutrient: string): number {
  const jars = request.shelf.filter((product) => holds(product, nutrient, 'stated') > 0);
  const own = Math.min(...jars.map(({ formula }) => (formula === undefined ? spreadOf(nutrient) : 0.01)));
  return jars.length === 0 ? 0 : Math.hypot(0.02, own / Math.sqrt(jars.length));
}

const spreadOf = (n: string): number => (MAIN.includes(n) || /^(N|.*-N)$/.test(n) ? 0.03 : 0.08);

/** The least width at or above the usual one at which there is a mix, by bisection; null where there is none at all. */
export async function leastWidth(
  request: FeedRequest,
  custom: boolean,
  skip: ReadonlySet<string>,
  byHand = false,
): Promise<number | null> {
  const does = async (width: number) =>
    (await independent(program(request, { width, custom, skip, byHand }))).status === 'optimal';
  if (await does(1.35)) return 1.35;
  if (!(await does(1e4))) return null;
  let [low, high] = [1.35, 1e4];
  while (high / low > 1.002) {
    const middle = Math.sqrt(low * high);
    if (await does(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The least money per litre. */
export async function leastCost(request: FeedRequest, at: Parameters<typeof program>[1]): Promise<number> {
  return (await independent(program(request, at))).objective;
}

/**
 * Cans of 100 that keep every band and rule but `told` leasts: jars within a few percent of their labels, more so in traces; doses by a scale
 * good to 0.02 g, a syringe to half a mark, a level spoon to a tenth; the can filled to 2 %. All of it common practice, no source.
 */
export function cansThatHold(request: FeedRequest, plan: DosePlan, told: ReadonlySet<string>, seed = 11): number {
  const d = dice(seed);
  const z = (): number => Math.sqrt(-2 * Math.log(1 - d.unit())) * Math.cos(2 * Math.PI * d.unit());
  const doses = request.shelf.map(({ id }) => plan.items.find(({ product }) => product.id === id)?.chosen);
  const nutrients = new Set<string>(Object.keys(request.programme.bands));
  const rules = [...request.programme.rules, ...request.rules].flatMap((rule) =>
    rule.kind === 'linear' ? [rule] : [],
  );
  for (const rule of rules) for (const nutrient of Object.keys(rule.terms)) nutrients.add(nutrient);
  let kept = 0;
  const cans = 1000;
  for (let can = 0; can < cans; can += 1) {
    const litres = 4 * (1 + 0.02 * z());
    const hand = 1 + 0.05 * z();
    const held: Record<string, number> = Object.fromEntries([...nutrients].map((n) => [n, rain(request, { [n]: 1 })]));
    for (const [i, dose] of doses.entries()) {
      if (!dose) continue;
      const product = request.shelf[i]!;
      const amount =
        dose.tool === 'scale'
          ? dose.amount + WEIGHED_WITHIN * z()
          : dose.tool === 'syringe'
            ? dose.amount * (1 + 0.02 * z()) + 0.01 * z()
            : dose.amount * hand * (1 + (0.1 / Math.sqrt(Math.max(1, dose.actions))) * z());
      const isPure = product.formula !== undefined;
      const whole = 1 + 0.01 * z();
      const nitrogen = 1 + 0.03 * z();
      for (const n of nutrients) {
        const jar = isPure
          ? whole
          : /N$/.test(n) && n !== 'Mn' && n !== 'Zn'
            ? nitrogen
            : 1 + (MAIN.includes(n) ? 0.03 : 0.08) * z();
        held[n]! += (Math.max(0, amount) / litres) * holds(product, n, 'stated') * jar;
      }
    }
    const inBands = Object.entries(request.programme.bands).every(
      ([n, { min, max }]) => (!min || told.has(n) || held[n]! >= min) && (max === undefined || held[n]! <= max),
    );
    const inRules = rules.every(({ terms: weights, lower, upper }) => {
      const sum = Object.entries(weights).reduce((s, [n, w]) => s + w * held[n]!, 0);
      return (lower === undefined || sum >= lower) && (upper === undefined || sum <= upper);
    });
    if (inBands && inRules) kept += 1;
  }
  return (100 * kept) / cans;
}
