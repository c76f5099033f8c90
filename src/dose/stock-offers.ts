import { solutionChemistry } from '../chemistry/solution/index.js';
import { concentrate } from '../stock/concentrate.js';
import { litresOf, millilitres, scaleBy } from '../units/index.js';
import { bottledPlans, bottlesIn } from './bottles.js';
import type { DoseOffer, ItemStockOffer } from './findings.js';
import { dosesOf, isMeasured, type Short, withBatch } from './offered.js';
import { ordered } from './ordered.js';
import { planKept } from './plan-once.js';
import type { DosePlan, TrialPlan } from './plan-types.js';
import { stockRequest } from './stock-request.js';
import { usualMark } from './tools.js';

/** Bottles for stock, mL, and one part in so many, the strongest first. */
const BOTTLES = [100, 250, 500, 1000].map(millilitres);
const RATIOS = [1000, 500, 250, 100];

/** Stock bottles: the doses for a bottle are planned as a batch of all the feed that it makes. */
export async function stockOfAll({ request, amounts, kit, options }: Short): Promise<DoseOffer | null> {
  const { solubility: table } = options;
  if (!table) return null;
  const batch = request.header.batchLitres!;
  const capacity = kit.syringeMillilitres ?? 1;
  for (const ratio of RATIOS) {
    const dose = (batch * 1000) / ratio;
    const mark = kit.syringeStepMillilitres ?? usualMark(capacity);
    if (Math.abs(dose / mark - Math.round(dose / mark)) > 1e-6 || dose / capacity > 10) continue;
    for (const bottle of BOTTLES) {
      const plan = await planKept(withBatch(request, litresOf(scaleBy(bottle, ratio))), amounts, kit, options);
      // a pinch that the limits do not need may be left out, as in any plan; what the kit cannot measure may not
      if (plan === null || plan.items.length === 0 || !isMeasured(plan)) continue;
      const stock = concentrate(
        stockRequest(itemsOf(plan), plan.amounts, request, { ratio, bottle, kit }),
        solutionChemistry,
        table,
      );
      if (stock.status !== 'made') break;
      if (stock.apart.length > 0) break;
      const inOrder = ordered(plan, amounts);
      return {
        kind: 'stock',
        ratio,
        bottleMillilitres: bottle,
        bottles: stock.tanks.map(({ name, items }, i) => ({
          name,
          doses: dosesOf({
            items: inOrder.items.filter(({ product }) => items.some(({ id }) => id === product.id)),
            leftOut: i === stock.tanks.length - 1 ? inOrder.leftOut : [],
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

type StockItems = Parameters<typeof concentrate>[0]['items'];

const itemsOf = ({ items, batchLitres }: TrialPlan): StockItems =>
  items.map(({ product, chosen }) => ({ product, perLitre: chosen.amount / batchLitres }));

/** Bottles of one item each, as few as will do, measured once and dosed in steps of the kit. Null where none makes the doses keep the limits. */
export async function stockOfItems(short: Short): Promise<DoseOffer | null> {
  for await (const plan of bottledPlans(short))
    if (isMeasured(plan)) return offerOfBottles(ordered(plan, short.amounts));
  return null;
}

/** Doses with bottles as they are told. */
export const offerOfBottles = (plan: Pick<DosePlan, 'items' | 'leftOut'>): ItemStockOffer => ({
  kind: 'item stock',
  bottles: bottlesIn(plan).map(({ product: { id, name }, bottle: { millilitres: size, holds, dose } }) => ({
    product: id,
    name: name || id,
    words: holds.words,
    amount: holds.amount,
    bottleMillilitres: size,
    dose: dose.words,
    doseMillilitres: dose.amount,
  })),
  doses: dosesOf(plan),
});
