import { type MilliSiemensPerCm, milliSiemensPerCm } from '../quantity.js';
import { unitNamed } from '../table.js';
import { readFigure, type Writing } from './number.js';
import { type Read, unread } from './read.js';

/** A conductivity as a pen, a bottle or a report of an analysis states it. */
export interface Conductivity {
  number: number;
  /** The number as written, with a point before decimals. */
  written: string;
  /** Full name of the unit (`mS/cm`, `µS/cm`, …; dS/m is mS/cm), `ppm` of some pen's scale, or null for a bare number. */
  unit: string | null;
}

/** Reads `0,8 dS/m`, `800 µS/cm`, `0.8 mS`, `230 ppm` or a bare number, which may be anything. */
export function readConductivity(text: string, writing: Writing = {}): Read<Conductivity> {
  const figure = readFigure(text, writing);
  if (!figure.ok) return figure;
  const { value: number, written, words } = figure.value;
  const read = (unit: string | null): Read<Conductivity> => ({
    ok: true,
    value: { number, written, unit },
    comma: figure.comma,
  });
  if (words === '') return read(null);
  if (/^ppm$/i.test(words)) return read('ppm');
  const unit = unitNamed(words);
  if (unit?.dimension === 'conductivity') return read(unit.name);
  return unread('other', `"${text.trim()}"`, 'a conductivity', 'Write for example 0.8 mS/cm or 800 µS/cm.');
}

/** In mS/cm, as which a bare number counts. Only with the pen's scale (ppm per mS/cm) can a number in ppm be told: RangeError without. */
export function inMilliSiemens(
  { number, unit }: Pick<Conductivity, 'number' | 'unit'>,
  scale: number | null = null,
): MilliSiemensPerCm {
  if (unit === 'ppm' && scale === null) throw new RangeError('ppm of a pen whose scale is not known');
  if (unit === 'ppm') return milliSiemensPerCm(number / scale!);
  const { times, over } = unitNamed(unit ?? 'mS/cm')!;
  return milliSiemensPerCm((number * times) / over);
}
