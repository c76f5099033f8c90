import type { Limit, Miss, MissableLimit, Wish } from '../../feed/limits.js';
import type { RuleOrigin } from '../../programme/index.js';
import { formatNumber } from '../../units/index.js';

/** `Ca ≥ 40 mg/L`, `NH4 <= 0.1 * N`, `EC ≤ 0.8 mS/cm`, `base: 12 g on hand`. */
export function limitSays(limit: Limit | Wish): string {
  switch (limit.kind) {
    case 'nutrient':
      return `${limit.nutrient} ${limit.end === 'least' ? '≥' : '≤'} ${formatNumber(limit.bound)} mg/L`;
    case 'near':
      return `${limit.nutrient} ${limit.end === 'least' ? '≥' : '≤'} ${formatNumber(limit.bound)} mg/L to be near its aim`;
    case 'rule':
      return limit.rule.text;
    case 'ec':
      return `EC ≤ ${formatNumber(limit.bound)} mS/cm`;
    case 'stock':
      return `${limit.product}: ${formatNumber(limit.onHand)} ${limit.unit} on hand`;
    case 'rate':
      return `${limit.product}: at most ${formatNumber(limit.bound)} ${limit.unit}/L by its label`;
    case 'water':
      return 'the waters fill the can';
    case 'products':
      return `at most ${products(limit.bound)}`;
    case 'new products':
      return `at most ${newProducts(limit.bound)}`;
    case 'budget':
      return `packs for at most ${money(limit.bound, limit.currency)}`;
    case 'new products for a budget':
      return `at most ${newProducts(limit.bound)} for at most ${money(limit.budget, limit.currency)}`;
    case 'supply':
      return `stock for ${formatNumber(limit.bound)} weeks`;
  }
}

/** What one unit of a limit's bound is. */
export function unitOfLimit(limit: Limit): string {
  switch (limit.kind) {
    case 'nutrient':
    case 'near':
    case 'rule':
      return 'mg/L';
    case 'ec':
      return 'mS/cm';
    case 'stock':
    case 'rate':
      return `${limit.unit}/L`;
    case 'water':
      return 'L/L';
    default:
      return limit satisfies never;
  }
}

/** Whose a limit is: `programme`, `programme: sphagnum`, `you`, `shelf`. */
export const limitFrom = (limit: Limit | Wish): string =>
  limit.kind === 'rule' ? originSays(limit.rule.from) : limit.owner;

/** Where a rule comes from: `programme: pleurothallid, sphagnum`, `programme: all plants`, `you`. */
export function originSays(from: RuleOrigin): string {
  if (from.owner === 'you') return 'you';
  const parts = [from.plants, from.medium, from.phase].filter((part) => part !== undefined);
  return `programme: ${parts.length > 0 ? parts.join(', ') : 'all plants'}`;
}

/** A limit as the published JSON names it, whose bands have `min` and `max`: `Ca min`, `EC max`, a rule by its text. */
export function missName(limit: MissableLimit): string {
  switch (limit.kind) {
    case 'nutrient':
      return `${limit.nutrient} ${limit.end === 'least' ? 'min' : 'max'}`;
    case 'ec':
      return 'EC max';
    case 'rule':
      return limit.rule.text;
  }
}

/** A limit with its bound, in the words of the tables: `Ca least 6.12`, `EC most 0.5`, a rule by its text. */
export function violatedName(limit: MissableLimit, bound: string): string {
  switch (limit.kind) {
    case 'nutrient':
      return `${limit.nutrient} ${limit.end} ${bound}`;
    case 'ec':
      return `EC most ${bound}`;
    case 'rule':
      return limit.rule.text;
  }
}

/** A least that convention alone stands behind, missed: told, and no more. */
export const missSays = ({ limit, value, bound }: Miss): string =>
  limit.kind === 'rule' && limit.rule.terms.alkalinity !== undefined
    ? `${limit.rule.text} is not kept (${formatNumber(value, 3)} mg/L as CaCO3): the acid, or the share of pure water, that would mend it is told under Take care.`
    : limit.kind === 'rule' && limit.rule.aimed
      ? `${limit.rule.text} is aimed at and not reached (${formatNumber(value, 3)}): the shelf would be far from its other aims.`
      : `${violatedName(limit, formatNumber(bound, 3))} is not reached (${formatNumber(value, 3)}): only convention stands behind it.`;

export const products = (count: number): string => `${count} ${count === 1 ? 'product' : 'products'}`;
const newProducts = (count: number): string => `${count} new ${count === 1 ? 'product' : 'products'}`;
const money = (x: number, currency: string): string => `${formatNumber(x)} ${currency}`.trim();
