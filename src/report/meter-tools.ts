import { atDoor } from '../door.js';
import type { PenCheck, SpoonWeight, StandardTrial } from '../meter/index.js';
import { spreadSourceSays, suspectSays } from './says/pen.js';
import { formatFixed, formatNumber } from '../units/index.js';
import { figure, percent } from './figures.js';
import { type Block, facts, list, paragraph, type Sheet, table } from './sheet.js';
import { volumeText } from './volume.js';

/** What `meter --calibrate` answers. */
export interface CalibrateResult extends SpoonWeight {
  name: string;
  count: number;
  before: number;
  after: number;
  litres: number;
  /** The file it was saved to, null where it was not. */
  saved: string | null;
}

/** What `meter --weigh` answers. */
export interface WeighedResult extends SpoonWeight {
  name: string;
  count: number;
  /** The last digit of the scale, g. */
  step: number;
  /** The file it was saved to, null where it was not. */
  saved: string | null;
}

/** What `meter --standard` answers. */
export type StandardResult = PenCheck & StandardTrial & { status: 'checked' };

/** The pen as a scale. */
export function calibrateSheet(result: CalibrateResult): Sheet {
  const spoon = `${result.spoon} of ${result.name}`;
  const blocks: Block[] = [
    facts(
      ['Trial', `${result.count} level ${spoon} in ${volumeText(result.litres)}`],
      ['Reading', `${figure(result.before)} before, ${figure(result.after)} mS/cm after, at 25 °C`],
    ),
    ...weightOf(result),
  ];
  return { title: `${result.name}: one level spoon`, blocks };
}

/** Spoons on a scale. */
export function weighedSheet(result: WeighedResult): Sheet {
  const together = `${figure(result.gramsTogether)} g, on a scale that shows ${formatNumber(result.step)} g`;
  const blocks: Block[] = [
    facts(['Weighed', `${result.count} level ${result.spoon} of ${result.name}`], ['Together', together]),
    ...weightOf(result),
  ];
  return { title: `${result.name}: one level spoon`, blocks };
}

/** What one spoon weighs, how dense the powder lies, what that hangs on, and whether it is kept. */
function weightOf(result: CalibrateResult | WeighedResult): Block[] {
  const spoon = `${result.spoon} of ${result.name}`;
  return [
    paragraph(
      `One level ${spoon} is ${figure(result.gramsEach)} g; nine of ten such trials have the truth within ${figure(result.low)} to ${figure(result.high)} g.`,
      'good',
    ),
    paragraph(
      `Level bulk density: ${figure(result.bulkDensity)} g/mL (${figure(result.bulkLow)} to ${figure(result.bulkHigh)}).`,
    ),
    table(
      ['What the uncertainty comes from', '>relative sd'],
      result.from.map(({ source, sd }) => [spreadSourceSays(source, result.count), percent(sd)]),
    ),
    paragraph(
      result.saved === null
        ? atDoor({
            typed: 'Not saved: --save writes the bulk density and how far it may be off onto the shelf.',
            page: 'Not yet on the shelf.',
          })
        : `Saved with how far it may be off, as bulk_density in ${result.saved}.`,
    ),
  ];
}

/** The pen against a standard. */
export function standardSheet(result: StandardResult): Sheet {
  const unit = result.scale === null ? 'mS/cm' : `ppm (${result.scale} scale)`;
  // a third digit of a factor near 1 would be half a per cent
  const factor = formatNumber(result.factor, 4);
  const way = result.off > 0 ? 'high' : 'low';
  const off = `${figure(100 * Math.abs(result.off))} % too ${way}`;
  const says = {
    fine: `Fine: within 2 % (${off}).`,
    calibrate: `Calibrate it: ${off}. Until then multiply readings by ${factor}${atDoor({ typed: ` (--pen-factor ${factor})`, page: '' })}.`,
    'clean or replace': `Clean it and try again; if it stays ${off}, replace it. A bottle of standard that has stood open, or on the sill, is the other suspect.`,
  }[result.verdict];
  const blocks: Block[] = [
    facts(
      ['Standard', `${figure(1000 * result.standard)} µS/cm at 25 °C`],
      ['Reads', `${figure(result.reads)} ${unit}`],
      ['Should read', `${figure(result.shouldRead)} ${unit}`],
      ['Factor', factor],
    ),
    paragraph(says, result.verdict === 'fine' ? 'good' : 'bad'),
  ];
  if (result.verdict === 'fine') return { title: TITLE, blocks };
  if (result.suspects.length > 0) blocks.push(list(result.suspects.map((suspect) => `But ${suspectSays(suspect)}.`)));
  blocks.push(correctedReadings(result));
  return { title: TITLE, blocks };
}

const TITLE = 'The pen in a standard';

/** What the pen shows, and what it should: to be read off at the sink until the pen is set right. */
function correctedReadings({ scale, factor }: StandardResult): Block {
  const shown = scale === null ? [0.1, 0.2, 0.5, 1, 1.5, 2] : [50, 100, 200, 500, 750, 1000];
  const unit = scale === null ? 'mS/cm' : `ppm, ${scale} scale`;
  return table(
    [`>it shows, ${unit}`, '>really'],
    shown.map((x) => [figure(x), scale === null ? figure(x * factor) : formatFixed(x * factor, 0)]),
  );
}
