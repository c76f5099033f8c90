import type { Kit, Pen } from '../catalog/bench-types.js';
import { type Checked, problem, type Where } from '../problem.js';
import { PAPERS, type Paper } from '../report/sheet-page/index.js';
import { parseAmount } from '../units/index.js';

const refuse = <T>(code: string, where: Where, found: string, expected: string, fix: string): Checked<T> => ({
  ok: false,
  problems: [problem(code, where, found, expected, fix)],
});

/** A can of the kit by its name, or a volume from 100 mL to 1000 L, in litres. */
export function parseCan(text: string, kit: Pick<Kit, 'cans'> | undefined, where: Where): Checked<number> {
  const named = kit?.cans?.find((can) => can.label.trim().toLowerCase() === text.trim().toLowerCase());
  if (named) return { ok: true, value: named.millilitres / 1000, warnings: [] };
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (amount.kind === 'volume' && amount.millilitres >= 100 && amount.millilitres <= 1e6)
    return { ok: true, value: amount.millilitres / 1000, warnings: read.warnings };
  return refuse('can', where, `"${text}"`, 'a volume from 100 mL to 1000 L', 'Write for example "4 L" or "1 US gal".');
}

/** `0.02` or `0.02 mS/cm`, `20 µS/cm`, or `10 ppm` on the scale of the bench's pen; in mS/cm. */
export function parseWaterReading(text: string, pen: Pen | undefined, where: Where): Checked<number> {
  const expected = 'a reading from 0 to 3 mS/cm';
  const match = /^\s*(\d+(?:[.,]\d+)?|[.,]\d+)\s*(mS\/cm|mS|[µμu]S\/cm|[µμu]S|ppm)?\s*$/i.exec(text);
  if (!match) return refuse('water-reading', where, `"${text}"`, expected, 'Write for example 0.02 or "20 µS/cm".');
  const number = Number(match[1]!.replace(',', '.'));
  const unit = (match[2] ?? 'mS').toLowerCase();
  if (unit === 'ppm' && pen?.reads !== 'ppm')
    return refuse(
      'water-reading',
      where,
      `"${text}"`,
      'a pen with a ppm scale',
      'Say which scale under pen: in bench.yaml.',
    );
  const scale = unit === 'ppm' && pen?.reads === 'ppm' ? pen.scale : unit.startsWith('m') ? 1 : 1000;
  const value = number / scale;
  if (value <= 3) return { ok: true, value, warnings: [] };
  const fix = number > 3 && scale === 1 ? `Did you mean "${match[1]} µS/cm"?` : 'No plant is watered with that.';
  return refuse('water-reading', where, `"${text}"`, expected, fix);
}

/** A day as `2026-11-25`. */
export function parseDate(text: string, where: Where): Checked<string> {
  const match = /^\s*(\d{4})-(\d{2})-(\d{2})\s*$/.exec(text);
  const [year, month, day] = match ? match.slice(1).map(Number) : [0, 0, 0];
  const most = [31, leap(year!) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month! - 1] ?? 0;
  if (match && day! >= 1 && day! <= most) return { ok: true, value: text.trim(), warnings: [] };
  return refuse('date', where, `"${text}"`, 'a day as YEAR-MONTH-DAY', 'Write for example 2026-11-25.');
}

const leap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

export function parsePaper(text: string, where: Where): Checked<Paper> {
  const word = text.trim().toLowerCase();
  const paper = PAPERS.find((name) => name === word);
  if (paper) return { ok: true, value: paper, warnings: [] };
  return refuse('paper', where, `"${text}"`, PAPERS.join(', '), 'Write for example --paper a6.');
}

/** `90 %` or `0.9`: the share of batches that shall keep every band, from one half to 99.9 %. */
export function parseSure(text: string, where: Where): Checked<number> {
  const match = /^\s*(\d+(?:\.\d+)?|\.\d+)\s*(%?)\s*$/.exec(text);
  // 99.9/100 is a little more than 0.999
  const share = match ? Number((Number(match[1]) / (match[2] === '%' ? 100 : 1)).toPrecision(12)) : Number.NaN;
  if (share >= 0.5 && share <= 0.999) return { ok: true, value: share, warnings: [] };
  const fix = share > 1 && share <= 100 ? `Write "${match![1]} %" if you mean percent.` : 'Write for example 90%.';
  return refuse('sure', where, `"${text}"`, 'a share from 50 % to 99.9 %', fix);
}
