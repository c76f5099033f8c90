import type { PowderKnown } from '../label/product.js';
import type { Measured, Nutrient } from '../chemistry/nutrients.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import { linearisationOfMix, linearisationOfProduct, linearisationOfWater } from '../formulation/index.js';
import { ecLimit, type MissableLimit } from '../feed/limits.js';
import { ecRule, type FeedRequest, linearRules } from '../feed/request.js';
import type { Band } from '../programme/programme.js';
import type { Amounts } from '../can/mix-amounts.js';
import { straysOf } from './jar-conductivity.js';
import { type Figure, nutrientFigure, type VaryingCan, varyingCan } from './varying.js';

/** A limit with the figure that it judges: least by what is guaranteed, most by what is possible. */
export interface JudgedLimit {
  limit: MissableLimit;
  figure: Figure;
}

/** A can with every limit that it is judged by. */
export interface JudgedCan {
  can: VaryingCan;
  ec: Figure;
  limits: JudgedLimit[];
}

/** What varies in a plan, and what it is held against. */
export function judgedCan(
  plan: Parameters<typeof varyingCan>[0],
  request: FeedRequest,
  known: readonly PowderKnown[] = request.market ?? [],
): JudgedCan {
  const can = varyingCan(plan, request, known);
  const ec = ecFigure(can, plan.amounts, request);
  return { can, ec, limits: judgedLimits(can, request, ec) };
}

/** Every band, rule and cap of a feed, as the program counts them: a floor by what is guaranteed, a cap by what is possible. */
export function judgedLimits(can: VaryingCan, request: FeedRequest, ec: Figure): JudgedLimit[] {
  const found: JudgedLimit[] = [];
  const judge = (limit: MissableLimit, weights: ReadonlyMap<Measured, number>): void => {
    found.push({ limit, figure: nutrientFigure(can, weights, limit.end === 'least' ? 'floor' : 'cap') });
  };
  for (const [nutrient, { min, max }] of Object.entries(request.programme.bands) as [Nutrient, Band][]) {
    const own = { kind: 'nutrient', nutrient, owner: 'programme' } as const;
    const weights = new Map([[nutrient, 1]]);
    if (min !== undefined && min > 0) judge({ ...own, end: 'least', bound: min }, weights);
    if (max !== undefined) judge({ ...own, end: 'most', bound: max }, weights);
  }
  for (const rule of linearRules(request)) {
    const own = { kind: 'rule', rule, owner: rule.from.owner } as const;
    const weights = new Map(Object.entries(rule.terms) as [Measured, number][]);
    if (rule.upper !== undefined) judge({ ...own, end: 'most', bound: rule.upper }, weights);
    if (rule.lower !== undefined) judge({ ...own, end: 'least', bound: rule.lower }, weights);
  }
  const cap = ecRule(request);
  if (cap !== null) found.push({ limit: ecLimit(cap), figure: ec });
  return found;
}

/** EC, mS/cm, by the linearisation that touches the model at the mix: within a tenth of the mix it is off by less than the model itself. */
export function ecFigure(can: VaryingCan, amounts: Amounts, request: FeedRequest): Figure {
  const linearisation = linearisationOfMix(amounts, request);
  return {
    items: can.items.map((item) => ecOfItem(item, linearisation)),
    waters: can.waters.map(({ water }) => linearisationOfWater(linearisation, water) - linearisation.constant),
    constant: linearisation.constant,
  };
}

/**
 * A jar conducts as its ions stray on average: charges weigh, because no ion comes without its opposite. What jars hold over their labels is left
 * out: the published conductivities that the model is held against are of feeds made up by their labels.
 */
function ecOfItem(
  { product, label }: VaryingCan['items'][number],
  linearisation: EcLinearisation,
): Figure['items'][number] {
  const nominal = linearisationOfProduct(linearisation, product);
  const parts = straysOf({ product, label }).map((part) => ({ ...part, by: nominal * part.by }));
  return { nominal, mean: nominal, parts };
}
