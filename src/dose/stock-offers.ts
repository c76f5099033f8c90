import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import { solutionChemistry } from '../chemistry/solution/index.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { concentrate } from '../stock/concentrate.js';
import { litresOf, type Millilitres, millilitres, scaleBy } from '../units/index.js';
import { hypot } from '../units/elementary.js';
import type { DoseOffer } from './findings.js';
import { measuresWithin, volumesWithin } from './measure.js';
import { dosesOf, isMeasured, type Short, withBatch } from './offered.js';
import { ordered } from './ordered.js';
import { planKept } from './plan-once.js';
import type { TrialPlan } from './plan-types.js';
import { toolsOf, usualMark } from './tools.js';

/** Bottles for stock, mL, and one part in so many, the strongest first. */
const BOTTLES = [100, 250, 500, 1000].map(millilitres);
const RATIOS = [1000, 500, 250, 100];
const COLDEST_CELSIUS = 10;

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

function stockRequest(
  items: StockItems,
  { waters: shares }: Amounts,
  { header, waters }: FeedRequest,
  { ratio, bottle, kit }: { ratio: number; bottle: Millilitres; kit: Kit },
): Parameters<typeof concentrate>[0] {
  return {
    feed: header,
    recipe: null,
    items,
    waters: waters.map((water, i) => ({ water, share: shares[i]! })).filter(({ share }) => share > 0),
    weeklyLitres: null,
    ratio,
    tanks: null,
    jugMillilitres: bottle,
    coldestCelsius: COLDEST_CELSIUS,
    scaleStepGrams: kit.scaleStepGrams ?? null,
    remark: null,
  };
}

/** mL of a one-item stock that go into the can, about. */
const DOSES = [5, 10, 2, 20];
/** A bottle is measured out at least so surely. */
const SURE = 0.1;

/**
 * A bottle of one item alone, measured once and dosed in steps of the kit; of the items that the kit measures worst first. Null where the
 * bottle of no one item makes the doses keep the limits.
 */
export async function stockOfOne(short: Short): Promise<DoseOffer | null> {
  const { request, amounts } = short;
  const litres = request.header.batchLitres!;
  const items = request.shelf
    .map((product, i) => ({ product, wanted: amounts.products[i]! * litres, perLitre: amounts.products[i]! }))
    .filter(({ product, wanted }) => product.form === 'powder' && wanted > 0)
    .sort((a, b) => a.wanted - b.wanted);
  for (const item of items) {
    const found = await bottleOf(item, short);
    if (found) return found;
  }
  return null;
}

async function bottleOf(
  { product, wanted, perLitre }: { product: ClosedProduct; wanted: number; perLitre: number },
  { request, amounts, kit, options }: Short,
): Promise<DoseOffer | null> {
  const { solubility: table } = options;
  const litres = request.header.batchLitres!;
  const tools = toolsOf(kit);
  const known = options.known ?? request.market ?? [];
  if (!table || tools.every((tool) => tool.assumed)) return null;
  for (const dose of DOSES) {
    for (const bottle of BOTTLES) {
      const meant = (wanted * bottle) / dose;
      const own = measuresWithin(product, tools, 0.75 * meant, 1.33 * meant, known).filter(
        ({ sd, amount }) => sd <= SURE * amount,
      );
      const measure = own.sort((a, b) => Math.abs(a.amount - meant) - Math.abs(b.amount - meant))[0];
      if (!measure) continue;
      const strength = measure.amount / bottle;
      const levels = volumesWithin(tools, 0, 4 * dose).map((volume) => ({
        ...volume,
        words: `${volume.words} of its stock`,
        amount: volume.amount * strength,
        sd: strength * hypot(volume.sd, (volume.amount * measure.sd) / measure.amount),
      }));
      const plan = await planKept(request, amounts, kit, { ...options, steered: new Map([[product.id, levels]]) });
      const item = plan?.items.find((one) => one.product.id === product.id);
      if (!plan || !item || !isMeasured(plan)) continue;
      const ratio = (litres * 1000) / dose;
      const made = concentrate(
        stockRequest([{ product, perLitre }], amounts, request, { ratio, bottle, kit }),
        solutionChemistry,
        table,
      );
      if (made.status !== 'made' || made.apart.length > 0) continue;
      return {
        kind: 'item stock',
        product: product.id,
        words: measure.words,
        bottleMillilitres: bottle,
        doses: dosesOf(ordered(plan, amounts)),
      };
    }
  }
  return null;
}
