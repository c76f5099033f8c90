import { atDoor } from '../../door.js';
import { readPenWords } from '../../catalog/bench-kit.js';
import type { Pen } from '../../catalog/bench-types.js';
import type { Moment, Shown } from '../../meter/index.js';
import type { Checked, Where } from '../../problem.js';
import {
  type MilliSiemensPerCm,
  inMilliSiemens,
  isWithin,
  rangeText,
  readConductivity,
  readPlainNumber,
} from '../../units/index.js';
import { refused, refusedText, taken } from './refused.js';

/** What a pen showed: mS/cm as read, and as written. */
export interface PenValue {
  mSPerCm: MilliSiemensPerCm;
  shown: Shown;
  /** The unit as written, null for a bare number. */
  unit: string | null;
  /** True where it was read in ppm of the pen's scale. */
  ppm: boolean;
}

/** ppm per mS/cm, or null for a pen that shows EC. */
export type Scale = number | null;

/** Pens that show ppm show whole numbers; below this a bare number is mS/cm. */
const LEAST_PPM = 5;

/**
 * `0.46`, `460 µS`, `0.46 mS/cm`, `230 ppm`; a bare number of 5 or more on a ppm pen is ppm, any other bare number in `bare` (mS/cm where
 * nothing is said).
 */
export function parsePenValue(text: string, scale: Scale, where: Where, bare?: string): Checked<PenValue> {
  const expected = `a reading ${rangeText('penReading')}`;
  const read = readConductivity(text);
  if (!read.ok)
    return refusedText(
      text.trim(),
      read,
      'pen-reading',
      where,
      expected,
      'Write for example 0.46, "460 µS" or "230 ppm".',
    );
  const { number, written, unit } = read.value;
  const asked = unit ?? bare ?? (scale !== null && number >= LEAST_PPM ? 'ppm' : 'mS/cm');
  const ppm = asked === 'ppm';
  if (ppm && scale === null) {
    return refused(
      'ppm-without-scale',
      where,
      `"${text.trim()}"`,
      'the scale of the pen beside a reading in ppm',
      atDoor({
        typed: 'Add --scale 500 (or 640, 700), or give the reading in mS/cm.',
        page: 'Choose the scale of your pen in Plants, or give the reading in mS/cm.',
      }),
    );
  }
  const mSPerCm = inMilliSiemens({ number, unit: asked }, scale);
  const shown = { figure: written, unit: asked, scale: ppm ? scale : null };
  if (isWithin('penReading', mSPerCm)) return taken({ mSPerCm, shown, unit, ppm }, read, where);
  const fix =
    unit === null
      ? atDoor({
          typed: `Did you mean "${written} µS", or ppm with --scale?`,
          page: `Did you mean "${written} µS", or ppm? Choose the scale of your pen in Plants.`,
        })
      : 'Check the number and its unit.';
  return refused('pen-reading', where, `"${text.trim()}"`, expected, fix);
}

/** A reading with its step, as on the sheet: 1 is the water, 2 the first item, … `end` the full can. */
export interface StepReading extends PenValue {
  step: number | 'end';
}

/** `0.46` (at the end), `2: 0.21`, `step 2 = 230 ppm`, `end: 0.46`. */
export function parseStepReading(text: string, scale: Scale, where: Where): Checked<StepReading> {
  const match = /^\s*(?:step\s+)?(end|-?\d+)\s*[:=]\s*(.+)$/i.exec(text);
  const read = parsePenValue(match ? match[2]! : text, scale, where);
  if (!read.ok) return read;
  const word = match?.[1]?.toLowerCase() ?? 'end';
  return { ...read, value: { ...read.value, step: word === 'end' ? 'end' : Number(word) } };
}

/** The moment of a step of the sheet, for a batch of so many items; the last step tops up. */
export function momentOf(step: number | 'end', items: readonly string[], where: Where): Checked<Moment> {
  if (step === 'end' || step === items.length + 2) return { ok: true, value: 'end', warnings: [] };
  if (Number.isInteger(step) && step >= 1 && step <= items.length + 1)
    return { ok: true, value: step - 1, warnings: [] };
  const steps = ['1 water', ...items.map((id, i) => `${i + 2} ${id}`), 'end the full can'];
  return refused('unknown-step', where, `step ${step}`, 'a step of the sheet', `The steps are ${steps.join(', ')}.`);
}

/** `500`, `640`, `700`, `EC`: what the pen shows, read as bench.yaml reads it. */
export function parseScale(text: string, where: Where): Checked<Scale> {
  const read = readPenWords(text, where);
  return read.ok ? { ...read, value: scaleOf(read.value) } : read;
}

/** The scale of a pen; EC where nothing is said. */
export const scaleOf = (pen: Pen | undefined): Scale => (pen?.reads === 'ppm' ? pen.scale : null);

/** `yes` or `no`. */
export function parseYesNo(text: string, where: Where): Checked<boolean> {
  if (/^\s*(y|yes|true)\s*$/i.test(text)) return { ok: true, value: true, warnings: [] };
  if (/^\s*(n|no|false)\s*$/i.test(text)) return { ok: true, value: false, warnings: [] };
  return refused('yes-or-no', where, `"${text}"`, 'yes or no', 'Look for "ATC" on the pen: with it, yes.');
}

/** A pen's correction from 0.5 to 2, as `meter --standard` tells it. */
export function parseFactor(text: string, where: Where): Checked<number> {
  const read = readPlainNumber(text);
  if (read.ok && read.value >= 0.5 && read.value <= 2) return taken(read.value, read, where);
  const fix = atDoor({
    typed: 'Check the pen with --standard first: it tells the factor.',
    page: 'Check the pen in its standard first (Plants): that tells the factor.',
  });
  return refusedText(text, read, 'pen-factor', where, 'a factor from 0.5 to 2', fix);
}

/** What the pen shows in the water alone: `0.02` or `0.02 mS/cm`, `20 µS/cm`, or `10 ppm` on the scale of the bench's pen; in mS/cm. */
export function parseWaterReading(text: string, scale: Scale, where: Where): Checked<MilliSiemensPerCm> {
  const expected = 'a reading from 0 to 3 mS/cm';
  const read = readConductivity(text);
  if (!read.ok)
    return refusedText(text, read, 'water-reading', where, expected, 'Write for example 0.02 or "20 µS/cm".');
  const { number, written, unit: said } = read.value;
  // as for a can: pens that show ppm show whole numbers
  const unit = said ?? (scale !== null && number >= LEAST_PPM ? 'ppm' : null);
  if (unit === 'ppm' && scale === null)
    return refused(
      'water-reading',
      where,
      `"${text}"`,
      'a pen with a ppm scale',
      'Say which scale under pen: in bench.yaml.',
    );
  const value = inMilliSiemens({ number, unit }, scale);
  if (value <= 3) return taken(value, read, where);
  const fix = value === number ? `Did you mean "${written} µS/cm"?` : 'No plant is watered with that.';
  return refused('water-reading', where, `"${text}"`, expected, fix);
}
