import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresWithin } from '../dose/measure.js';
import { toolsOf } from '../dose/tools.js';
import type { FeedRequest } from '../feed/request.js';
import type { Action } from './can-limits.js';
import { seeded } from './matrix.js';
import { SPREADS } from './spreads.js';
import { roundDigits } from '../units/index.js';

/** How one pair of hands is off when it carries out an action, in standard deviations. */
export interface Hand {
  poured: number;
  water: number;
  /** By place on the shelf. */
  products: number[];
}

/** Seeded: the same count gives the same hands. */
export function drawHands(count: number, { shelf }: FeedRequest, seed = SEED): Hand[] {
  const { normal } = seeded(seed);
  return Array.from({ length: count }, () => ({
    poured: normal(),
    water: normal(),
    products: shelf.map(() => normal()),
  }));
}

const SEED = 4711;

/** An action as a pair of hands carries it out on a can of so many litres. @param sd of each dose, g or mL, by place on the shelf */
export function carriedOut(action: Action, sd: readonly number[], hand: Hand, litres: number): Action {
  const keep = keptOf(action, hand, litres);
  const water = waterOf(action, keep, hand, litres);
  return {
    keep,
    water: action.water.map((x) => x * water),
    add: action.add.map((x, i) => doseOf(x, sd[i]!, hand.products[i]!)),
  };
}

/** The share that is really kept of a can of so many litres. */
export function keptOf({ keep, pourTo }: Action, { poured }: Hand, litres: number): number {
  if (pourTo !== undefined) return Math.min(1, (pourTo * (1 + SPREADS.water * poured)) / litres);
  return Math.min(1, Math.max(0, 1 - (1 - keep) * (1 + SPREADS.water * poured)));
}

/** The factor on the water told that really goes in: up to the mark, wherever the can stood, or as measured. */
export function waterOf({ water: told, fillTo }: Action, kept: number, { water }: Hand, litres: number): number {
  const factor = 1 + SPREADS.water * water;
  if (fillTo === undefined) return factor;
  const sum = told.reduce((a, b) => a + b, 0);
  return sum > 0 ? Math.max(0, fillTo * factor - kept * litres) / sum : 0;
}

/** A dose as delivered; nothing stays nothing. */
export const doseOf = (dose: number, sd: number, off: number): number => (dose > 0 ? Math.max(0, dose + sd * off) : 0);

/** Standard deviation of a dose as the kit measures it, g or mL; amounts are asked for again and again, so they are remembered. */
export function doseSpread({ shelf }: FeedRequest, kit: Kit): (add: readonly number[]) => number[] {
  const tools = toolsOf(kit);
  const known = new Map<string, number>();
  const of = (product: ClosedProduct, amount: number): number => {
    const [measure] = measuresWithin(product, tools, amount * (1 - SAME), amount * (1 + SAME));
    if (measure) return measure.sd;
    // too few steps to be a measure: the tool's own error is all there is
    const tool = tools.find((t) => t.kind === (product.form === 'powder' ? 'scale' : 'syringe'));
    return tool ? tool.error : BY_EYE * amount;
  };
  return (add) =>
    add.map((amount, i) => {
      if (!(amount > 0)) return 0;
      const key = `${i}:${roundDigits(amount, 9)}`;
      const sd = known.get(key) ?? of(shelf[i]!, amount);
      known.set(key, sd);
      return sd;
    });
}

const SAME = 1e-6;
/** Without a tool that shows the amount (judgement). */
const BY_EYE = 0.2;
