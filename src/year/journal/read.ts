import { eachRecord } from '../../catalog/csv-records.js';
import { capped } from '../../catalog/limits.js';
import { type Checked, type Problem, problem, warning } from '../../problem.js';
import type { Entry } from './entry.js';
import { headOf, isWhole, type Layout, layoutOf } from './layout.js';
import { entryOf } from './read-entry.js';

/** The text of a journal, and its name for the Problems. */
export interface JournalText {
  name: string;
  text: string;
}

/** How much a journal holds. */
export interface JournalSize {
  entries: number;
  undone: number;
  /** The number of the last entry; 0 where there is none. */
  last: number;
}

/**
 * Goes through the entries of a journal in their order and keeps none of them. An entry that a later one undoes is told as not live: it
 * counts as if it had never been written; the undoing of an undoing brings it back.
 * @returns every line that cannot be read as a Problem with its number; half a line at the end is passed over with a warning
 */
export function foldJournal(
  { name, text }: JournalText,
  on: (entry: Entry, isLive: boolean) => void,
): Checked<JournalSize> {
  const problems: Problem[] = [];
  const size: JournalSize = { entries: 0, undone: 0, last: 0 };
  const first = headOf(text);
  if (first === null) return { ok: true, value: size, warnings: [] };
  const layout = layoutOf(first.head, name, first.line, problems);
  if (problems.length > 0) return capped(size, problems);
  const whole = withoutHalf(text, first.head, name, problems);
  const undone = undoneIn(whole, first.line, layout);
  eachEntry(whole, name, first.line, layout, problems, (entry) => {
    if (entry.entry <= size.last) problems.push(outOfOrder(name, entry, size.last));
    size.last = Math.max(size.last, entry.entry);
    size.entries += 1;
    const isLive = !undone.has(entry.entry);
    if (!isLive) size.undone += 1;
    on(entry, isLive);
  });
  return capped(size, problems);
}

function eachEntry(
  text: string,
  file: string,
  headLine: number,
  layout: Layout,
  problems: Problem[],
  on: (entry: Entry) => void,
): void {
  eachRecord(text, {
    delimiter: layout.delimiter,
    on: (cells, line) => {
      if (line <= headLine) return;
      const entry = entryOf(cells, layout, file, line, problems);
      if (entry !== null) on(entry);
    },
    onFault: (line, found) => problems.push(quotes(file, line, found)),
  });
}

/** The numbers of the entries that are undone. Few lines undo, so only those that hold the word are looked at. */
function undoneIn(text: string, headLine: number, layout: Layout): ReadonlySet<number> {
  const undoing: { entry: number; of: number }[] = [];
  eachRecord(text, {
    delimiter: layout.delimiter,
    having: 'undo',
    on: (cells, line) => {
      if (line <= headLine) return;
      const entry = entryOf(cells, layout, '', line, []);
      if (entry?.kind === 'undo') undoing.push({ entry: entry.entry, of: entry.of! });
    },
    onFault: () => {},
  });
  const undone = new Set<number>();
  // from the last to the first: whether an undoing holds is settled by those after it
  for (const { entry, of } of undoing.reverse()) if (!undone.has(entry)) undone.add(of);
  return undone;
}

function withoutHalf(text: string, head: string, file: string, problems: Problem[]): string {
  if (text.endsWith('\n')) return text;
  const from = text.lastIndexOf('\n') + 1;
  const half = text.slice(from);
  if (half.trim() === '' || from === 0 || isWhole(half, head)) return text;
  problems.push(
    warning(
      'half-line',
      { file },
      `half a line at the end: ${shown(half)}`,
      'whole lines',
      'Nothing to do: it was never acknowledged, and the next entry takes its place.',
    ),
  );
  return text.slice(0, from);
}

const outOfOrder = (file: string, { entry, line }: Entry, last: number): Problem =>
  problem(
    'entry-order',
    { file, line, field: 'entry' },
    `entry ${entry} below entry ${last}`,
    'numbers that grow from line to line, each once',
    'Put the lines back in the order of their numbers; what is wrong is undone by a new entry.',
  );

const quotes = (file: string, line: number, found: string): Problem =>
  problem(
    'csv-quote',
    { file, line },
    `a quote that does not close in this line: ${shown(found)}`,
    'quotes around whole cells, in pairs',
    'Close the quote; write a quote inside a quoted cell twice ("").',
  );

const shown = (text: string): string => `"${text.trim().slice(0, 60)}"`;
