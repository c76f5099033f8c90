import type { Row } from '../../solver/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Limit, NutrientLimit, RateLimit, RuleLimit, StockLimit } from '../feed/limits.js';
import { type Ratio, ratioOfRule, soleNutrient } from '../feed/ratio.js';
import type { FeedRequest } from '../feed/request.js';
import { waterContent } from '../feed/terms.js';
import type { ConflictReason, Brought, Burden } from '../feed/why-not.js';
import type { Formulated, Limited } from '../formulation/index.js';

/** Findings kept for one limit; the first ones tell the story. */
const MOST = 6;

/** Everything that the reasons of a conflict are told from. */
export interface Clash {
  formulated: Formulated;
  request: FeedRequest;
  /** The limits that cannot hold together, with their rows. */
  limits: readonly Limited[];
}

/** Which products make a limit bite, with what each brings. */
export function becauseOf(limited: Limited, clash: Clash): ConflictReason[] {
  const told = reasonsFor(limited, clash);
  const keys = told.map((finding) => JSON.stringify(finding));
  return told.filter((_, i) => keys.indexOf(keys[i]!) === i).slice(0, MOST);
}

function reasonsFor({ limit, row }: Limited, clash: Clash): ConflictReason[] {
  switch (limit.kind) {
    case 'stock':
    case 'rate':
      return ceilingOfProduct(limit, clash);
    case 'nutrient':
      return limit.end === 'least' ? floorOfElement(limit.nutrient, row, clash) : capOf(limit, row, clash);
    case 'rule':
      return limit.end === 'least' ? floorOfRule(limit, row, clash) : capOf(limit, row, clash);
    default:
      return capOf(limit, row, clash);
  }
}

/** Products of the shelf with a coefficient of that sign in a row, the strongest first. */
function movers(row: Row, clash: Clash, sign: 1 | -1): { product: ClosedProduct; by: number }[] {
  return [...clash.formulated.products]
    .map(([id, index]) => ({ product: clash.request.shelf[index]!, by: row.terms[id] ?? 0 }))
    .filter(({ by }) => sign * by > 0)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
}

/** Where an element comes from, and what its sources bring towards the caps of the conflict. */
function floorOfElement(nutrient: Nutrient, row: Row, clash: Clash): ConflictReason[] {
  const sources = movers(row, clash, 1).map(({ product }) => product);
  if (sources.length === 0) return [{ kind: 'no source', nutrient, inWater: inWaters(nutrient, clash) }];
  const brought = sources
    .slice(0, 3)
    .flatMap((product) =>
      whatItBrings(product, nutrient, clash).map((brings) => ({ product: product.id, brought: brings })),
    );
  const products = sources.map(({ id }) => id);
  if (sources.length === 1)
    return [{ kind: 'only from', nutrient, products, bringing: brought.map((one) => one.brought) }];
  return [
    { kind: 'only from', nutrient, products, bringing: [] },
    ...brought.map((one): ConflictReason => ({ kind: 'brings', ...one })),
  ];
}

function inWaters(nutrient: Nutrient, { request }: Clash): { water: string; mgPerLitre: number }[] {
  return request.waters.flatMap((water) => {
    const mgPerLitre = waterContent(water, nutrient);
    return mgPerLitre > 0 ? [{ water: water.name, mgPerLitre }] : [];
  });
}

/** What a source of an element brings towards each cap in the conflict. */
function whatItBrings(product: ClosedProduct, nutrient: Nutrient, clash: Clash): Brought[] {
  const per = { nutrient, mg: product.composition.content[nutrient].low };
  return clash.limits.flatMap((limited) => {
    const burden = burdenOf(product, limited, clash);
    const own = limited.limit.kind === 'nutrient' && limited.limit.nutrient === nutrient;
    return burden === null || own ? [] : [{ burden, per }];
  });
}

/** What a product counts towards a cap; null where it counts nothing or the limit is no cap on it. */
function burdenOf(product: ClosedProduct, { limit, row }: Limited, clash: Clash): Burden | null {
  const index = clash.request.shelf.indexOf(product);
  const by = row.terms[[...clash.formulated.products].find(([, i]) => i === index)![0]] ?? 0;
  if (row.upper === undefined || by <= 0 || limit.kind === 'stock' || limit.kind === 'rate') return null;
  if (limit.kind === 'ec') return { limit, amount: by, of: 'EC', ratio: null };
  const ratio = ratioOf(limit);
  if (ratio) return { limit, amount: product.composition.content[ratio.over].high, of: ratio.over, ratio };
  return { limit, amount: by, of: nutrientOf(limit) ?? 'the rule', ratio: null };
}

/** A cap from the other side: which of the products that the floors call for count towards it. */
function capOf(limit: Limit, row: Row, clash: Clash): ConflictReason[] {
  const wanted = calledFor(clash);
  const pushers = movers(row, clash, 1);
  const nutrient = nutrientOf(limit);
  const fromWater = (nutrient === null ? [] : inWaters(nutrient, clash)).map(
    (holds): ConflictReason => ({ kind: 'water holds', nutrient: nutrient!, ...holds }),
  );
  const own = limit.kind === 'nutrient' ? limit.nutrient : null;
  const called = pushers.flatMap(({ product }) => {
    const burden = burdenOf(product, { limit, row }, clash);
    if (burden === null) return [];
    return wanted
      .filter((n) => n !== own && product.composition.content[n].low > 0)
      .map((n): ConflictReason => {
        const per = { nutrient: n, mg: product.composition.content[n].low };
        return { kind: 'brings with', product: product.id, burden, per };
      });
  });
  if (called.length > 0 || fromWater.length > 0) return [...fromWater, ...called];
  return pushers.length === 0 ? [] : [{ kind: 'pushed up', products: pushers.map(({ product }) => product.id) }];
}

/** `NO3 >= 0.5 * N`: who pushes against it, and who helps. */
function floorOfRule(limit: RuleLimit, row: Row, clash: Clash): ConflictReason[] {
  const sole = soleNutrient(limit.rule);
  if (sole !== null) return floorOfElement(sole, row, clash);
  const wanted = calledFor(clash);
  const needed = (product: ClosedProduct): boolean => wanted.some((n) => product.composition.content[n].low > 0);
  const all = movers(row, clash, -1);
  const against = all.some(({ product }) => needed(product)) ? all.filter(({ product }) => needed(product)) : all;
  const ratio = ratioOf(limit);
  const pushes = against.slice(0, 4).map(({ product, by }): ConflictReason => {
    const { content, per } = product.composition;
    if (!ratio) return { kind: 'pushes against', product: product.id, mg: -by, unit: per };
    const under = content[ratio.under].high;
    return {
      kind: 'out of proportion',
      product: product.id,
      over: { nutrient: ratio.over, mg: content[ratio.over].low },
      under: { nutrient: ratio.under, mg: under },
      asked: ratio.bound * under,
    };
  });
  return [...pushes, { kind: 'helped by', products: movers(row, clash, 1).map(({ product }) => product.id) }];
}

/** What a ceiling leaves of the elements that are called for. */
function ceilingOfProduct(limit: StockLimit | RateLimit, clash: Clash): ConflictReason[] {
  const { content } = clash.request.shelf.find(({ id }) => id === limit.product)!.composition;
  return calledFor(clash)
    .filter((n) => content[n].low > 0)
    .map((nutrient) => ({ kind: 'room', nutrient, mgPerLitre: limit.bound * content[nutrient].low }));
}

/** The elements that floors of the conflict ask for, by band or by rule. */
function calledFor({ limits }: Clash): Nutrient[] {
  return limits.flatMap(({ limit, row }) => {
    if (row.lower === undefined || row.upper !== undefined) return [];
    const nutrient = nutrientOf(limit);
    return nutrient === null ? [] : [nutrient];
  });
}

function ratioOf(limit: Limit): Ratio | null {
  return limit.kind === 'rule' ? ratioOfRule(limit.rule, limit.end) : null;
}

/** The one element that a limit is about, or null. */
function nutrientOf(limit: Limit): NutrientLimit['nutrient'] | null {
  if (limit.kind === 'nutrient') return limit.nutrient;
  return limit.kind === 'rule' ? soleNutrient(limit.rule) : null;
}
