import { type Litres, type Millilitres, grams, litresOf, millilitres, scaleBy } from '../units/index.js';
import type { Kit, Spoon } from '../catalog/bench-types.js';
import type { Solubility } from '../catalog/solubility.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import { concentrate } from '../stock/concentrate.js';
import { ordered } from './ordered.js';
import { planOnce } from './plan-once.js';
import type { DoseOffer, OfferedDose } from './findings.js';
import type { DosePlan, PlanOptions, TrialPlan } from './plan-types.js';
import { largestCan } from './notes.js';
import { usualMark } from './tools.js';

/**
 * What would make the doses measurable, each planned again before it is offered: the smallest multiple of the batch, a spoon or scale that is
 * missing, stock bottles of which the syringe takes a whole number of marks.
 */
export async function offersFor(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
): Promise<DoseOffer[]> {
  const offers = [
    await largerBatch(request, amounts, kit, options),
    (await aSpoon(request, amounts, kit, options)) ?? (await aSet(request, amounts, kit, options)),
    await aScale(request, amounts, kit, options),
    await aSyringe(request, amounts, kit, options),
    options.solubility ? await aStock(request, amounts, kit, options, options.solubility) : null,
  ];
  return offers.filter((offer) => offer !== null);
}

/** Times the batch at most: more would stand too long. */
const MOST_TIMES = 12;

async function largerBatch(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
): Promise<DoseOffer | null> {
  const batch = request.header.batchLitres!;
  const can = largestCan(kit.cans);
  for (let times = 2; times <= MOST_TIMES; times += 1) {
    if (can && batch * times * 1000 > can.millilitres * 1.001) return null;
    const plan = await planOnce(withBatch(request, scaleBy(batch, times)), amounts, kit, options);
    if (plan.status === 'kept')
      return { kind: 'batch', litres: batch * times, instead: batch, doses: dosesOf(ordered(plan, amounts)) };
  }
  return null;
}

/** Small spoons as they are sold, from large to small (from memory); mL of a US teaspoon by definition. */
const SMALL_SPOONS: readonly Spoon[] = [2, 4, 8, 16, 32, 64].map((part) => ({
  label: `1/${part} US tsp`,
  millilitres: millilitres(3785.411784 / 768 / part),
}));

async function aSpoon(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
): Promise<DoseOffer | null> {
  for (const spoon of SMALL_SPOONS) {
    if (kit.spoons.some((own) => alike(own.millilitres, spoon.millilitres))) continue;
    const plan = await planOnce(request, amounts, { ...kit, spoons: [...kit.spoons, spoon] }, options);
    if (plan.status === 'kept') return { kind: 'spoon', label: spoon.label, doses: dosesOf(ordered(plan, amounts)) };
  }
  return null;
}

/** Where no one spoon does: the usual set of small ones. */
async function aSet(request: FeedRequest, amounts: Amounts, kit: Kit, options: PlanOptions): Promise<DoseOffer | null> {
  const spoons = SMALL_SPOONS.filter(
    ({ millilitres }) => !kit.spoons.some((own) => alike(own.millilitres, millilitres)),
  );
  if (spoons.length < 2) return null;
  const plan = await planOnce(request, amounts, { ...kit, spoons: [...kit.spoons, ...spoons] }, options);
  return plan.status === 'kept' ? { kind: 'spoons', doses: dosesOf(ordered(plan, amounts)) } : null;
}

const alike = (a: number, b: number): boolean => Math.abs(a / b - 1) < 0.02;

async function aScale(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
): Promise<DoseOffer | null> {
  for (const step of [0.01, 0.001]) {
    if (kit.scaleStepGrams !== undefined && kit.scaleStepGrams <= step) continue;
    const { scaleErrorGrams: _old, ...rest } = kit;
    const plan = await planOnce(request, amounts, { ...rest, scaleStepGrams: grams(step) }, options);
    if (plan.status === 'kept') return { kind: 'scale', stepGrams: step, doses: dosesOf(ordered(plan, amounts)) };
  }
  return null;
}

async function aSyringe(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
): Promise<DoseOffer | null> {
  if (!request.shelf.some((p, i) => p.form === 'liquid' && amounts.products[i]! > 0)) return null;
  if ((kit.syringeStepMillilitres ?? usualMark(kit.syringeMillilitres ?? 100)) <= 0.01) return null;
  const { syringeStepMillilitres: _old, ...rest } = kit;
  const plan = await planOnce(request, amounts, { ...rest, syringeMillilitres: millilitres(1) }, options);
  return plan.status === 'kept' ? { kind: 'syringe', millilitres: 1, doses: dosesOf(ordered(plan, amounts)) } : null;
}

/** Bottles for stock, mL, and one part in so many, the strongest first. */
const BOTTLES = [100, 250, 500, 1000].map(millilitres);
const RATIOS = [1000, 500, 250, 100];
const COLDEST_CELSIUS = 10;

/** Stock bottles: the doses for a bottle are planned as a batch of all the feed that it makes. */
async function aStock(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions,
  table: readonly Solubility[],
): Promise<DoseOffer | null> {
  const batch = request.header.batchLitres!;
  const capacity = kit.syringeMillilitres ?? 1;
  for (const ratio of RATIOS) {
    const dose = (batch * 1000) / ratio;
    const mark = kit.syringeStepMillilitres ?? usualMark(capacity);
    if (Math.abs(dose / mark - Math.round(dose / mark)) > 1e-6 || dose / capacity > 10) continue;
    for (const bottle of BOTTLES) {
      const plan = await planOnce(withBatch(request, litresOf(scaleBy(bottle, ratio))), amounts, kit, options);
      if (plan.status !== 'kept' || plan.leftOut.length > 0) continue;
      const stock = concentrate(stockRequest(plan, request, ratio, bottle, kit), solutionChemistry, table);
      if (stock.status !== 'made') break;
      if (stock.apart.length > 0) break;
      const inOrder = ordered(plan, amounts);
      return {
        kind: 'stock',
        ratio,
        bottleMillilitres: bottle,
        bottles: stock.tanks.map(({ name, items }) => ({
          name,
          doses: dosesOf({
            items: inOrder.items.filter(({ product }) => items.some(({ id }) => id === product.id)),
            leftOut: [],
          }),
        })),
        doseMillilitres: dose,
        batchLitres: batch,
        syringeMillilitres: capacity,
        fills: Math.ceil(dose / capacity - 1e-9),
      };
    }
  }
  return null;
}

function stockRequest(
  plan: TrialPlan,
  { header, waters }: FeedRequest,
  ratio: number,
  jugMillilitres: Millilitres,
  kit: Kit,
): Parameters<typeof concentrate>[0] {
  return {
    feed: header,
    recipe: null,
    items: plan.items.map(({ product, chosen }) => ({ product, perLitre: chosen.amount / plan.batchLitres })),
    waters: waters.map((water, i) => ({ water, share: plan.amounts.waters[i]! })).filter(({ share }) => share > 0),
    weeklyLitres: null,
    ratio,
    tanks: null,
    jugMillilitres,
    coldestCelsius: COLDEST_CELSIUS,
    scaleStepGrams: kit.scaleStepGrams ?? null,
    remark: null,
  };
}

const withBatch = (request: FeedRequest, batchLitres: Litres): FeedRequest => ({
  ...request,
  header: { ...request.header, batchLitres },
});

const dosesOf = ({ items, leftOut }: Pick<DosePlan, 'items' | 'leftOut'>): OfferedDose[] => [
  ...items.map(({ product, chosen }) => ({ product: product.id, words: chosen.words })),
  ...leftOut.map(({ product }) => ({ product: product.id, words: null })),
];
