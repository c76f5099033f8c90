import type { Optimal } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresOf, measuresWithin } from '../dose/measure.js';
import { type Tool, toolsOf, usualMark } from '../dose/tools.js';
import { conductivity } from '../chemistry/conductivity.js';
import { conductingIons, ionsOfMix } from '../can/ec.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import { linearisationOfMix } from '../formulation/index.js';
import type { Amounts } from '../can/mix-amounts.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import { productColumn, waterColumn } from '../feed/terms.js';
import type { Batch } from './batch.js';
import type { Action } from './can-limits.js';
import type { PossibleCan } from './posterior.js';
import { roundDigits } from '../units/index.js';

/** Feed it as it is. */
export const nothing = ({ waters, shelf }: FeedRequest): Action => ({
  keep: 1,
  water: waters.map(() => 0),
  add: shelf.map(() => 0),
});

/** The columns of an answer. */
export function actionOf({ x }: Optimal, request: FeedRequest): Action {
  return {
    keep: Math.min(1, Math.max(0, x.keep ?? 0)),
    water: request.waters.map((_, i) => Math.max(0, x[waterColumn(i)] ?? 0)),
    add: request.shelf.map((_, i) => Math.max(0, x[productColumn(i)] ?? 0)),
  };
}

/**
 * Rounded to what the kit measures and to the marks of the jug; once as near as can be, once without what is too little to measure well.
 */
export function byHand(action: Action, request: FeedRequest, kit: Kit, room: Level): Action[] {
  const tools = toolsOf(kit);
  const toStep = (x: number, product: ClosedProduct): number | null => {
    const step = stepOf(product, kit);
    return step === null ? null : roundDigits(Math.round(x / step) * step, 9);
  };
  const well = action.add.map((x, i) => {
    const product = request.shelf[i]!;
    if (x <= 0) return 0;
    const near = measuresOf(product, tools, x)[0]?.amount ?? toStep(x, product);
    // far less than the smallest spoon is none; grams are for those who can measure it in no way at all
    return near ?? (countable(product, tools) ? 0 : roundDigits(x, 3));
  });
  // a scale or syringe can still hit a few of its steps, badly; a spoon cannot
  const near = action.add.map((x, i) => toStep(x, request.shelf[i]!) ?? well[i]!);
  const least = action.add.map((x, i) => (x < 0.5 * well[i]! ? 0 : well[i]!));
  const ways = new Map([near, well, least].map((add) => [add.join(), add]));
  return [...ways.values()].map((add) => byMarks({ ...action, add }, room));
}

/** Where a can stands, how far its jug is marked, and its brim: litres. */
export interface Level {
  litres: number;
  mark: number;
  capacityLitres: number;
}

/**
 * Pouring and filling to marks of the jug. What goes over the brim is filled into two jugs, each to a mark, and never over two brims; several
 * waters are measured one by one.
 */
export function byMarks({ keep, water, add }: Action, { litres, mark, capacityLitres }: Level): Action {
  const poured = Math.max(mark, onMark(keep * litres, mark));
  const pourTo = keep < 1 && poured < litres - mark * LITTLE ? poured : undefined;
  const stays = pourTo ?? litres;
  const wanted = keep * litres + water.reduce((a, b) => a + b, 0);
  const several = water.filter((x) => x > mark / 2).length > 1;
  if (several) {
    const measured = water.map((x) => onMark(x, mark));
    const over = stays + measured.reduce((a, b) => a + b, 0) > 2 * capacityLitres * (1 + DUST);
    if (!over) return withPouring({ keep: stays / litres, water: measured, add }, pourTo);
  }
  const main = water.indexOf(Math.max(...water));
  const level = levelOf(wanted, mark, capacityLitres);
  const filled = level > stays + mark * LITTLE;
  return withPouring(
    {
      keep: stays / litres,
      water: water.map((_, i) => (filled && i === main ? level - stays : 0)),
      add,
      ...(filled ? { fillTo: level } : {}),
    },
    pourTo,
  );
}

const withPouring = (action: Action, pourTo: number | undefined): Action =>
  pourTo === undefined ? action : { ...action, pourTo };

/** The mark nearest to a level; over the brim that of two jugs together, as far as they hold it. */
function levelOf(litres: number, mark: number, capacity: number): number {
  const one = Math.min(onMark(litres, mark), roundDigits(Math.floor(capacity / mark + DUST) * mark, 9));
  if (litres <= capacity * (1 + DUST) || onMark(litres, mark) <= capacity * (1 + DUST)) return one;
  return Math.min(onMark(litres, 2 * mark), roundDigits(Math.floor(capacity / mark + DUST) * 2 * mark, 9));
}

const onMark = (litres: number, mark: number): number => roundDigits(Math.round(litres / mark) * mark, 9);
/** Of a mark: hands do not see less. */
const LITTLE = 0.3;
const DUST = 1e-6;

/** How many jugs an action fills. */
export const jugsOf = (
  { fillTo, keep, water }: Action,
  { litres, capacityLitres }: Pick<Level, 'litres' | 'capacityLitres'>,
): 1 | 2 => ((fillTo ?? keep * litres + water.reduce((a, b) => a + b, 0)) > capacityLitres * (1 + DUST) ? 2 : 1);

/** Whether an action leaves the can as it is. */
export const doesNothing = ({ keep, water, add }: Action): boolean =>
  keep === 1 && water.every((x) => x === 0) && add.every((x) => x === 0);

/** The water that most of the batch was to be. */
export function mainWater({ waters }: FeedRequest, batch: Batch): number {
  const shares = waters.map(({ id }) => batch.waters.find(({ water }) => water.id === id)?.share ?? 0);
  return Math.max(0, shares.indexOf(Math.max(...shares)));
}

/** The step of the scale or syringe nearest to an amount, else the nearest measure. */
export function nearestMeasure(product: ClosedProduct, x: number, kit: Kit, tools: readonly Tool[]): number {
  const step = stepOf(product, kit);
  const [measure] = measuresOf(product, tools, x);
  if (step === null) return measure?.amount ?? (countable(product, tools) ? 0 : roundDigits(x, 3));
  return roundDigits(Math.round(x / step) * step, 9);
}

/** Places on the shelf of which an action wants so little that no measure of the kit comes near. */
export function tooLittle({ add }: Action, request: FeedRequest, kit: Kit): number[] {
  const tools = toolsOf(kit);
  return add.flatMap((x, i) => {
    if (!(x > 0)) return [];
    const [measure] = measuresOf(request.shelf[i]!, tools, x);
    return measure && Math.abs(measure.amount - x) <= NEAR * x ? [] : [i];
  });
}

/** A measure within this share of an amount can stand for it. */
const NEAR = 0.15;

/** Whether spoons or drops measure a product. */
const countable = (product: ClosedProduct, tools: readonly Tool[]): boolean =>
  measuresWithin(
    product,
    tools.filter(({ kind }) => kind === 'spoon' || kind === 'dropper'),
    0,
    Number.MAX_VALUE,
  ).length > 0;

/** The step of the scale or the syringe for a product, g or mL; null where the kit has none. */
export function stepOf(
  product: ClosedProduct,
  { scaleStepGrams, syringeMillilitres, syringeStepMillilitres }: Kit,
): number | null {
  if (product.form === 'powder') return scaleStepGrams ?? null;
  return syringeStepMillilitres ?? (syringeMillilitres === undefined ? null : usualMark(syringeMillilitres));
}

/** What a litre holds after an action. */
export function after(can: PossibleCan, { keep, water, add }: Action, batch: Batch, request: FeedRequest): Amounts {
  const litres = keep * can.litres + water.reduce((a, b) => a + b, 0);
  return {
    products: request.shelf.map((product, i) => {
      const at = batch.items.findIndex((item) => item.product.id === product.id);
      return (keep * (can.amounts[at] ?? 0) + add[i]!) / litres;
    }),
    waters: request.waters.map((w, i) => {
      const share = (can.waters ?? batch.waters).find(({ water: own }) => own.id === w.id)?.share ?? 0;
      return (keep * can.litres * share + water[i]!) / litres;
    }),
  };
}

/** The EC linearisation that touches the model at a can; null without a cap. */
export const linearisationFor = (amounts: Amounts, request: FeedRequest): EcLinearisation | null =>
  ecCap(request) === null ? null : linearisationOfMix(amounts, request);

/** Whether a can is over the EC cap by the full model. */
export function overCap(final: Amounts, request: FeedRequest): boolean {
  const cap = ecCap(request);
  return cap !== null && conductivity(conductingMix(final, request)) > cap * (1 + 1e-6);
}

const conductingMix = (amounts: Amounts, { shelf, waters }: FeedRequest) =>
  ionsOfMix(amounts, shelf, waters, 'value', conductingIons);
