import type { FarkasSum, LimitMove, Relaxation, Source } from '../../feed/why-not.js';
import type { Ratio } from '../../feed/ratio.js';
import { formatNumber, formatUpTo } from '../../units/index.js';
import { limitSays, products, unitOfLimit } from './limits.js';
import { roundedTo } from './rounded.js';

/** Kinds of product in words that a shop would understand. */
const KINDS: Readonly<Record<string, string>> = {
  nitrate: 'a nitrate feed',
  ammonium: 'an ammonium feed',
  balanced: 'a balanced feed',
  bloom: 'a phosphate and potash feed',
  rest: 'a winter feed',
  calcium: 'a calcium feed',
  'calcium-magnesium': 'a calcium and magnesium liquid',
  micro: 'a trace-element mix',
  silicate: 'a soluble silicate',
  kelp: 'a kelp extract',
  humic: 'a humic extract',
  organic: 'an organic feed',
};

/** What to look for in a shop. */
export const sourceSays = (source: Source): string =>
  'name' in source ? source.name : (KINDS[source.kind] ?? source.kind);

/** The weighted sum of limits that contradicts itself, spelled out. */
export function farkasSays({ terms, asked, most }: FarkasSum): string {
  const sum = terms
    .map(({ limit, end, times }, i) => {
      const sign = i === 0 ? SIGNS[end].first : SIGNS[end].next;
      return `${sign}${formatNumber(times)} × (${limitSays(limit)})`;
    })
    .join('');
  const must = `${sum} must come to at least ${formatNumber(asked)}`;
  return most === 0
    ? `${must}, and nothing counts above 0 in it: together they ask 0 ≥ ${formatNumber(asked)}`
    : `${must}, and no mix brings it above ${formatNumber(most)}`;
}

/** A floor is added, a cap taken away. */
const SIGNS = { least: { first: '', next: ' + ' }, most: { first: '−', next: ' − ' } };

/** A way out as it is told: what gives way, and how. */
export interface Way {
  limit: string;
  change: string;
  from: number;
  to: number;
}

/** A way out in the grower's units, rounded to the side that works. */
export function waySays(way: Relaxation): Way {
  switch (way.kind) {
    case 'single':
      return moveSays(way.move);
    case 'together':
      return togetherSays(way);
    case 'strength': {
      const { percent, decimals, nitrogen, asked, from, to } = way;
      const shown = decimals === null ? formatNumber(percent) : formatUpTo(percent, decimals);
      const inNitrogen = nitrogen === null ? '' : ` (N ${formatNumber(nitrogen)} mg/L)`;
      return { limit: 'strength', change: `strength ${shown} %${inNitrogen} instead of ${asked}`, from, to };
    }
    case 'water':
      return { limit: 'water', change: `${formatNumber(way.percent)} % ${way.water} in the can`, from: 0, to: way.to };
    case 'products': {
      const { from, to } = way;
      return { limit: `at most ${products(from)}`, change: `at most ${products(to)} instead of ${from}`, from, to };
    }
  }
}

function togetherSays({ moves, total }: Extract<Relaxation, { kind: 'together' }>): Way {
  const told = moves.map(moveSays);
  const [first] = told;
  if (first && told.length === 1) return first;
  return {
    limit: `${told.length} limits together`,
    change: told.map(({ limit, change }) => `${limit}: ${change}`).join('; '),
    from: 0,
    to: total,
  };
}

/** How far a limit gives way. */
export function moveSays(move: LimitMove): Way {
  const { limit, from, to } = move;
  return { limit: limitSays(limit), change: changeSays(move), from, to };
}

function changeSays({ limit, from, to, ratio, wanted }: LimitMove): string {
  if (ratio) return ratioChange(ratio, to);
  if (limit.kind === 'stock' && wanted !== null) {
    const { unit, product, onHand } = limit;
    return `${formatNumber(roundedTo(wanted, 'up'))} ${unit} of ${product} instead of ${formatNumber(onHand)} ${unit} for the batch`;
  }
  const isFloor = 'end' in limit && limit.end === 'least';
  return `${formatNumber(roundedTo(to, isFloor ? 'down' : 'up'))} instead of ${formatNumber(from)} ${unitOfLimit(limit)}`;
}

/** `NH4 share of N 7.1 % instead of 0 %`, `Ca : Mg 1.8 instead of 2`. */
function ratioChange({ over, under, bound, end, isShare }: Ratio, to: number): string {
  const short = (nutrient: string): string => nutrient.replace(/-N$/, '');
  const name = isShare ? `${short(over)} share of N` : `${short(over)} : ${short(under)}`;
  const show = (x: number): string => (isShare ? `${formatNumber(100 * x)} %` : formatNumber(x));
  return `${name} ${show(roundedTo(to, end === 'most' ? 'up' : 'down'))} instead of ${show(bound)}`;
}
