import { phSays } from '../says/solution.js';
import type { MixingSheet, SheetStep } from '../../sheet/sheet-types.js';
import { stepByPenSays } from '../says/by-pen.js';
import { ecNumber, litresText, markText, number, range } from './readings.js';

/** One thing to do, with a box to tick. */
export interface LineOnPage {
  /** As `meter` counts: 1 the water, 2 the first product, …; null for water filled up on the way, after which nothing is read. */
  step: number | null;
  /** The amount in the grower's own tool: the words to read at arm's length. */
  amount: string;
  what: string;
  /** Other measures of the same; empty where there is none. */
  others: string;
  /** What to do with it, and why it goes by measure where others go by the pen. */
  how: string;
  effect: string;
  /** What the pen shows after it; null where nothing is to be read. */
  reading: { pen: string; range: string; ec: string; ecRange: string } | null;
}

/** Water, products, the mark, the pH: in the order in which hands work. */
export function linesOf(sheet: MixingSheet): LineOnPage[] {
  const { steps, litres, end, pen } = sheet;
  const at = (reading: SheetStep['reading']): LineOnPage['reading'] => ({
    pen: number(reading.mSPerCm, pen),
    range: range(reading, pen),
    ec: ecNumber(reading.mSPerCm),
    ecRange: `${ecNumber(reading.low)} to ${ecNumber(reading.high)}`,
  });
  const lines: LineOnPage[] = [
    {
      ...BLANK,
      step: 1,
      amount: markText(sheet.firstLitres, litres),
      what: `${poured(sheet, sheet.firstLitres)}, lukewarm (20 to 30 °C)`,
      reading: at(sheet.water.reading),
    },
  ];
  let full = sheet.firstLitres;
  steps.forEach((step, i) => {
    if (step.litres > full) lines.push({ ...BLANK, ...toTheMark(sheet, litres - full), reading: null });
    full = Math.max(full, step.litres);
    lines.push({
      step: i + 2,
      amount: step.measures[0].words,
      what: step.name,
      others: othersOf(step, sheet.status === 'kept'),
      how:
        step.byPen?.by === 'pen'
          ? stepByPenSays(step.byPen, step.millilitres === null ? 'powder' : 'liquid')
          : HOW[step.millilitres === null && step.bottle === null ? 'g' : 'mL'],
      effect: step.byPen?.by === 'measure' ? stepByPenSays(step.byPen) : '',
      reading: at(step.reading),
    });
  });
  let last = steps.length + 2;
  if (full < litres) {
    lines.push({ ...BLANK, ...toTheMark(sheet, litres - full), step: last, reading: at(end.reading) });
    last += 1;
  }
  lines.push({
    ...BLANK,
    step: last,
    amount: 'pH last',
    what: `${phSays(end.ph)}; an estimate`,
    how: 'Correct it only now, drop by drop, if your plants ask for it.',
  });
  return lines;
}

const HOW = { g: 'Stir until it is wholly clear.', mL: 'Pour in and stir.' };

const BLANK: LineOnPage = { step: null, amount: '', what: '', others: '', how: '', effect: '', reading: null };

const toTheMark = (sheet: MixingSheet, more: number): Pick<LineOnPage, 'amount' | 'what' | 'how'> => ({
  amount: `to ${markText(sheet.litres, sheet.litres)}`,
  what: `${poured(sheet, more)}, up to the mark`,
  how: 'Stir.',
});

/** `Rain water`; of several waters how much of each: `Rain water 1.8 L and tap water 1.2 L`. */
function poured({ water }: MixingSheet, litres: number): string {
  const told = water.parts.filter(({ share }) => share >= 0.005);
  if (told.length === 1) return told[0]!.name;
  return told.map(({ name, share }) => `${name} ${litresText(share * litres)}`).join(' and ');
}

/**
 * `or 0.35 mL, or 14 drops`: what else of the kit measures it, in that tool's own steps. A measure that would break a limit is not offered.
 * Where limits are missed anyway, one that is as good as the same is.
 */
function othersOf({ measures, borrowed }: SheetStep, kept: boolean): string {
  const [chosen, ...rest] = measures;
  if (borrowed) return chosen.tool === 'scale' ? 'on a borrowed scale: see the top' : 'in a syringe: see the top';
  const near = (amount: number): boolean => Math.abs(amount / chosen.amount - 1) <= SAME;
  return rest
    .filter((m) => (kept ? m.keeps : near(m.amount)))
    .map((m) => `or ${m.words}`)
    .join(', ');
}

/** What level spoons repeat to at best (from memory). */
const SAME = 0.05;
