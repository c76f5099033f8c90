import { formatNumber } from '../units/index.js';
import { type Batch, type BatchItem, PER_DEGREE, type PenUse, plannedLitres } from './batch.js';
import type { Cause } from './cause.js';
import { MICROSIEMENS } from './hypotheses.js';

type Named = Pick<Cause, 'kind' | 'variant' | 'value'> & { item: number | undefined; other: number | undefined };

/** A cause as a sentence without its full stop. */
export function causeWords({ kind, variant, value, item, other }: Named, batch: Batch, pen: PenUse): string {
  const { likely, low, high } = value;
  switch (kind) {
    case 'item':
      return itemWords(batch.items[item!]!, variant, value);
    case 'volume': {
      const litres = (factor: number): string => figure(factor * batch.litres);
      const side = likely < 1 ? 'less' : 'more';
      return `${side} water than planned (about ${litres(likely)} L for ${figure(batch.litres)} L; ${litres(low)} to ${litres(high)} L)${gallons(likely, plannedLitres(batch))}`;
    }
    case 'topping':
      return `not topped up: still at ${figure(likely * batch.litres)} L`;
    case 'scale':
      if (pen.scale !== null && Math.abs(likely * pen.scale - MICROSIEMENS) < 1)
        return `the pen shows µS/cm, not ppm on the ${figure(pen.scale)} scale`;
      return pen.scale === null
        ? `the pen shows thousands of ppm on the ${figure(1000 * likely)} scale, not EC`
        : `the pen counts on the ${figure(likely * pen.scale)} scale, not on ${figure(pen.scale)}`;
    case 'temperature':
      return temperatureWords(likely, pen);
    case 'pen':
      return `the pen itself reads ${figure(100 * Math.abs(likely - 1))} % too ${likely > 1 ? 'high' : 'low'}`;
    case 'water':
      return `another water than planned, with about ${figure(likely)} mS/cm more (${figure(low)} to ${figure(high)})`;
    case 'swap':
      return `the amounts of ${nameOf(batch.items[item!]!)} and ${nameOf(batch.items[other!]!)} were exchanged`;
  }
}

/** How to find out whether it was that. */
export function checkWords({ kind, item, other }: Named, batch: Batch): string {
  switch (kind) {
    case 'item': {
      const { words, product } = batch.items[item!]!;
      return `Think back: was it ${words} of ${product.name}? Weigh the jar if you know what it held.`;
    }
    case 'volume':
      return 'Look at the mark on the can, and which gallon it counts.';
    case 'topping':
      return 'Look at the mark on the can.';
    case 'scale':
      return 'Look on the pen or in its leaflet for µS, EC, 500, 640 or 700.';
    case 'temperature':
      return 'Look for ATC on the pen; read again when the can is at 25 °C.';
    case 'pen':
      return 'Check the pen in a standard: velamen meter --standard "1413 µS" --reads …';
    case 'water':
      return 'Read the plain water by itself.';
    case 'swap':
      return `Think back: which spoon went with ${batch.items[item!]!.product.name}, and which with ${batch.items[other!]!.product.name}?`;
  }
}

function temperatureWords(gain: number, { temperatureC, compensates }: PenUse): string {
  if (compensates === false) return 'the pen corrects for temperature by itself after all, so it was corrected twice';
  const at = temperatureC ?? 25 + (gain - 1) / PER_DEGREE;
  const way = gain < 1 ? 'low' : 'high';
  return `the pen does not correct for temperature: at ${figure(at)} °C it reads ${figure(100 * Math.abs(gain - 1))} % ${way}`;
}

function itemWords(item: BatchItem, variant: Cause['variant'], { likely, low, high }: Cause['value']): string {
  const name = nameOf(item);
  const unit = item.product.composition.per;
  if (variant === 'forgotten') return `${name} was forgotten`;
  const amounts = `about ${figure(likely * item.planned)} ${unit} for ${figure(item.planned)} ${unit}`;
  if (variant === 'doubled') return `${name} went in twice (${amounts})`;
  if (variant === 'halved') return `only half of ${name} went in (${amounts})`;
  const range = `${figure(low)} to ${figure(high)} times`;
  if (variant === 'wrong spoon') return `${name} was measured with another spoon (${amounts}, ${figure(likely)} times)`;
  return `too ${likely > 1 ? 'much' : 'little'} ${name} (${amounts}; ${range} the plan)`;
}

/** The two gallons differ by a fifth: the usual slip, where the batch is a round number of one of them. */
function gallons(factor: number, litres: number): string {
  if (isRound(litres / US) && Math.abs(factor - GALLONS) < 0.03)
    return ', as if an imperial gallon had been taken for a US gallon';
  if (isRound(litres / IMPERIAL) && Math.abs(factor - 1 / GALLONS) < 0.03)
    return ', as if a US gallon had been taken for an imperial gallon';
  return '';
}

const [US, IMPERIAL] = [3.785411784, 4.54609];
const GALLONS = IMPERIAL / US;
/** Whole quarters of a gallon. */
const isRound = (gallons: number): boolean => gallons > 0.2 && Math.abs(4 * gallons - Math.round(4 * gallons)) < 0.01;
const nameOf = (item: BatchItem): string => item.product.name;
const figure = (x: number): string => formatNumber(x, 3);
