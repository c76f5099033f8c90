import { atDoor } from '../../door.js';
import { type Problem, problem, Refusal } from '../../problem.js';
import { itemsCell, numberCell, stepsCell, textCell, watersCell } from './cells.js';
import type { Draft } from './entry.js';
import { cellsOf, type ColumnName, HEAD, headOf, isWhole, type Layout, layoutOf } from './layout.js';

/** What stands in a file that an entry is added to: its first line, empty where it has none, and whole lines from its end. */
export interface Standing {
  head: string;
  tail: readonly string[];
}

/**
 * The line of a new entry, numbered one more than the last of the file and laid out as the file is.
 * @throws Refusal where the file is no journal, or its last line is no entry
 */
export function lineOf(draft: Draft, { head, tail }: Standing, file: string): { entry: number; line: string } {
  const problems: Problem[] = [];
  const layout = layoutOf(head === '' ? HEAD : head, file, 1, problems);
  if (problems.length > 0) throw new Refusal(problems);
  const entry = head === '' ? 1 : 1 + lastNumber(tail, layout, file);
  return { entry, line: laidOut(draft, entry, layout) };
}

/** A journal's text with an entry more; half a line at its end goes. @throws Refusal as for `lineOf` */
export function withEntry(text: string, draft: Draft, file: string): { entry: number; text: string } {
  const head = headOf(text)?.head ?? '';
  const lines = text.split('\n');
  const last = lines.pop()!;
  const kept = last.trim() === '' || !isWhole(last, head) ? lines : [...lines, last];
  const { entry, line } = lineOf(draft, { head, tail: kept.slice(-TAIL) }, file);
  const all = [...(head === '' ? [HEAD] : kept), line];
  return { entry, text: all.map((one) => `${one}\n`).join('') };
}

const TAIL = 100;

/** The greatest number among the last lines. */
function lastNumber(tail: readonly string[], { delimiter, places }: Layout, file: string): number {
  let sawOther = false;
  for (const line of [...tail].reverse()) {
    if (line.trim() === '' || line.startsWith('#')) continue;
    const cell = cellsOf(line.replace(/\r$/, ''), delimiter)[places.get('entry')!]?.trim() ?? '';
    if (/^[1-9]\d{0,8}$/.test(cell)) return Number(cell);
    // the line that names the columns: nothing was entered yet
    if (cell.toLowerCase() === 'entry') return 0;
    sawOther = true;
  }
  if (!sawOther) return 0;
  throw new Refusal([
    problem(
      'entry-entry',
      { file, field: 'entry' },
      'last lines without the number of an entry',
      'a journal whose lines can be read',
      atDoor({
        typed: 'Look at its last lines with `velamen journal show`, and mend them.',
        page: 'Look at its last lines, and mend them.',
      }),
    ),
  ]);
}

function laidOut(draft: Draft, entry: number, { columns, delimiter }: Layout): string {
  const decimalComma = delimiter === ';';
  const figure = (value: number | null): string => numberCell(value, decimalComma);
  const cells: Record<ColumnName, string> = {
    entry: String(entry),
    date: draft.date,
    kind: draft.kind,
    feed: textCell(draft.feed),
    litres: figure(draft.litres),
    items: itemsCell(draft.items),
    reading: figure(draft.reading),
    expected: figure(draft.expected),
    low: figure(draft.low),
    high: figure(draft.high),
    steps: stepsCell(draft.steps),
    pen_factor: figure(draft.penFactor),
    temperature: figure(draft.temperature),
    pH: figure(draft.pH),
    cost: figure(draft.cost),
    currency: textCell(draft.currency),
    pot: textCell(draft.pot),
    medium: textCell(draft.medium),
    of: draft.of === null ? '' : String(draft.of),
    waters: watersCell(draft.waters),
    strength: figure(draft.strength),
    sheet: textCell(draft.sheet),
    note: textCell(draft.note),
    end: String(entry),
  };
  return columns.map((name) => (name === null ? '' : quoted(cells[name], delimiter))).join(delimiter);
}

/** A cell in quotes where it needs them: blanks at its ends are part of it. */
const quoted = (cell: string, delimiter: string): string =>
  cell.includes(delimiter) || /^\s|\s$|["#]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
