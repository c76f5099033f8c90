import { describe, expect, it } from 'vitest';
import { assessHabit } from '../../src/advice/assess.js';
import type { Recipe } from '../../src/advice/recipe.js';
import type { AssessJudged } from '../../src/advice/types.js';
import type { Kit } from '../../src/catalog/bench-types.js';
import { partsOf } from '../../src/can/part.js';
import { measuresWithin } from '../../src/dose/measure.js';
import { toolsOf } from '../../src/dose/tools.js';
import { gradeOf } from '../../src/feed/grade.js';
import { missesOf, readOut } from '../../src/feed/readout.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Mix } from '../../src/feed/results.js';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import { litres, millilitres } from '../../src/units/index.js';
import { example } from '../dose/benches.js';
import { dice as diceOf } from '../solver/dice.js';

const TSP = 3785.411784 / 768;
const kit: Kit = {
  spoons: [
    { label: '1/2 tsp', millilitres: millilitres(TSP / 2) },
    { label: '1/8 tsp', millilitres: millilitres(TSP / 8) },
  ],
};
const HABITS = 20;
const CAN = litres(8);

const recipeOf = (doses: readonly { product: ClosedProduct; amount: number }[]): Recipe => ({
  text: 'a habit',
  volumeLitres: CAN,
  lines: doses.map(({ product, amount }) => ({
    ...{ product, amount, words: product.id, amountWords: 'so much' },
    ...{ bySpoon: true, spoonful: null, byPen: null },
  })),
});

/** How far off the limits, written anew: 10 for what hurts, 2 for what is needed, a half for conventions, times the share it is off by. */
function off(mix: Mix, request: FeedRequest): number {
  const weights = { harm: 10, need: 2, custom: 0.5 };
  const misses = missesOf(mix).map(
    ({ limit, value, bound }) =>
      weights[gradeOf(limit, request.programme)] * (bound === 0 ? 1 : Math.min(3, Math.abs(value / bound - 1))),
  );
  const away = mix.elements.flatMap(({ aim, mgPerLitre }) =>
    aim ? [Math.min(1, Math.abs(mgPerLitre / aim - 1))] : [],
  );
  const mean = away.reduce((a, b) => a + b, 0) / away.length;
  return misses.reduce((a, b) => a + b, 0) + 0.02 * mean;
}

describe('the change of one dose', () => {
  it(`helps most of all that the spoons can make, by brute force on ${HABITS} seeded habits`, async () => {
    const { request } = await example('spoons-alone', 'moth orchids');
    const { unit: dice } = diceOf(20261128);
    const tools = toolsOf(kit);
    let changed = 0;
    for (let habit = 0; habit < HABITS; habit += 1) {
      const own = request.shelf.filter(() => dice() < 0.4).slice(0, 3);
      const products = own.length > 0 ? own : [request.shelf[habit % request.shelf.length]!];
      const doses = products.map((product) => ({
        product,
        amount: (product.bulkDensity ?? 1) * (TSP / 8) * (1 + Math.floor(6 * dice())),
      }));
      const judge = (all: typeof doses): number => {
        const perLitre = (product: ClosedProduct): number =>
          (all.find((dose) => dose.product === product)?.amount ?? 0) / CAN;
        const amounts = { products: request.shelf.map(perLitre), waters: request.waters.map(() => 1) };
        // the order in which things go in decides about none of its limits
        return off(readOut(amounts, request, partsOf(amounts, request.shelf)), request);
      };
      const told = (await assessHabit(
        recipeOf(doses),
        { ...request, shelf: products },
        { shelf: request.shelf, kit, known: [] },
      )) as AssessJudged;
      const before = judge(doses);
      const { change } = told;
      const after =
        change === null
          ? before
          : judge([
              ...doses.filter(({ product }) => product.id !== change.id),
              ...(change.to > 0
                ? [{ product: request.shelf.find(({ id }) => id === change.id)!, amount: change.to }]
                : []),
            ]);
      if (change !== null) {
        changed += 1;
        expect(after).toBeLessThan(before - 0.0099);
      }
      // what is in it: nothing to four times; what is not: every spoonful up to its label's rate or twice the first aim
      let best = before - 0.01;
      for (const product of request.shelf) {
        const now = doses.find((dose) => dose.product === product)?.amount ?? 0;
        const rate = (product.maxRate ?? Number.POSITIVE_INFINITY) * CAN;
        const toAim = Object.entries(request.programme.bands).flatMap(([nutrient, { aim }]) => {
          const content = product.composition.content[nutrient as keyof typeof product.composition.content];
          const brings = content.stated ?? content.low;
          return aim && brings > 0 ? [(2 * aim * CAN) / brings] : [];
        });
        const most = now > 0 ? 4 * now : Math.min(rate, ...toAim);
        const amounts = measuresWithin(product, tools, 0, most).map(({ amount }) => amount);
        for (const amount of now > 0 ? [0, ...amounts] : amounts) {
          const others = doses.filter((dose) => dose.product !== product);
          best = Math.min(best, judge(amount > 0 ? [...others, { product, amount }] : others));
        }
      }
      expect(after).toBeLessThanOrEqual((change === null ? before : best) + 1e-9);
      if (change === null) expect(best).toBeGreaterThanOrEqual(before - 0.01 - 1e-9);
    }
    expect(changed).toBeGreaterThan(HABITS / 2);
  });
});
