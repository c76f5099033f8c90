import type { Clouding } from '../can/clouding.js';
import { codesOfSolution } from '../can/hazards.js';
import { isOrganic } from '../can/organic.js';
import type { AtRatio } from './concentrate-request.js';
import type { TankItem, TankSheet } from './concentrate-result.js';
import type { StockItem, TankLimit } from './tank.js';

/** One bottle, written out: what goes in, in which order, how near to its limits it stands and how long it keeps. */
export function tankSheet(bottle: {
  name: TankSheet['name'];
  /** In the order in which they are dissolved. */
  items: readonly StockItem[];
  request: Pick<AtRatio, 'ratio' | 'jugMillilitres'>;
  clouding: Clouding;
  limits: readonly TankLimit[];
}): TankSheet {
  const { name, items, request, clouding, limits } = bottle;
  const litres = request.jugMillilitres / 1000;
  return {
    name,
    items: items.map(({ product, perLitre }): TankItem => {
      const stock = perLitre * request.ratio;
      const perJug = stock * litres;
      const amount = product.form === 'powder' ? { gramsPerJug: perJug } : { millilitresPerJug: perJug };
      return { id: product.id, name: product.name, ...amount, perLitre: stock };
    }),
    calcium: items.some(({ brings }) => brings.ions.Ca > 0),
    pH: clouding.pH,
    fullest: fullestOf(limits),
    precipitation: clouding.minerals,
    hazards: codesOfSolution(items.map(({ product, perLitre }) => ({ product, perLitre: perLitre * request.ratio }))),
    keepsWeeks: items.some(({ product }) => isOrganic(product)) ? ORGANIC_WEEKS : MINERAL_WEEKS,
  };
}

/** Common practice, no source. */
const MINERAL_WEEKS = 12;
const ORGANIC_WEEKS = 2;

function fullestOf(limits: readonly TankLimit[]): TankSheet['fullest'] {
  const named = limits.flatMap(({ limit, share }) => ('name' in limit ? [{ what: limit.name, share }] : []));
  return named.reduce<TankSheet['fullest']>((top, limit) => (top && top.share >= limit.share ? top : limit), null);
}
