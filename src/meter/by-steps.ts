import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresOf } from '../dose/measure.js';
import { type Tool, toolsOf } from '../dose/tools.js';
import type { FeedRequest } from '../feed/request.js';
import type { Batch } from './batch.js';
import type { Action } from './can-limits.js';
import { byMarks, type Level, nearestMeasure, stepOf } from './remedy-action.js';
import type { Candidate, Weigh } from './weigh-remedy.js';
import { roundDecimals } from '../units/index.js';

/** Room of the can and the least that a remedy keeps. */
export interface Room extends Level {
  leastLitres: number;
  leastKept: number;
  /** g or mL of each product that is left on the shelf, by place. */
  left: readonly number[];
}

/**
 * Moves a remedy by steps of the kit and marks of the jug while that is worth more: the program hedges each limit by itself,
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
  let best = from;
  for (let round = 0; round < ROUNDS; round += 1) {
    const [at, before] = [best.action, best];
    for (const action of [
      ...doses(at, request, batch, kit, tools),
      ...waters(at, room),
      ...pourings(at, room),
      ...wholes(at, request, kit, tools, room),
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
/** Marks of the jug. */
const STEPS = [1, 2];
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

const waters = (at: Action, room: Room): Action[] =>
  at.water.flatMap((litres, i) =>
    bothWays(STEPS).flatMap((by) => {
      const next = tidy(litres + by * room.mark);
      return next < 0 ? [] : [byMarks({ ...at, water: at.water.with(i, next) }, room)];
    }),
  );

const pourings = (at: Action, room: Room): Action[] =>
  bothWays(STEPS).flatMap((by) => {
    const keep = Math.min(1, at.keep + (by * room.mark) / room.litres);
    if (keep <= 0 || keep === at.keep) return [];
    // the water that is added changes with it, the level stays
    const level = at.fillTo ?? at.keep * room.litres;
    const main = at.water.indexOf(Math.max(...at.water));
    const more = Math.max(0, level - keep * room.litres);
    return [byMarks({ ...at, keep, water: at.water.map((x, i) => (i === main ? more : x)) }, room)];
  });

/** More or less of all that is added. */
const wholes = (at: Action, request: FeedRequest, kit: Kit, tools: readonly Tool[], room: Room): Action[] =>
  WHOLE_PARTS.map((part) =>
    byMarks(
      {
        keep: at.keep,
        water: at.water.map((litres) => part * litres),
        add: at.add.map((x, i) => (x > 0 ? nearestMeasure(request.shelf[i]!, part * x, kit, tools) : 0)),
      },
      room,
    ),
  );

const WHOLE_PARTS = [0.5, 0.8, 1.2];

const bothWays = (steps: readonly number[]): number[] => steps.flatMap((step) => [-step, step]);
/** Without the dust that adding steps leaves. */
const tidy = (x: number): number => roundDecimals(x, 9);

/** Whether an action stays within the room, of two jugs if need be. */
function fits({ keep, water, add }: Action, { litres, capacityLitres, leastLitres, leastKept, left }: Room): boolean {
  const total = keep * litres + water.reduce((a, b) => a + b, 0);
  const whole = keep >= leastKept && keep <= 1 && water.every((x) => x >= 0);
  const holds = total <= 2 * capacityLitres * (1 + 1e-9) && total >= leastLitres * (1 - 1e-9);
  return whole && add.every((x, i) => x <= left[i]!) && holds;
}
