import type { Spoon } from '../catalog/bench-types.js';
import { grams, millilitres } from '../units/index.js';
import { dosesOf, type Short } from './offered.js';
import type { DoseOffer } from './findings.js';
import { ordered } from './ordered.js';
import { planKept } from './plan-once.js';
import { usualMark } from './tools.js';

/** The first tool, of those that are bought for little first, with which the doses keep the limits. */
export async function finerTool(short: Short): Promise<DoseOffer | null> {
  return (await aSpoon(short)) ?? (await aScale(short)) ?? (await aSyringe(short)) ?? (await aSet(short));
}

/** Small spoons as they are sold, from large to small (from memory); mL of a US teaspoon by definition. */
const SMALL_SPOONS: readonly Spoon[] = [2, 4, 8, 16, 32, 64].map((part) => ({
  label: `1/${part} US tsp`,
  millilitres: millilitres(3785.411784 / 768 / part),
}));

async function aSpoon({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  for (const spoon of SMALL_SPOONS) {
    if (kit.spoons.some((own) => alike(own.millilitres, spoon.millilitres))) continue;
    const plan = await planKept(request, amounts, { ...kit, spoons: [...kit.spoons, spoon] }, options);
    if (plan) return { kind: 'spoon', label: spoon.label, doses: dosesOf(ordered(plan, amounts)) };
  }
  return null;
}

/** Where no one spoon does: the usual set of small ones. */
async function aSet({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  const spoons = SMALL_SPOONS.filter(
    ({ millilitres }) => !kit.spoons.some((own) => alike(own.millilitres, millilitres)),
  );
  if (spoons.length < 2) return null;
  const plan = await planKept(request, amounts, { ...kit, spoons: [...kit.spoons, ...spoons] }, options);
  return plan ? { kind: 'spoons', doses: dosesOf(ordered(plan, amounts)) } : null;
}

const alike = (a: number, b: number): boolean => Math.abs(a / b - 1) < 0.02;

async function aScale({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  for (const step of [0.01, 0.001]) {
    if (kit.scaleStepGrams !== undefined && kit.scaleStepGrams <= step) continue;
    const { scaleErrorGrams: _old, ...rest } = kit;
    const plan = await planKept(request, amounts, { ...rest, scaleStepGrams: grams(step) }, options);
    if (plan) return { kind: 'scale', stepGrams: step, doses: dosesOf(ordered(plan, amounts)) };
  }
  return null;
}

async function aSyringe({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  if (!request.shelf.some((p, i) => p.form === 'liquid' && amounts.products[i]! > 0)) return null;
  if ((kit.syringeStepMillilitres ?? usualMark(kit.syringeMillilitres ?? 100)) <= 0.01) return null;
  const { syringeStepMillilitres: _old, ...rest } = kit;
  const plan = await planKept(request, amounts, { ...rest, syringeMillilitres: millilitres(1) }, options);
  return plan ? { kind: 'syringe', millilitres: 1, doses: dosesOf(ordered(plan, amounts)) } : null;
}
