import { safeCell } from '../units/cell.js';

/** A text as a cell that a spreadsheet and our reader take alike: on one line, in quotes where it holds a separator. */
export function cellOf(text: string, delimiter = ','): string {
  const safe = safeCell(text.replace(/\s+/g, ' ').trim());
  return safe.includes(delimiter) || /[",;#\t]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
