import { type Problem, problem } from '../../problem.js';
import { itemsOfCell, numberOfCell, stepsOfCell, textOfCell, watersOfCell } from './cells.js';
import { type Entry, type Kind, KINDS } from './entry.js';
import type { ColumnName, Layout } from './layout.js';

const NUMBER = /^[1-9]\d{0,8}$/;
const DAY = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/;
const KIND_NAMES: ReadonlySet<string> = new Set(KINDS);

/** The entry that a line of cells is; null where it is none, and `problems` then say everything that is wrong with it. */
export function entryOf(
  cells: readonly string[],
  layout: Layout,
  file: string,
  line: number,
  problems: Problem[],
): Entry | null {
  const { columns, places, delimiter } = layout;
  const decimalComma = delimiter === ';';
  const already = problems.length;
  if (cells.every((cell) => cell.trim() === '')) return null;
  if (cells.length !== columns.length && cells.slice(columns.length).some((cell) => cell.trim() !== ''))
    problems.push(ragged(file, line, cells.length, columns.length));
  const cell = (name: ColumnName): string => {
    const place = places.get(name);
    return place === undefined ? '' : (cells[place] ?? '');
  };
  const plain = (name: ColumnName): string => cell(name).trim();
  const refused = (name: ColumnName, expected: string, fix: string): null => {
    problems.push(problem(`entry-${name}`, { file, line, field: name }, `"${cell(name).slice(0, 60)}"`, expected, fix));
    return null;
  };
  const text = (name: ColumnName): string => {
    const own = cell(name);
    return own === '' ? '' : textOfCell(own);
  };
  const number = (name: ColumnName): number | null => {
    const own = cell(name);
    if (own === '') return null;
    const value = numberOfCell(own, decimalComma);
    return value === undefined
      ? refused(name, 'a number, or nothing', 'Write it with a point before decimals: 0.46.')
      : value;
  };
  const list = <T>(name: ColumnName, read: (own: string) => T[] | undefined, expected: string): T[] => {
    const own = plain(name);
    if (own === '') return [];
    return read(own) ?? refused(name, expected, 'Undo the entry and add it anew.') ?? [];
  };
  const [entry, date, kind] = [plain('entry'), plain('date'), plain('kind')];
  if (!NUMBER.test(entry)) refused('entry', 'the number of the entry, 1 or more', 'Number it one more than the last.');
  if (!DAY.test(date))
    refused('date', 'a day as YEAR-MONTH-DAY', 'Write for example 2026-11-28; spreadsheets like to change it.');
  if (!KIND_NAMES.has(kind)) refused('kind', `one of ${KINDS.join(', ')}`, 'Write one of them.');
  const end = plain('end');
  if (end !== '' && end !== entry) refused('end', `${entry}, the number of the entry once more`, `Write ${entry}.`);
  const of = number('of');
  if (kind === 'undo' && !(of !== null && Number.isInteger(of) && of >= 1 && of < Number(entry)))
    refused('of', 'the number of an earlier entry', 'Name the entry that is undone.');
  const found: Entry = {
    entry: Number(entry),
    line,
    date,
    kind: kind as Kind,
    feed: text('feed'),
    litres: number('litres'),
    items: list('items', itemsOfCell, 'amounts with products: 1.2 g sample-base; 3 mL kelp'),
    reading: number('reading'),
    expected: number('expected'),
    low: number('low'),
    high: number('high'),
    steps: list('steps', stepsOfCell, 'readings by step: 2: 0.21; 3: 0.4'),
    penFactor: number('pen_factor'),
    temperature: number('temperature'),
    pH: number('pH'),
    cost: number('cost'),
    currency: text('currency'),
    pot: text('pot'),
    medium: text('medium'),
    of,
    waters: list('waters', watersOfCell, 'shares of waters: 0.7 rain; 0.3 tap'),
    strength: number('strength'),
    sheet: text('sheet'),
    note: text('note'),
  };
  return problems.length > already ? null : found;
}

const ragged = (file: string, line: number, found: number, expected: number): Problem =>
  problem(
    'csv-ragged',
    { file, line },
    `${found} cells`,
    `${expected} cells, as in the header`,
    'Put quotes around a cell that holds the separator.',
  );
