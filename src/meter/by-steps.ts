import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresOf } from '../dose/measure.js';
import { type Tool, toolsOf } from '../dose/tools.js';
import type { FeedRequest } from '../feed/request.js';
import type { Batch } from './batch.js';
import type { Action } from './can-limits.js';
import { stepOf, waterStep } from './remedy-action.js';
import type { Candidate, Weigh } from './weigh-remedy.js';
import { roundDecimals, roundDigits } from '../units/index.js';

/** Room of the can and the least that a remedy keeps. */
export interface Room {
  litres: number;
  capacityLitres: number;
  leastLitres: number;
  leastKept: number;
  /** g or mL of each product that is left on the shelf, by place. */
  left: readonly number[];
}

/**
 * Moves a remedy by steps of the kit and of the jug or 2 % poured off while that is worth more: the program hedges each limit by itself,
 * this hedges them together, hands included. Steepest first; ends where no step helps.
 */
export function movedBySteps(
  from: Candidate,
  weigh: Weigh,
  request: FeedRequest,
  batch: Batch,
  kit: Kit,
  room: Room,
): Candidate {
  const tools = toolsOf(kit);
  const jug = waterStep(batch);
  let best = from;
  for (let round = 0; round < ROUNDS; round += 1) {
    const [at, before] = [best.action, best];
    for (const action of [
      ...doses(at, request, batch, kit, tools),
      ...waters(at, jug),
      ...pourings(at),
      ...wholes(at, request, kit, tools, jug),
    ]) {
      if (!fits(action, room)) continue;
      const candidate = weigh(action, from.verdict, best.worth + WORTH_A_STEP);
      if (candidate.worth > best.worth + WORTH_A_STEP) best = candidate;
    }
    if (best === before) break;
  }
  return best;
}

const ROUNDS = 20;
/** Half a can of the three hundred. */
const WORTH_A_STEP = 1 / 600;
/** Steps of the jug. */
const WATER_STEPS = [1, 4];
const POUR_STEPS = [0.02, 0.1];
/** Of the planned dose: finer steps cost time and gain nothing. */
const LEAST_STEP = 0.03;

function doses(at: Action, request: FeedRequest, batch: Batch, kit: Kit, tools: readonly Tool[]): Action[] {
  return request.shelf.flatMap((product, i) => {
    const planned = batch.items.find((item) => item.product.id === product.id)?.planned ?? 0;
    if (planned === 0 && at.add[i] === 0) return [];
    return nextTo(product, at.add[i]!, planned, kit, tools).map((amount) => ({ ...at, add: at.add.with(i, amount) }));
  });
}

/** Amounts of a product next to one, from zero up: steps of the scale or syringe, else the measures above and below. */
function nextTo(product: ClosedProduct, amount: number, planned: number, kit: Kit, tools: readonly Tool[]): number[] {
  const tool = stepOf(product, kit);
  if (tool !== null) {
    const step = tool * Math.max(1, Math.round((LEAST_STEP * planned) / tool));
    return [-4 * step, -step, step, 4 * step].flatMap((by) => {
      // from a spoonful to the nearest step
      const next = tidy(Math.round((amount + by) / tool) * tool);
      return next > 0 ? [next] : amount > 0 ? [0] : [];
    });
  }
  const size = planned || amount;
  return [amount * 0.9, amount * 1.1, amount + 0.1 * size]
    .filter((around) => around > 0)
    .flatMap((around) => measuresOf(product, tools, around).slice(0, 2))
    .map((measure) => measure.amount)
    .filter((x) => Math.abs(x - amount) > 1e-9)
    .concat(amount > 0 ? [0] : []);
}

const waters = (at: Action, jug: number): Action[] =>
  at.water.flatMap((litres, i) =>
    bothWays(WATER_STEPS).map((by) => ({ ...at, water: at.water.with(i, tidy(litres + by * jug)) })),
  );

const pourings = (at: Action): Action[] => bothWays(POUR_STEPS).map((by) => ({ ...at, keep: tidy(at.keep + by) }));

/** More or less of all that is added. */
const wholes = (at: Action, request: FeedRequest, kit: Kit, tools: readonly Tool[], jug: number): Action[] =>
  WHOLE_PARTS.map((part) => ({
    keep: at.keep,
    water: at.water.map((litres) => tidy(Math.round((part * litres) / jug) * jug)),
    add: at.add.map((x, i) => (x > 0 ? nearest(request.shelf[i]!, part * x, kit, tools) : 0)),
  }));

/** The step of the scale or syringe nearest to an amount, else the nearest measure. */
function nearest(product: ClosedProduct, amount: number, kit: Kit, tools: readonly Tool[]): number {
  const step = stepOf(product, kit);
  return step === null
    ? (measuresOf(product, tools, amount)[0]?.amount ?? roundDigits(amount, 3))
    : tidy(Math.round(amount / step) * step);
}

const WHOLE_PARTS = [0.5, 0.8, 1.2];

const bothWays = (steps: readonly number[]): number[] => steps.flatMap((step) => [-step, step]);
/** Without the dust that adding steps leaves. */
const tidy = (x: number): number => roundDecimals(x, 9);

/** Whether an action stays within the room. */
function fits({ keep, water, add }: Action, { litres, capacityLitres, leastLitres, leastKept, left }: Room): boolean {
  const total = keep * litres + water.reduce((a, b) => a + b, 0);
  const whole = keep >= leastKept && keep <= 1 && water.every((x) => x >= 0);
  return whole && add.every((x, i) => x <= left[i]!) && total <= capacityLitres && total >= leastLitres;
}
