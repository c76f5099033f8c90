import type { Change, Wanted } from '../../blend/changes.js';
import type { Added } from '../../blend/with-more.js';
import type { GradedMiss } from '../../blend/nearest-doses.js';
import type { NoneGiven } from '../../blend/given-types.js';
import type { DosePlan } from '../../dose/plan-types.js';
import { formatNumber } from '../../units/index.js';
import { figure, percent } from '../figures.js';
import { volumeText } from '../volume.js';
import { canCount } from './given.js';
import { products, violatedName } from './limits.js';
import { sourceSays } from './why-not.js';

/** What is short in the nearest feed, in half a sentence; at most three by name. */
export function lackSays({ misses, plan }: Pick<NoneGiven, 'misses' | 'plan'>): string {
  const grave = misses.filter(({ grade }) => grade === (plan === null ? 'harm' : 'need'));
  if (grave.length === 0) return plan === null ? 'none can be given' : 'the nearest keeps all but conventions';
  const names = grave.map(({ limit, bound }) =>
    limit.kind === 'nutrient' ? limit.nutrient : limit.kind === 'ec' ? 'EC' : violatedName(limit, figure(bound)),
  );
  const told = `${names.slice(0, NAMED).join(', ')}${names.length > NAMED ? ` and ${names.length - NAMED} more` : ''}`;
  return plan === null ? `every mix has too much that hurts (${told})` : `the nearest lacks ${told}`;
}

const NAMED = 3;

/** Each grave miss in a line with what it means; conventions together in one. */
export function gradedLines(misses: readonly GradedMiss[]): string[] {
  const custom = misses.filter(({ grade }) => grade === 'custom');
  return [
    ...misses.filter(({ grade }) => grade !== 'custom').map(graveSays),
    ...(custom.length === 0
      ? []
      : [
          `Below the usual least, only convention: ${custom.map(({ limit, value, bound }) => `${nameOf(limit)} ${figure(value)} of ${figure(bound)}`).join(', ')} mg/L.`,
        ]),
  ];
}

const nameOf = (limit: GradedMiss['limit']): string =>
  limit.kind === 'nutrient' ? limit.nutrient : violatedName(limit, '');

function graveSays({ limit, value, bound, grade }: GradedMiss): string {
  const off = bound === 0 ? '' : `, ${percent(Math.abs(value / bound - 1))} too ${value < bound ? 'little' : 'much'}`;
  const matters =
    grade === 'harm' ? 'this hurts' : limit.kind === 'rule' ? 'plants need this balance' : 'plants need it';
  const is = `${violatedName(limit, figure(bound))}: ${figure(value)} here${off}`;
  return `${is}; ${matters}.`;
}

/** A change that was tried, with what is mixed then and how sure it is. */
export function changeSays({ wanted, plan, share, width }: Change): string {
  const near = width <= NEAR ? 'near its aims' : `up to ${formatNumber(width, 2)} times as far from its aims as usual`;
  return `${wantedSays(wanted, plan)}: ${dosesSay(plan)}; ${near}, ${canCount(share)} cans keep its limits.`;
}

/** What rounding leaves of the usual widths. */
const NEAR = 1.2;

function wantedSays(wanted: Wanted, plan: DosePlan): string {
  switch (wanted.kind) {
    case 'with':
      return `With ${wanted.products.map((one) => `${addedSays(one)}${perLitreSays(one.id, plan)}`).join(' and ')} beside the shelf`;
    case 'nh4':
      return `With ${percent(wanted.to)} of the nitrogen as ammonium instead of ${wanted.from === 0 ? 'none' : percent(wanted.from)}`;
    case 'strength':
      return `At a strength of ${wanted.percent} % instead of ${wanted.from}`;
    case 'products':
      return `With ${products(wanted.to)} instead of ${wanted.from}`;
  }
}

/** A salt by its name; of a product of a maker first what kind of product would do. The catalog’s are invented. */
function addedSays({ id, name, kind, isGeneric }: Added): string {
  if (isGeneric) return name || id;
  const looked = kind === undefined ? '' : `${sourceSays({ kind })} such as `;
  return `${looked}${name || id} (invented)`;
}

/** `, 0.19 g/L`; nothing where the plan does without it after all. */
function perLitreSays(id: string, { items, batchLitres }: DosePlan): string {
  const item = items.find(({ product }) => product.id === id);
  return item === undefined
    ? ''
    : `, ${figure(item.chosen.amount / batchLitres)} ${item.product.form === 'powder' ? 'g/L' : 'mL/L'},`;
}

/** `10 L of Calcium nitrate (1.9 g) + Base (3.5 g)`. */
export const dosesSay = ({ items, batchLitres }: DosePlan): string =>
  `${volumeText(batchLitres)} of ${items.map(({ product, chosen }) => `${product.name || product.id} (${chosen.words})`).join(' + ')}`;

/** Where in the page a change is made. */
export function placeOf(wanted: Wanted, feed: string): string {
  switch (wanted.kind) {
    case 'with':
      return `Shelf: put ${wanted.products.map(({ name, id }) => name || id).join(' and ')} on it`;
    case 'nh4':
      return `Feed, ${feed}: ammonium at most ${formatNumber(100 * wanted.to)} %`;
    case 'strength':
      return `Feed or Plants, ${feed}: strength ${wanted.percent} %`;
    case 'products':
      return `${feed}: up to ${wanted.to} products`;
  }
}

/** The options that ask for a change, as they are typed. */
export function optionsOf(wanted: Wanted): Record<string, string | string[]> {
  switch (wanted.kind) {
    case 'with':
      return { with: wanted.products.map(({ id }) => id) };
    case 'nh4':
      return { nh4: `${formatNumber(100 * wanted.to)} %` };
    case 'strength':
      return { strength: `${wanted.percent} %` };
    case 'products':
      return { atMost: `${wanted.to}` };
  }
}
