import type { PowderKnown } from '../label/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { CHARGES, ION_NUTRIENTS } from '../chemistry/ions.js';
import { conductingIons } from '../can/ec.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import { linearisationOfMix } from '../formulation/ec-cap.js';
import { linearisationOfProduct, linearisationOfWater } from '../formulation/ec-row.js';
import { allRules, ecCap, type FeedRequest } from '../feed/request.js';
import type { Amounts } from '../can/mix-amounts.js';
import { type Figure, nutrientFigure, type Part, type VaryingCan, varyingCan } from './varying.js';

/** A limit with the figure that it judges; one of the bounds is present. */
export interface JudgedLimit {
  /** `Ca min`, `NH4 <= 0.1 * N`, `EC max`: as violations are named. */
  limit: string;
  kind: 'min' | 'max' | 'rule' | 'ec';
  nutrient?: Nutrient;
  /** Index among all rules. */
  rule?: number;
  figure: Figure;
  lower?: number;
  upper?: number;
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
  for (const [n, band] of Object.entries(request.programme.bands) as [Nutrient, { min?: number; max?: number }][]) {
    const of = (side: 'floor' | 'cap') => nutrientFigure(can, new Map([[n, 1]]), side);
    if (band.min !== undefined && band.min > 0)
      found.push({ limit: `${n} min`, kind: 'min', nutrient: n, figure: of('floor'), lower: band.min });
    if (band.max !== undefined)
      found.push({ limit: `${n} max`, kind: 'max', nutrient: n, figure: of('cap'), upper: band.max });
  }
  allRules(request).forEach(({ text, terms, lower, upper }, rule) => {
    const weights = new Map(Object.entries(terms) as [Nutrient, number][]);
    const own = { limit: text, kind: 'rule' as const, rule };
    if (upper !== undefined) found.push({ ...own, figure: nutrientFigure(can, weights, 'cap'), upper });
    if (lower !== undefined) found.push({ ...own, figure: nutrientFigure(can, weights, 'floor'), lower });
  });
  const cap = ecCap(request);
  if (cap !== null) found.push({ limit: 'EC max', kind: 'ec', figure: ec, upper: cap });
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
  const ions = conductingIons(product, 'value');
  const names = Object.keys(CHARGES) as (keyof typeof CHARGES)[];
  const weight = (ion: (typeof names)[number]): number => Math.abs(CHARGES[ion]) * ions[ion];
  const whole = names.reduce((sum, ion) => sum + weight(ion), 0);
  const parts = new Map<string, Part>();
  for (const ion of whole > 0 ? names : []) {
    const spread = label.get(ION_NUTRIENTS[ion]);
    const mg = product.composition.content[ION_NUTRIENTS[ion]].stated ?? 0;
    if (!spread || !(mg > 0)) continue;
    const perMg = (nominal * weight(ion)) / whole / mg;
    const { factor, source, by } = spread.part;
    parts.set(factor, { factor, source, by: perMg * by + (parts.get(factor)?.by ?? 0) });
  }
  return { nominal, mean: nominal, parts: [...parts.values()] };
}
