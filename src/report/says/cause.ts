import { atDoor } from '../../door.js';
import { NO_FAULT } from '../../meter/cause.js';
import { MICROSIEMENS } from '../../meter/hypotheses.js';
import { PER_DEGREE } from '../../meter/batch.js';
import { saidCheck, toldSays } from './told.js';
import type { Cause, PlannedBatch, Variant } from '../../meter/index.js';
import { formatNumber } from '../../units/index.js';
import { volumeText } from '../volume.js';
import { IMPERIAL_GALLON, US_GALLON } from '../sheet-page/readings.js';

/** A cause as a sentence without its full stop. */
export function causeSays({ fault, value }: Pick<Cause, 'fault' | 'value'>, batch: PlannedBatch): string {
  const { pen, plan, litres, plannedLitres } = batch;
  const { likely, low, high } = value;
  switch (fault.kind) {
    case 'item':
      return itemSays(plan[fault.item]!, fault.variant, value);
    case 'volume': {
      const at = (factor: number): string => figure(factor * litres);
      const side = likely < 1 ? 'less' : 'more';
      return `${side} water than planned (about ${at(likely)} L for ${volumeText(litres)}; ${at(low)} to ${at(high)} L)${gallons(likely, plannedLitres)}`;
    }
    case 'topping':
      return `not topped up: still at ${figure(likely * litres)} L`;
    case 'scale':
      if (pen.scale !== null && Math.abs(likely * pen.scale - MICROSIEMENS) < 1)
        return `the pen shows µS/cm, not ppm on the ${figure(pen.scale)} scale`;
      return pen.scale === null
        ? `the pen shows thousands of ppm on the ${figure(1000 * likely)} scale, not EC`
        : `the pen counts on the ${figure(likely * pen.scale)} scale, not on ${figure(pen.scale)}`;
    case 'temperature':
      return temperatureSays(likely, pen);
    case 'pen':
      return `the pen itself reads ${figure(100 * Math.abs(likely - 1))} % too ${likely > 1 ? 'high' : 'low'}`;
    case 'water':
      return `another water than planned, with about ${figure(likely)} mS/cm more (${figure(low)} to ${figure(high)})`;
    case 'label': {
      const { name } = plan[fault.item]!;
      const off = figure(100 * Math.abs(likely - 1));
      return `${name} reads about ${off} % ${likely > 1 ? 'higher' : 'lower'} than its label lets expect: its salts are not declared; its doses may well be right`;
    }
    case 'swap':
      return `the amounts of ${plan[fault.item]!.name} and ${plan[fault.other]!.name} were exchanged`;
    case 'said':
    case 'none':
      return causeBriefly({ fault, value }, batch);
    default:
      return fault satisfies never;
  }
}

/** The same in a few words, without odds: `Calcium powder went in twice`. */
export function causeBriefly(cause: Pick<Cause, 'fault' | 'value'>, batch: PlannedBatch): string {
  const { fault, value } = cause;
  switch (fault.kind) {
    case 'item':
      return itemBriefly(batch.plan[fault.item]!.name, fault.variant, value.likely);
    case 'volume':
      return `there is ${value.likely < 1 ? 'less' : 'more'} water in the can than planned`;
    case 'topping':
      return `the can was not topped up (still at ${volumeText(Number(figure(value.likely * batch.litres)))})`;
    case 'temperature':
      return batch.pen.compensates === false
        ? 'the pen corrects for temperature'
        : 'the pen does not correct for temperature';
    case 'water':
      return 'it was another water than planned';
    case 'label':
      return `the salts of ${batch.plan[fault.item]!.name} are others than its label lets expect`;
    case 'scale':
    case 'pen':
    case 'swap':
      return causeSays(cause, batch);
    case 'none':
      return 'all went in as planned';
    case 'said': {
      const said = toldSays(batch.told[fault.way]!, batch);
      return fault.besides === null ? said : `${said}, and ${causeBriefly({ fault: fault.besides, value }, batch)}`;
    }
    default:
      return fault satisfies never;
  }
}

function itemBriefly(name: string, variant: Variant | null, likely: number): string {
  switch (variant) {
    case 'forgotten':
      return `${name} was forgotten`;
    case 'doubled':
      return `${name} went in twice`;
    case 'halved':
      return `only half of ${name} went in`;
    case 'wrong spoon':
      return `${name} was measured with another spoon`;
    case null:
      return `too ${likely > 1 ? 'much' : 'little'} ${name} went in`;
    default:
      return variant satisfies never;
  }
}

/** How to find out whether it was that. */
export function checkSays({ fault }: Pick<Cause, 'fault'>, batch: PlannedBatch): string {
  const { plan } = batch;
  switch (fault.kind) {
    case 'item': {
      const { words, name } = plan[fault.item]!;
      return `Think back: was it ${words} of ${name}? Weigh the jar if you know what it held.`;
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
      return atDoor({
        typed: 'Check the pen in a standard: velamen meter --standard "1413 µS" --reads …',
        page: 'Check the pen in a standard: Plants, below the pen.',
      });
    case 'water':
      return 'Read the plain water by itself.';
    case 'label':
      return `Look on the label of ${plan[fault.item]!.name} for "derived from" and enter it as derived_from; or stir 1 g of it into 1 L of pure water and enter what the pen shows as ec.`;
    case 'said':
      return fault.besides === null
        ? saidCheck(batch.told[fault.way]!, batch)
        : checkSays({ fault: fault.besides }, batch);
    case 'none':
      return 'Think back once more, step by step, with the sheet in hand.';
    case 'swap':
      return `Think back: which spoon went with ${plan[fault.item]!.name}, and which with ${plan[fault.other]!.name}?`;
    default:
      return fault satisfies never;
  }
}

/** The causes of a list, as it names them. */
export const causeNames = (keys: readonly string[], causes: readonly Cause[], batch: PlannedBatch): string[] =>
  keys.flatMap((key) => {
    if (key === NO_FAULT) return ['nothing went wrong'];
    const cause = causes.find((one) => one.cause === key);
    return cause === undefined ? [] : [causeSays(cause, batch)];
  });

function temperatureSays(gain: number, { temperatureC, compensates }: PlannedBatch['pen']): string {
  if (compensates === false) return 'the pen corrects for temperature by itself after all, so it was corrected twice';
  const at = temperatureC ?? 25 + (gain - 1) / PER_DEGREE;
  const way = gain < 1 ? 'low' : 'high';
  return `the pen does not correct for temperature: at ${figure(at)} °C it reads ${figure(100 * Math.abs(gain - 1))} % ${way}`;
}

function itemSays(
  { name, unit, amount }: PlannedBatch['plan'][number],
  variant: Variant | null,
  { likely, low, high }: Cause['value'],
): string {
  const amounts = `about ${figure(likely * amount)} ${unit} for ${figure(amount)} ${unit}`;
  switch (variant) {
    case 'forgotten':
      return `${name} was forgotten`;
    case 'doubled':
      return `${name} went in twice (${amounts})`;
    case 'halved':
      return `only half of ${name} went in (${amounts})`;
    case 'wrong spoon':
      return `${name} was measured with another spoon (${amounts}, ${figure(likely)} times)`;
    case null:
      return `too ${likely > 1 ? 'much' : 'little'} ${name} (${amounts}; ${figure(low)} to ${figure(high)} times the plan)`;
    default:
      return variant satisfies never;
  }
}

/** The two gallons differ by a fifth: the usual slip, where the batch is a round number of one of them. */
function gallons(factor: number, litres: number): string {
  if (isRound(litres / US_GALLON) && Math.abs(factor - GALLONS) < 0.03)
    return ', as if an imperial gallon had been taken for a US gallon';
  if (isRound(litres / IMPERIAL_GALLON) && Math.abs(factor - 1 / GALLONS) < 0.03)
    return ', as if a US gallon had been taken for an imperial gallon';
  return '';
}

const GALLONS = IMPERIAL_GALLON / US_GALLON;
/** Whole quarters of a gallon. */
const isRound = (gallons: number): boolean => gallons > 0.2 && Math.abs(4 * gallons - Math.round(4 * gallons)) < 0.01;
const figure = (x: number): string => formatNumber(x, 3);
