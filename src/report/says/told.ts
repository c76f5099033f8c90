import type { PlannedBatch } from '../../meter/index.js';
import { formatNumber } from '../../units/index.js';
import { volumeText } from '../volume.js';

type ToldWay = PlannedBatch['told'][number];

/** One way that the grower said it may be, as a clause: `Base did not go in, and the can holds 5 L instead of 4 L`. */
export function toldSays({ slips, waters }: ToldWay, { plan, plannedLitres }: PlannedBatch): string {
  if (slips.length === 0) return 'all went in as planned';
  if (isAllAlike(slips, plan.length)) return allSays((slips[0] as { factor: number }).factor);
  const clauses = slips.map((slip) => {
    switch (slip.kind) {
      case 'item':
        return itemSays(plan[slip.item]!, slip.factor);
      case 'litres':
        return `the can holds ${volumeText(slip.litres)} instead of ${volumeText(plannedLitres)}`;
      case 'water':
        return `it was made with ${waters.charAt(0).toLowerCase()}${waters.slice(1)}`;
      case 'topping':
        return 'the can was not topped up';
      default:
        return slip satisfies never;
    }
  });
  return clauses.join(' and ');
}

function itemSays({ name, amount, unit }: PlannedBatch['plan'][number], factor: number): string {
  if (factor === 0) return `${name} did not go in`;
  const amounts = `${formatNumber(factor * amount, 3)} ${unit} instead of ${formatNumber(amount, 3)} ${unit}`;
  if (Math.abs(factor - 2) < 1e-9) return `${name} went in twice (${amounts})`;
  if (Math.abs(factor - 0.5) < 1e-9) return `half of ${name} went in (${amounts})`;
  return `${amounts} of ${name} went in`;
}

/** The same factor on every item: `everything twice`. */
function isAllAlike(slips: ToldWay['slips'], items: number): boolean {
  const factors = slips.map((slip) => (slip.kind === 'item' ? slip.factor : null));
  return items > 1 && slips.length === items && factors.every((factor) => factor !== null && factor === factors[0]);
}

const allSays = (factor: number): string =>
  factor === 0
    ? 'nothing went in'
    : `everything went in ${factor === 2 ? 'twice' : `${formatNumber(factor, 3)} times`}`;

/** How to find out whether it was that. */
export function saidCheck({ slips }: ToldWay, { plan }: PlannedBatch): string {
  const [slip] = slips;
  if (slip?.kind === 'litres' || slip?.kind === 'topping') return 'Look at the mark on the can.';
  if (slip?.kind === 'water') return 'Read the plain water by itself.';
  const names = slips.flatMap((one) => (one.kind === 'item' ? [plan[one.item]!.name] : []));
  return `Weigh the jar of ${names.join(' and ')} if you know what it held, or see whether its spoon is wet.`;
}
