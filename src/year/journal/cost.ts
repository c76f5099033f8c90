import type { Checked } from '../../problem.js';
import type { Entry } from './entry.js';
import { foldJournal, type JournalText } from './read.js';
import type { CostLine, JournalCost } from './results.js';

interface Purse {
  lines: Map<string, CostLine>;
  paid: number;
}

/** What each feed cost month by month, as its batches were reckoned when they were mixed; an undone one costs nothing. */
export function journalCost(journal: JournalText, feed: (name: string) => boolean): Checked<JournalCost> {
  const purses = new Map<string, Purse>();
  const read = foldJournal(journal, (entry, isLive) => {
    if (!isLive || (entry.kind !== 'batch' && entry.kind !== 'bought')) return;
    if (entry.kind === 'batch' && !feed(entry.feed)) return;
    const purse = purses.get(entry.currency) ?? { lines: new Map<string, CostLine>(), paid: 0 };
    purses.set(entry.currency, purse);
    if (entry.kind === 'bought') purse.paid += entry.cost ?? 0;
    else spent(entry, purse.lines);
  });
  if (!read.ok) return read;
  const currencies = [...purses].map(([currency, { lines, paid }]) => {
    const all = [...lines.values()].sort((a, b) => order(a.month, b.month) || order(a.feed, b.feed));
    return { currency, lines: all, total: totalOf(all), paid };
  });
  return { ...read, value: { status: 'summed', file: journal.name, currencies } };
}

function spent({ date, feed, litres, cost }: Entry, lines: Map<string, CostLine>): void {
  const month = date.slice(0, 7);
  const key = `${month} ${feed}`;
  const line = lines.get(key) ?? { month, feed, batches: 0, litres: 0, cost: 0, unknown: 0 };
  lines.set(key, line);
  line.batches += 1;
  line.litres += litres ?? 0;
  if (cost === null) line.unknown += 1;
  else line.cost += cost;
}

function totalOf(lines: readonly CostLine[]): CostLine {
  const sum = (of: (line: CostLine) => number): number => lines.reduce((total, line) => total + of(line), 0);
  return {
    month: '',
    feed: '',
    batches: sum((line) => line.batches),
    litres: sum((line) => line.litres),
    cost: sum((line) => line.cost),
    unknown: sum((line) => line.unknown),
  };
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
