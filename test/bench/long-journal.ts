import { blank, type Draft } from '../../src/year/journal/entry.js';
import { HEAD } from '../../src/year/journal/layout.js';
import { lineOf } from '../../src/year/journal/write.js';

const NOTES = ['', '', 'pale; more light?', 'new roots, three', 'said "enough"', 'poured\naway'];
const IDS = ['sample-base', 'sample-calcium', 'potassium-nitrate', 'magnesium-sulfate', 'sample-kelp'];

/** A journal of so many entries: batches of two to five items, now and then a pack, a count, a standard or an undoing. Invented. */
export function longJournal(entries: number): string {
  const lines = [HEAD];
  let tail: string[] = [];
  for (let i = 0; i < entries; i += 1) {
    const { line } = lineOf(draftOf(i), { head: HEAD, tail }, 'journal.csv');
    lines.push(line);
    tail = [line];
  }
  return `${lines.join('\n')}\n`;
}

function draftOf(i: number): Draft {
  const date = `20${String(10 + Math.floor(i / 8000)).padStart(2, '0')}-${String(1 + (i % 12)).padStart(2, '0')}-15`;
  const item = (k: number) => ({
    id: IDS[(i + k) % 5]!,
    amount: Math.round(100 + ((i * 37 + k * 11) % 900)) / 1000,
    unit: (i + k) % 5 === 4 ? ('mL' as const) : ('g' as const),
    tool: 'spoon',
  });
  const some = (n: number) => Array.from({ length: n }, (_, k) => item(k));
  if (i % 97 === 96) return { ...blank('undo', date), of: i - 3, feed: 'moss' };
  if (i % 41 === 40) return { ...blank('bought', date), items: some(1), cost: 12.9, currency: 'EUR' };
  if (i % 83 === 82) return { ...blank('counted', date), items: some(2) };
  if (i % 31 === 30) return { ...blank('standard', date), reading: 1.4, expected: 1.413 };
  return {
    ...blank('batch', date),
    feed: i % 3 === 0 ? 'moss' : 'orchids in bark',
    litres: 4,
    items: some(2 + (i % 4)),
    reading: 0.4 + (i % 13) / 100,
    expected: 0.46,
    low: 0.42,
    high: 0.5,
    pH: 6.1,
    cost: 0.0437,
    currency: 'EUR',
    strength: 0.8,
    sheet: '01H6-6CJQ-ZJ6A-38KE-NV30-AB8G-Z0S1-4G2B',
    note: NOTES[i % NOTES.length]!,
  };
}
