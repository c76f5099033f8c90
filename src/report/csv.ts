import { standing } from './band.js';
import { formatNumber, safeCell } from '../units/index.js';
import { A_SHEET, type Block, type Sheet } from './sheet.js';
import { withoutMarks } from './wrap.js';
import { refuseUnlike } from '../wrong-type.js';

/** Every table and band of the whole sheet as CSV, each under a line naming it; tables are set apart by an empty line. */
export function renderCsv(sheet: Sheet): string {
  refuseUnlike({ sheet }, { sheet: A_SHEET });
  const parts: string[][][] = [];
  let name = sheet.title;
  for (const block of sheet.blocks) {
    if (block.kind === 'heading') name = `${sheet.title} / ${block.text}`;
    const rows = blockRows(block);
    if (rows.length > 0) parts.push([[`# ${name}`], ...rows]);
  }
  return parts.map((rows) => rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('')).join('\r\n');
}

function blockRows(block: Block): string[][] {
  if (block.kind === 'table') {
    return [block.columns.map((column) => column.head), ...block.rows, ...(block.total ? [block.total] : [])];
  }
  if (block.kind === 'bars') {
    // full figures for reckoning on, but never an exponent, which a spreadsheet may read as text
    const number = (value: number | null): string => (value === null ? '' : formatNumber(value, 12));
    return [
      [block.unit, 'value', 'low', 'high', 'min', 'aim', 'max', 'standing'],
      ...block.bars.map((bar) => [
        bar.name,
        ...[bar.value, bar.low, bar.high, bar.min, bar.aim, bar.max].map(number),
        standing(bar),
      ]),
    ];
  }
  if (block.kind === 'chart') {
    const heads = block.series.map(({ name, unit }) => (unit === '' ? name : `${name}, ${unit}`));
    return [
      [block.along, ...heads],
      ...block.labels.map((label, i) => [label, ...block.series.map(({ values }) => formatNumber(values[i]!, 12))]),
    ];
  }
  if (block.kind === 'facts') return block.facts.map((fact) => [fact.name, fact.value]);
  return [];
}

/** Quotes where needed; a text that a spreadsheet would run as a formula is led by an apostrophe. */
function cell(text: string): string {
  const safe = safeCell(withoutMarks(text));
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
