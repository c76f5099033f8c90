import type { WithoutUnits } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import type { Kit } from '../../src/catalog/bench-types.js';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import { measuresWithin } from '../../src/dose/measure.js';
import { toolsOf } from '../../src/dose/tools.js';
import { seeded } from '../../src/meter/matrix.js';
import { meter } from '../../src/meter/meter.js';
import { stepOf } from '../../src/meter/remedy-action.js';
import { meterSheet } from '../../src/report/meter.js';
import { meterJson } from '../../src/report/json/meter.js';
import { meterShape } from '../../src/report/meter-shapes.js';
import { renderText } from '../../src/report/text.js';
import { type Bench, benches } from './benches.js';
import { mishap } from './mistakes.js';
import { kitOf } from '../dose/kits.js';

const spoon = (label: string, millilitres: number) => ({ label, millilitres });
const US_TSP = 4.92892159375;
const SPOONS = [1, 2, 4, 8, 16, 32, 64].map((n) => spoon(n === 1 ? '1 tsp' : `1/${n} tsp`, US_TSP / n));

const KITS: readonly (readonly [name: string, litres: number, kit: WithoutUnits<Kit>])[] = [
  ['scale and syringe', 4, { spoons: [], scaleStepGrams: 0.01, syringeMillilitres: 1 }],
  ['scale and syringe', 1, { spoons: [], scaleStepGrams: 0.01, syringeMillilitres: 1 }],
  ['coarse scale and syringe', 20, { spoons: [], scaleStepGrams: 0.1, syringeMillilitres: 5 }],
  ['spoons and dropper', 4, { spoons: SPOONS, dropsPerMillilitre: 20 }],
  ['spoons and dropper', 20, { spoons: SPOONS, dropsPerMillilitre: 20 }],
  ['everything', 10, { spoons: SPOONS, dropsPerMillilitre: 20, syringeMillilitres: 3, scaleStepGrams: 0.1 }],
];
/** Litres from mark to mark, or parts of it. */
const MARK = 0.05;
type Printed = ReturnType<typeof meterJson>;

const BENCHES = 2;
const EACH = 4;

/** Every other mistake in a can that is full to the brim and with little left on the shelf. */
async function told({ batch, request }: Bench, kit: Kit, random: ReturnType<typeof seeded>, tight: boolean) {
  const truth = mishap(batch, random);
  const shelf = tight ? request.shelf.map((product) => scarce(product, batch)) : request.shelf;
  const asked = {
    batch,
    request: { ...request, shelf },
    hasProgramme: true,
    recipe: null,
    readings: truth.readings,
    pen: { scale: 500, temperatureC: 25, compensates: true },
    kit,
    capacityLitres: tight ? batch.litres : 1.25 * batch.litres,
    notes: [],
  };
  return { result: await meter(asked), again: () => meter(asked), shelf };
}

/** Half of the dose more than the dose. */
function scarce(product: ClosedProduct, { items }: Bench['batch']): ClosedProduct {
  const item = items.find((other) => other.product.id === product.id);
  return item ? product.with({ onHand: 1.5 * item.planned }) : product;
}

describe('whatever the reading, kit and batch, a remedy can be carried out', () => {
  it.each(KITS)('%s, %d L', async (_, litres, plain) => {
    const kit = kitOf(plain);
    const random = seeded(31);
    let acted = 0;
    for (const bench of await benches(BENCHES, random.uniform, { kit, litres })) {
      for (let i = 0; i < EACH; i += 1) {
        const { result, again, shelf } = await told(bench, kit, random, i % 2 === 1);
        if (i === 0) expect(JSON.stringify(await again())).toBe(JSON.stringify(result));
        const printed = meterShape.parse(JSON.parse(JSON.stringify(meterJson(result))));
        expect(printed.litres).toBe(result.litres);
        for (const line of renderText(meterSheet(result), { columns: 80, colour: false }).split('\n'))
          expect([...line].length).toBeLessThanOrEqual(80);
        if (printed.remedy === null) continue;
        if (printed.remedy.steps.length > 0) acted += 1;
        staysInTheCan(printed);
        staysOnTheShelf(printed, shelf);
        for (const { id, amount } of printed.remedy.add)
          expect(measurable(shelf.find((product) => product.id === id)!, amount, kit)).toBe(true);
      }
    }
    expect(acted).toBeGreaterThan(0);
  });
});

function staysInTheCan({ remedy }: Printed): void {
  const { keepShare, pourLitres, waterLitres, waters, finalLitres, capacityLitres, jugs, fillToLitres } = remedy!;
  expect(keepShare).toBeGreaterThanOrEqual(0);
  expect(keepShare).toBeLessThanOrEqual(1);
  expect(pourLitres).toBeGreaterThanOrEqual(0);
  expect(waters.reduce((sum, water) => sum + water.litres, 0)).toBeCloseTo(waterLitres, 9);
  expect(finalLitres).toBeGreaterThan(0);
  expect(finalLitres).toBeLessThanOrEqual(jugs * capacityLitres * (1 + 1e-9));
  // every level is a mark of the jug
  if (fillToLitres !== null) expect((fillToLitres / jugs / MARK) % 1).toBeCloseTo(0, 6);
}

/** What is added beside the least that went in, nine of ten: a dose that was forgotten is wholly left. */
function staysOnTheShelf({ remedy, actual }: Printed, shelf: readonly ClosedProduct[]): void {
  for (const { id, amount } of remedy!.add) {
    const { onHand } = shelf.find((product) => product.id === id)!;
    if (onHand === undefined) continue;
    const used = actual.find((line) => line.id === id)?.low ?? 0;
    expect(amount).toBeLessThanOrEqual(onHand - used + 1e-9);
  }
}

/** By a measure of the kit; else some steps of its scale or syringe; anything where the kit has nothing for it. */
function measurable(product: ClosedProduct, amount: number, kit: Kit): boolean {
  const tools = toolsOf(kit);
  if (measuresWithin(product, tools, amount * (1 - 1e-6), amount * (1 + 1e-6)).length > 0) return true;
  const step = stepOf(product, kit);
  if (step !== null) return Math.abs(amount / step - Math.round(amount / step)) < 1e-6;
  return measuresWithin(product, tools, 0, Number.MAX_VALUE).length === 0;
}
