import type { ConflictReason, Brought, Burden, PackCount } from '../../feed/why-not.js';
import { formatNumber } from '../../units/index.js';
import { limitSays } from './limits.js';

/** What makes a limit bite, in words that can be acted on; a finding may take more than one line. */
export function becauseLines(because: ConflictReason): string[] {
  return because.kind === 'no source'
    ? [
        `nothing on the shelf is known to hold ${because.nutrient}`,
        ...because.inWater.map(({ water, mgPerLitre }) => `${water} holds ${formatNumber(mgPerLitre)} mg/L of it`),
      ]
    : [becauseSays(because)];
}

function becauseSays(because: Exclude<ConflictReason, { kind: 'no source' }>): string {
  switch (because.kind) {
    case 'water holds':
      return `${because.water} holds ${formatNumber(because.mgPerLitre)} mg/L of ${because.nutrient}`;
    case 'only from':
      return onlyFrom(because);
    case 'brings':
      return `${because.product} ${broughtSays(because.brought)}`;
    case 'brings with':
      return `${because.product} brings ${brings(because.burden)} with every ${formatNumber(because.per.mg)} mg of ${because.per.nutrient}`;
    case 'pushed up':
      return `pushed up by ${names(because.products)}`;
    case 'pushes against':
      return `${because.product} pushes against it by ${formatNumber(because.mg)} mg per ${because.unit}`;
    case 'out of proportion': {
      const { product, over, under, asked } = because;
      return `${product} pushes against it: ${formatNumber(over.mg)} mg of ${over.nutrient} to ${formatNumber(under.mg)} mg of ${under.nutrient}, where it asks for ${formatNumber(asked)}`;
    }
    case 'helped by':
      return because.products.length === 0
        ? 'no product on the shelf helps it'
        : `only ${names(because.products)} ${because.products.length === 1 ? 'helps' : 'help'} it`;
    case 'room':
      return `that leaves it room for ${formatNumber(because.mgPerLitre)} mg/L of ${because.nutrient}`;
    case 'more products do':
      return 'every other limit can be kept with more products';
    case 'does without':
      return doesWithout(because);
    case 'not for sale':
      return 'each feed could be mixed, but not from what is on hand and for sale for so long: something that is needed is not for sale';
  }
}

/** `Ca can only come from X, which brings 11 mg of NH4-N per 190 mg of Ca; NH4 <= 0 * N allows none`. */
function onlyFrom({ nutrient, products, bringing }: Extract<ConflictReason, { kind: 'only from' }>): string {
  const only = `${nutrient} can only come from ${names(products)}`;
  return bringing.length === 0 ? only : `${only}, which ${bringing.map(broughtSays).join(' and ')}`;
}

const broughtSays = ({ burden, per }: Brought): string =>
  `brings ${brings(burden)} per ${formatNumber(per.mg)} mg of ${per.nutrient}; ${allows(burden)}`;

function brings({ amount, of, limit }: Burden): string {
  if (of === 'EC') return `${formatNumber(amount)} mS/cm`;
  return of === 'the rule'
    ? `${formatNumber(amount)} mg towards ${limitSays(limit)}`
    : `${formatNumber(amount)} mg of ${of}`;
}

function allows({ limit, of, ratio }: Burden): string {
  if (ratio) {
    const { bound, under, isShare } = ratio;
    const share = isShare ? `${formatNumber(100 * bound)} % of ${under}` : `${formatNumber(bound)} times ${under}`;
    return `${limitSays(limit)} allows ${bound === 0 ? 'none' : share}`;
  }
  return of === 'the rule' && limit.kind === 'rule'
    ? `${formatNumber(limit.bound)} mg/L are allowed`
    : `${limitSays(limit)} is the cap`;
}

function doesWithout({ wish, spend, currency, packs }: Extract<ConflictReason, { kind: 'does without' }>): string {
  const money = `${formatNumber(spend)} ${currency}`.trim();
  const what = packs.map(({ id, count }: PackCount) => `${count} × ${id}`).join(', ');
  switch (wish) {
    case 'budget':
      return `the least that does costs ${money}: ${what}`;
    case 'new products':
      return `with any number this does, for ${money}: ${what}`;
    case 'both':
      return `without both limits ${what} does, for ${money}`;
  }
}

/** `a, b or c`, at most six. */
function names(ids: readonly string[]): string {
  const shown = ids.slice(0, 6);
  const rest = ids.length - shown.length;
  if (rest > 0) return `${shown.join(', ')} and ${rest} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`;
}
