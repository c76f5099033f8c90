import { solutionChemistry } from '../chemistry/solution/index.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import { concentrate } from '../stock/concentrate.js';
import { type Millilitres, millilitres } from '../units/index.js';
import { hypot } from '../units/elementary.js';
import { type Bottle, type Measure, measuresWithin, volumesWithin } from './measure.js';
import type { Short } from './offered.js';
import type { PenInHand } from './by-pen-types.js';
import { leastByPen } from './plan-by-pen.js';
import { planKept } from './plan-once.js';
import type { TrialPlan } from './plan-types.js';
import { stockRequest } from './stock-request.js';
import { type Tool, toolsOf } from './tools.js';

/** A bottle of one item that the kit can make, with every dose that it can take from it. */
export interface BottleOf {
  product: ClosedProduct;
  /** How far the kit alone is off what is wanted of it, as a share. */
  off: number;
  levels: readonly Measure[];
}

/** Bottles that stand in a kitchen, mL. */
const BOTTLES = [100, 250, 500, 1000].map(millilitres);
/** mL that a hand takes from a bottle for a can, about. */
const DOSE = { least: 2, most: 25 };
/** A bottle is filled at least so surely, level spoons of the catalog's bulk density included, and a dose taken (relative standard deviations). */
const SURE = { holds: 0.13, dose: 0.08 };
/** Cans that a bottle does for: fewer are not worth the work, and more would stand for a year. */
const CANS = { least: 8, most: 60 };
/** So far off, hand and step together, is a dose by the kit alone where a bottle is worth its work. */
const COARSE = 0.06;
/** Bottles of one item of which it is asked whether they dissolve. */
const TRIED = 5;
/** Where one does not, the next is so much weaker. */
const WEAKER = 0.8;
/** Bottles beside one can: more are a chemist's shelf. */
const MOST_BOTTLES = 3;
/** Items that a bottle is thought of, the coarsest first. */
const MOST_ITEMS = 5;

/**
 * Doses that keep the limits, with as few items as will do taken from a bottle of their own: with one bottle, then two, then three, as they
 * are asked for.
 */
export async function* bottledPlans(short: Short): AsyncGenerator<TrialPlan> {
  const { request, amounts, kit, options } = short;
  const bottles = bottlesFor(short);

  for (let count = 1; count <= Math.min(MOST_BOTTLES, bottles.length); count += 1) {
    for (const some of subsets(bottles, count)) {
      const steered = new Map(some.map(({ product, levels }) => [product.id, levels]));
      const plan = await planKept(request, amounts, kit, { ...options, steered });
      // a bottle that stands unused is tried among the fewer
      if (plan && bottlesIn(plan).length === count) yield plan;
    }
  }
}

/** The bottles that doses are taken from. */
export const bottlesIn = ({ items }: Pick<TrialPlan, 'items'>): { product: ClosedProduct; bottle: Bottle }[] =>
  items.flatMap(({ product, chosen: { bottle } }) => (bottle ? [{ product, bottle }] : []));

/** Of so many, the first ones first. */
function subsets<T>(all: readonly T[], count: number): T[][] {
  if (count === 0) return [[]];
  return all.flatMap((one, i) => subsets(all.slice(i + 1), count - 1).map((rest) => [one, ...rest]));
}

/** The items that the kit measures coarsely, and no pen steers, each with the doses from a bottle of its own, the coarsest first. */
export function bottlesFor({ request, amounts, kit, options }: Short): BottleOf[] {
  const tools = toolsOf(kit);
  const known = options.known ?? request.market ?? [];
  if (!options.solubility || tools.every((tool) => tool.assumed)) return [];
  return request.shelf
    .map((product, i): Wanted => ({ product, perLitre: amounts.products[i] ?? 0, tools, known }))
    .filter(({ perLitre }) => perLitre > 1e-12)
    .map((item) => ({ item, off: offByKit(item, request) }))
    .filter(({ off, item }) => off > COARSE && !isSteered(item, request, options.pen))
    .sort((a, b) => b.off - a.off)
    .slice(0, MOST_ITEMS)
    .flatMap(({ item, off }) => {
      const levels = levelsOf(item, { request, amounts, kit, options });
      return levels ? [{ product: item.product, off, levels }] : [];
    });
}

interface Wanted {
  product: ClosedProduct;
  /** g or mL. */
  perLitre: number;
  tools: readonly Tool[];
  known: readonly PowderKnown[];
}

const litresOf = ({ header }: FeedRequest): number => header.batchLitres!;

/** How far the best measure of the kit is off what is wanted, with its own spread; 1 where there is none near. */
function offByKit({ product, perLitre, tools, known }: Wanted, request: FeedRequest): number {
  const wanted = perLitre * litresOf(request);
  const near = measuresWithin(product, tools, wanted / 2, 2 * wanted, known);
  return Math.min(1, ...near.map(({ amount, sd }) => hypot(amount - wanted, sd) / wanted));
}

function isSteered({ product, perLitre, known }: Wanted, request: FeedRequest, pen: PenInHand | undefined): boolean {
  const least = pen ? leastByPen(product, request, pen, known) : null;
  return least !== null && perLitre * litresOf(request) >= TIMES * least;
}

/** Of the least that a pen steers as the first of a can: with others in the can it takes more. */
const TIMES = 4;

interface Filled {
  millilitres: Millilitres;
  holds: Measure;
  /** Lower is better. */
  score: number;
  ratio: number;
}

/** The doses from the surest bottle that dissolves when it is cold; null where the kit can make none. */
function levelsOf(item: Wanted, { request, amounts, kit, options }: Short): Measure[] | null {
  const { product, perLitre, tools } = item;
  const filled = BOTTLES.flatMap((bottle) => fillings(item, bottle, litresOf(request))).sort(
    (a, b) => a.score - b.score,
  );
  let strongest = Number.POSITIVE_INFINITY;
  for (let tries = 0; tries < TRIED; tries += 1) {
    const next = filled.find(({ holds: { amount }, millilitres: size }) => amount / size < WEAKER * strongest);
    if (!next) return null;
    const { millilitres: bottle, holds, ratio } = next;
    strongest = holds.amount / bottle;
    const made = concentrate(
      stockRequest([{ product, perLitre }], amounts, request, { ratio, bottle, kit }),
      solutionChemistry,
      options.solubility!,
    );
    if (made.status !== 'made' || made.apart.length > 0) continue;
    const perMillilitre = holds.amount / bottle;
    const usual = (perLitre * litresOf(request)) / perMillilitre;
    return volumesWithin(tools, 0, 4 * usual)
      .filter(({ sd, amount }) => sd <= 2 * SURE.dose * amount)
      .map((dose) => ({
        tool: 'stock',
        words: `${dose.words} of its stock`,
        amount: dose.amount * perMillilitre,
        actions: dose.actions,
        sd: perMillilitre * hypot(dose.sd, (dose.amount * holds.sd) / holds.amount),
        bottle: { millilitres: bottle, holds, dose },
      }));
  }
  return null;
}

/** What the kit can put into a bottle so that a dose of it brings what is wanted. */
function fillings({ product, perLitre, tools, known }: Wanted, bottle: Millilitres, litres: number): Filled[] {
  const wanted = perLitre * litres;
  const [least, most] = [bottle / CANS.most, bottle / CANS.least].map((mL) =>
    Math.min(Math.max(mL, DOSE.least), DOSE.most),
  );
  const doses = volumesWithin(tools, least!, most!).filter(({ sd, amount }) => sd <= SURE.dose * amount);
  const fewest = doses.filter(({ actions }) => actions <= 3);
  const holds = measuresWithin(product, tools, (wanted * bottle) / most!, (wanted * bottle) / least!, known).filter(
    ({ sd, amount }) => sd <= SURE.holds * amount,
  );
  return holds.flatMap((own) => {
    const exact = (wanted * bottle) / own.amount;
    const dose = nearest(fewest, exact);
    if (!dose || Math.abs(dose.amount - exact) > FAR * exact) return [];
    const off = hypot(own.sd / own.amount, dose.sd / dose.amount, (dose.amount - exact) / exact);
    const whole = Math.abs(dose.amount - Math.round(dose.amount)) < 1e-9 ? 0 : ROUND;
    const score = off + ACTION * (dose.actions + own.actions / 4) + whole + SIZE * bottle;
    return [{ millilitres: bottle, holds: own, score, ratio: (1000 * own.amount) / bottle / perLitre }];
  });
}

/** The dose that a bottle is meant for may be so far off what is wanted; doses near it come closer. */
const FAR = 0.2;
/** What a scoop more, a broken number of mL and a mL of bottle count beside a share of the dose (judgement). */
const ACTION = 0.01;
const ROUND = 0.005;
const SIZE = 2e-5;

const nearest = (doses: readonly Measure[], millilitresWanted: number): Measure | undefined =>
  doses.reduce<Measure | undefined>(
    (best, one) =>
      best && Math.abs(best.amount - millilitresWanted) <= Math.abs(one.amount - millilitresWanted) ? best : one,
    undefined,
  );
