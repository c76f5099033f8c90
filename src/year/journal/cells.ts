import { cellText, formatNumber, safeCell } from '../../units/index.js';
import type { JournalItem, StepRead } from './entry.js';

/**
 * A text as it stands in a cell of the journal, and back. An entry is one line, so what would break it, or is no text that a file can
 * hold, is spelled with a backslash; then what a spreadsheet would run as a formula is led by an apostrophe.
 */
export const textCell = (text: string): string =>
  safeCell(text.replace(UNPRINTABLE, (mark) => SHORT.get(mark) ?? `\\u{${mark.codePointAt(0)!.toString(16)}}`));

/** The text that `textCell` was given; a backslash that spells nothing stays as it is. */
export const textOfCell = (cell: string): string =>
  cellText(cell).replace(/\\(?:([\\nrt])|u\{([0-9a-f]{1,6})\})/g, (whole, short?: string, code?: string) => {
    if (short !== undefined) return LONG.get(short)!;
    const point = Number.parseInt(code!, 16);
    return point <= 0x10ffff ? String.fromCodePoint(point) : whole;
  });

/** Controls, marks that nobody sees, half characters, and the backslash itself. */
const UNPRINTABLE = /\\|\p{Cc}|\p{Cf}|\p{Zl}|\p{Zp}|\p{Cs}/gu;
const SHORT = new Map([
  ['\\', '\\\\'],
  ['\n', '\\n'],
  ['\r', '\\r'],
  ['\t', '\\t'],
]);
const LONG = new Map([
  ['\\', '\\'],
  ['n', '\n'],
  ['r', '\r'],
  ['t', '\t'],
]);

/** A figure in as many digits as bring it back, never with an exponent; a comma before decimals where the file is read so. */
export function numberCell(value: number | null, decimalComma: boolean): string {
  if (value === null) return '';
  const text = formatNumber(value, 9);
  return decimalComma ? text.replace('.', ',') : text;
}

/** The figure in a cell; null where it is empty, undefined where it is none. */
export function numberOfCell(cell: string, decimalComma: boolean): number | null | undefined {
  const text = cell.trim();
  if (text === '') return null;
  const value = Number(decimalComma ? text.replace(',', '.') : text);
  return Number.isFinite(value) ? value : undefined;
}

/** `1.2 g sample-base (spoon); 3 mL kelp`: what parts names and parts is spelled in them. */
export const itemsCell = (items: readonly JournalItem[]): string =>
  items
    .map(({ amount, unit, id, tool }) => {
      const name = textCell(id).replace(/[%;()]/g, (mark) => `%${mark.charCodeAt(0).toString(16)}`);
      return `${formatNumber(amount, 9)} ${unit} ${name}${tool === null ? '' : ` (${tool})`}`;
    })
    .join('; ');

/** The items of a cell; undefined where one of them is none. */
export function itemsOfCell(cell: string): JournalItem[] | undefined {
  const items: JournalItem[] = [];
  for (const piece of cell.split(';')) {
    const text = piece.trim();
    if (text === '') continue;
    const [amount, unit, rest] = parted(text);
    if (!(amount >= 0 && amount < Infinity) || (unit !== 'g' && unit !== 'mL') || rest === '') return undefined;
    const open = rest.endsWith(')') ? rest.lastIndexOf(' (') : -1;
    const name = open < 0 ? rest : rest.slice(0, open);
    const plain = name.includes('%')
      ? name.replace(/%([0-9a-f]{2})/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
      : name;
    items.push({
      id: /['\\]/.test(plain) ? textOfCell(plain) : plain,
      amount,
      unit,
      tool: open < 0 ? null : rest.slice(open + 2, -1),
    });
  }
  return items;
}

/** `1.2 g name of it` as its three parts. */
function parted(text: string): [amount: number, unit: string, rest: string] {
  const first = text.indexOf(' ');
  const second = text.indexOf(' ', first + 1);
  if (first < 0 || second < 0) return [Number.NaN, '', ''];
  return [Number(text.slice(0, first)), text.slice(first + 1, second), text.slice(second + 1)];
}

/** `1: 0.02; 3: 0.41`. */
export const stepsCell = (steps: readonly StepRead[]): string =>
  steps.map(({ step, mSPerCm }) => `${step}: ${formatNumber(mSPerCm, 6)}`).join('; ');

/** The readings of a cell; undefined where one of them is none. */
export function stepsOfCell(cell: string): StepRead[] | undefined {
  if (cell === '') return [];
  const read = cell.split(';').map((piece) => /^\s*(\d{1,3})\s*:\s*(\d+(?:\.\d+)?)\s*$/.exec(piece));
  if (read.some((match) => match === null)) return undefined;
  return read.map((match) => ({ step: Number(match![1]), mSPerCm: Number(match![2]) }));
}

/** `0.7 rain; 0.3 tap`. */
export const watersCell = (waters: readonly { id: string; share: number }[]): string =>
  waters
    .map(
      ({ id, share }) =>
        `${formatNumber(share, 4)} ${textCell(id).replace(/[%;]/g, (m) => `%${m.charCodeAt(0).toString(16)}`)}`,
    )
    .join('; ');

/** The waters of a cell; undefined where one of them is none. */
export function watersOfCell(cell: string): { id: string; share: number }[] | undefined {
  if (cell === '') return [];
  const read = cell.split(';').map((piece) => /^\s*(\d+(?:\.\d+)?)\s+(.+?)\s*$/.exec(piece));
  if (read.some((match) => match === null)) return undefined;
  return read.map((match) => ({
    share: Number(match![1]),
    id: textOfCell(
      match![2]!.replace(/%([0-9a-f]{2})/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16))),
    ),
  }));
}
