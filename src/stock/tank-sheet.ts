import type { Clouding } from '../can/clouding.js';
import { formatNumber } from '../units/format.js';
import type { ConcentrateRequest } from './concentrate-request.js';
import type { TankItem, TankSheet } from './concentrate-result.js';
import type { StockItem, TankLimit } from './tank.js';

/** One bottle, written out: what goes in, in which order, and what its label says. */
export function tankSheet(bottle: {
  name: string;
  /** In the order in which they are dissolved. */
  items: readonly StockItem[];
  request: ConcentrateRequest;
  /** The water it is filled with, in words. */
  fill: string;
  clouding: Clouding;
  limits: readonly TankLimit[];
  tanks: number;
}): TankSheet {
  const { name, request, fill, clouding, limits, tanks } = bottle;
  const litres = request.jugMillilitres / 1000;
  const items = bottle.items.map(({ product, perLitre }): TankItem => {
    const stock = perLitre * request.ratio;
    const perJug = stock * litres;
    const amount = product.form === 'powder' ? { gramsPerJug: perJug } : { millilitresPerJug: perJug };
    return { id: product.id, name: product.name, ...amount, perLitre: stock };
  });
  const salts = limits.filter((limit) => limit.kind !== 'mineral' && limit.kind !== 'room');
  const fullest = salts.reduce<TankLimit | null>((top, limit) => (top && top.share >= limit.share ? top : limit), null);
  const keepsWeeks = bottle.items.some(({ product }) => isOrganic(product)) ? ORGANIC_WEEKS : MINERAL_WEEKS;
  return {
    name,
    items,
    pH: clouding.pH,
    fullest: fullest && { what: fullest.name, share: fullest.share },
    precipitation: clouding.minerals,
    steps: stepsOf(items, request, fill),
    label: labelOf({ name, items, request, tanks, keepsWeeks, stocked: bottle.items }),
    keepsWeeks,
  };
}

/** Common practice, no source. */
const MINERAL_WEEKS = 12;
const ORGANIC_WEEKS = 2;

/** Seaweed, fish, humic matter and the like feed moulds. */
export function isOrganic(product: StockItem['product']): boolean {
  const words = [product.kind ?? '', product.name, ...product.derivedFrom].join(' ').toLowerCase();
  return /kelp|seaweed|fish|humic|humate|fulvic|amino|molasses|hydrolysate|yeast|organic|extract|guano/.test(words);
}

function stepsOf(items: readonly TankItem[], { jugMillilitres }: ConcentrateRequest, fill: string): string[] {
  return [
    `Fill the jug to three quarters with ${ml(0.75 * jugMillilitres)} of hand-warm water (30 to 40 °C): ${fill}.`,
    ...items.map((item, i) => {
      const what = `${amountOf(item)} of ${item.name}`;
      const verb = item.gramsPerJug === undefined ? 'Pour in' : 'Stir in';
      return i < items.length - 1
        ? `${verb} ${what}; wait until it is wholly clear before the next.`
        : `${verb} ${what}; stir until it is wholly clear.`;
    }),
    `Let it cool, then fill up to ${ml(jugMillilitres)}.`,
    'Where it stays cloudy, or crystals show after a night at its coldest place, it is too strong: add water and a larger dose.',
  ];
}

function labelOf(bottle: {
  name: string;
  items: readonly TankItem[];
  request: ConcentrateRequest;
  tanks: number;
  keepsWeeks: number;
  stocked: readonly StockItem[];
}): string[] {
  const { name, items, request, tanks, keepsWeeks, stocked } = bottle;
  const feed = request.feed?.name ?? 'feed';
  const other = name === 'A' ? 'B' : 'A';
  const dose = ml(1000 / request.ratio);
  const calcium = stocked.some(({ brings }) => brings.ions.Ca > 0);
  return [
    tanks === 1
      ? `${feed}: STOCK SOLUTION 1:${formatNumber(request.ratio, 4)}`
      : `${feed}: STOCK ${name} 1:${formatNumber(request.ratio, 4)}`,
    `In ${ml(request.jugMillilitres)}: ${items.map((item) => `${amountOf(item)} ${item.name}`).join(', ')}.`,
    tanks === 1
      ? `Dose: ${dose} in each litre of water.`
      : name === 'A'
        ? `Dose: ${dose} in each litre of water, stir, then as much of ${other}.`
        : `Dose: ${dose} in each litre of water, after ${other} has been stirred in.`,
    ...(tanks === 1
      ? []
      : [`NEVER undiluted together with ${other}${calcium ? ' (calcium falls out with sulfate and phosphate)' : ''}.`]),
    `Made on: ____________   Use within ${keepsWeeks} weeks.`,
    'PLANT FEED, CONCENTRATED. NOT FOR DRINKING. Keep from children and pets. Splash in the eyes: rinse long with water, see a doctor.',
  ];
}

/** `12.4 g` or `3.1 mL` for the jug. */
function amountOf(item: TankItem): string {
  const { gramsPerJug, millilitresPerJug = 0 } = item;
  if (gramsPerJug === undefined) return ml(millilitresPerJug);
  return gramsPerJug < 0.01 ? `${formatNumber(1000 * gramsPerJug, 3)} mg` : `${formatNumber(gramsPerJug, 3)} g`;
}

export const ml = (millilitres: number): string =>
  millilitres >= 1000 ? `${formatNumber(millilitres / 1000, 3)} L` : `${formatNumber(millilitres, 3)} mL`;
