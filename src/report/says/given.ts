import { atDoor } from '../../door.js';
import type { Assumed, Near, Sure, SureRemedy } from '../../blend/given-types.js';
import { factorOf, MAIN_WIDTH, NITROGEN_WITHIN, TRACE_WIDTH } from '../../feed/near.js';
import { formatNumber } from '../../units/index.js';
import { figure } from '../figures.js';
import { limitSays, products } from './limits.js';

/** How near the feed lies to its aims, in half a sentence. */
export function nearSays({ farthest, asked, atMost }: Near): string {
  const [first] = farthest;
  if (first) {
    const comes =
      atMost === null ? 'this shelf comes' : `${products(atMost)} of this shelf ${atMost === 1 ? 'comes' : 'come'}`;
    return `as near to its aims as ${comes} (${offSays(first)})`;
  }
  return asked.nitrogenWithin > NITROGEN_WITHIN ? 'near its aims but for nitrogen' : 'near its aims';
}

/** `P 48 % below`. */
export const offSays = ({ element, mgPerLitre, aim }: Near['farthest'][number]): string =>
  `${element} ${formatNumber(100 * Math.abs(mgPerLitre / aim - 1), 2)} % ${mgPerLitre < aim ? 'below' : 'above'}`;

/** Cans of a hundred that keep the limits. */
export function sureSays({ share, wanted }: Pick<Sure, 'share' | 'wanted'>): string {
  const cans = canCount(share);
  return share >= wanted ? `${cans} cans keep its limits` : `but only ${cans} cans keep its limits`;
}

/** Whole cans, rounded down: never more than was counted. */
export function canCount(share: number): string {
  if (share === 1) return 'all of 100';
  return share > 0 && share < 0.01 ? 'less than 1 of 100' : `${Math.floor(100 * share + 1e-9)} of 100`;
}

/** Elements that lie farther from their aims than usual, the farthest first, and what keeps the shelf from coming nearer. */
export function farthestSays({ farthest, stoppedBy, asked }: Near): string[] {
  const told = farthest.slice(0, NAMED).map((one) => {
    const factor = factorOf(one.element, one.mgPerLitre, one.aim);
    const usual = asked.factor <= 1 && factor < 1.1 ? ', by what the tools can measure' : '';
    return `${one.element} is ${offSays(one).slice(one.element.length + 1)} its aim${usual}.`;
  });
  const more = farthest.slice(NAMED);
  const reasons = stoppedBy.filter(({ kind }) => kind !== 'water');
  return [
    ...told,
    ...(more.length > 0 ? [`So ${more.length === 1 ? 'is' : 'are'} ${more.map(offSays).join(', ')}.`] : []),
    ...(farthest.length > 0 && reasons.length > 0
      ? [`Nothing nearer goes together with ${reasons.map(limitSays).join(', ')}.`]
      : []),
    ...asked.without.map((element) => `Nothing on the shelf brings ${element}.`),
    ...(asked.apart?.length ? [`No mix inside the limits holds ${asked.apart.join(', ')} as well.`] : []),
    ...(asked.nitrogenWithin > NITROGEN_WITHIN
      ? [
          `Nitrogen is planned within ${figure(100 * asked.nitrogenWithin)} % of its aim: nearer, fewer cans would keep the limits, or none.`,
        ]
      : []),
  ];
}

const NAMED = 4;

/** How near was asked for, in a sentence. */
export function askedSays({ main, trace, asked }: Near): string {
  const grown = asked.factor > 1 || Object.keys(asked.own ?? {}).length > 0;
  const usual = grown
    ? ` (${MAIN_WIDTH} and ${TRACE_WIDTH} are usual; the shelf, the kit or the cans ask for more)`
    : '';
  return `Nitrogen within ${figure(100 * asked.nitrogenWithin)} % of its aim as planned, main elements within ${figure(main)} times theirs, trace elements within ${figure(trace)} times${usual}.`;
}

/** What was taken for granted. */
export function assumedSays({ kit, batch }: Assumed, litres: number): string[] {
  return [
    ...(kit
      ? [
          'No kit is named: level spoons of 1, 1/2, 1/4 and 1/8 US tsp and a 0.1 g scale are assumed. Name yours under kit in bench.yaml.',
        ]
      : []),
    ...(batch
      ? [
          `No batch is named: a can of ${figure(litres)} L is assumed. ${atDoor({ typed: 'Say --mix with yours.', page: 'Say yours in Plants.' })}`,
        ]
      : []),
  ];
}

/** Why too few cans keep the limits, and what would help. */
export function shortSays({ short, share, wanted }: Sure): string[] {
  if (short === null || share >= wanted) return [];
  const { remedies } = short;
  return remedies.length === 0
    ? []
    : [`It would help to take ${remedies.map((one) => `${remedySays(one)} (${canCount(one.share)})`).join(', or ')}.`];
}

function remedySays(remedy: SureRemedy): string {
  switch (remedy.kind) {
    case 'batch':
      return `a batch of ${formatNumber(remedy.litres, 4)} L`;
    case 'scale':
      return `a ${formatNumber(remedy.stepGrams)} g scale`;
    case 'weigh':
      return `the weight of ten level ${remedy.spoon} of ${remedy.product}`;
    default:
      return remedy satisfies never;
  }
}
