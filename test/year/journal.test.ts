import { parse } from 'csv-parse/sync';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unwrap } from '../../src/problem.js';
import { blank, type Draft, type Entry } from '../../src/year/journal/entry.js';
import { HEAD, isWhole } from '../../src/year/journal/layout.js';
import { foldJournal } from '../../src/year/journal/read.js';
import { leftOf, stockChanges } from '../../src/year/journal/stock.js';
import { lineOf, withEntry } from '../../src/year/journal/write.js';
import { drafts, journalOf } from './entries.js';

const read = (text: string): Entry[] => {
  const entries: Entry[] = [];
  unwrap(foldJournal({ name: 'journal.csv', text }, (entry) => entries.push(entry)));
  return entries;
};
const problemsOf = (text: string) => {
  const found = foldJournal({ name: 'journal.csv', text }, () => {});
  return found.ok ? found.warnings : found.problems;
};
const batch = (more: Partial<Draft> = {}): Draft => ({ ...blank('batch', '2026-11-28'), feed: 'moss', ...more });

/** Which entries count, worked out the plain way: an undoing that is itself undone undoes nothing. */
function countsOf(all: readonly Draft[]): boolean[] {
  const counts = all.map(() => true);
  for (let i = all.length - 1; i >= 0; i -= 1)
    if (all[i]!.kind === 'undo' && counts[i]) counts[all[i]!.of! - 1] = false;
  return counts;
}

describe('the stock by the journal', () => {
  it('is the direct sum of the entries that count, after any sequence with undoings', () => {
    fc.assert(
      fc.property(drafts, (all) => {
        const counts = countsOf(all);
        const changes = unwrap(stockChanges({ name: 'journal.csv', text: journalOf(all) }));
        for (const id of ['base', 'cal; (mag)', '=kelp', '50% nitrate']) {
          let left = 500;
          for (const [i, { kind, items }] of all.entries()) {
            const much = items.find((item) => item.id === id)?.amount;
            if (!counts[i] || much === undefined) continue;
            left = kind === 'counted' ? much : left + (kind === 'bought' ? much : -much);
          }
          expect(
            leftOf(
              500,
              changes.find((change) => change.id === id),
            ),
          ).toBeCloseTo(left, 6);
        }
      }),
      { seed: 15, numRuns: 300 },
    );
  });

  it('is not known of what nobody said how much there was', () => {
    expect(leftOf(undefined, undefined)).toBeNull();
    expect(
      leftOf(undefined, { id: 'x', unit: 'g', counted: null, on: null, used: 3, bought: 5, batches: 1 }),
    ).toBeNull();
    expect(
      leftOf(undefined, { id: 'x', unit: 'g', counted: 9, on: '2026-01-01', used: 3, bought: 5, batches: 1 }),
    ).toBe(11);
  });
});

describe('a line of the journal', () => {
  it('brings every text back as it was, is one line, and runs in no spreadsheet', () => {
    const hostile = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc.constantFrom(
        '=1+1',
        '+cmd|x',
        '-2+3',
        '@SUM(A1)',
        "'=x",
        ' =x ',
        'a;=b',
        'a\t=b',
        'two\nlines\r\n=three',
        '"',
        '","=1',
        '#',
        '\\n',
        '\\u{41}',
        '\u0000\u2028\u202e\ufeff',
        '\ud800 half',
        ',undo,1,',
      ),
    );
    fc.assert(
      fc.property(hostile, hostile, hostile, fc.constantFrom(',', ';', '\t'), (note, feed, pot, mark) => {
        const draft = batch({ note, feed, pot, items: [{ id: note || 'x', amount: 1.25, unit: 'g', tool: 'spoon' }] });
        const head = HEAD.replaceAll(',', mark);
        const { line } = lineOf(draft, { head, tail: [] }, 'journal.csv');
        expect(line).not.toMatch(/[\r\n]/);
        const [back] = read(`${head}\n${line}\n`);
        const { entry, line: _, ...same } = back!;
        expect(entry).toBe(1);
        expect(same).toEqual(draft);
        // as a spreadsheet splits it, and as one that splits at semicolons and tabs and knows no quotes
        for (const cells of parse(line, { delimiter: mark, relax_column_count: true }) as string[][])
          for (const cell of cells) expect(cell).not.toMatch(/^\s*[=+@]|^\s*-(?!\d)/);
        for (const piece of line.split(/[;\t]/)) expect(piece).not.toMatch(/^\s*[=+@]/);
      }),
      { seed: 15, numRuns: 400 },
    );
  });

  it('is numbered one more than the last, whatever stands there', () => {
    const one = withEntry('', batch(), 'j');
    expect(one).toEqual({ entry: 1, text: expect.stringMatching(/^entry,date,kind/) });
    const two = withEntry(one.text, batch(), 'j');
    expect(two.entry).toBe(2);
    expect(withEntry(two.text.slice(0, -1), batch(), 'j').entry).toBe(3);
    // half of the second is gone
    expect(withEntry(two.text.slice(0, -20), batch(), 'j')).toEqual(withEntry(one.text, batch(), 'j'));
    expect(withEntry('# mine\n', batch(), 'j').entry).toBe(1);
  });

  it('is told from half of one', () => {
    const { line } = lineOf(batch({ note: '12' }), { head: HEAD, tail: [`${'11,2026-01-01,batch'}`] }, 'j');
    expect(isWhole(line, HEAD)).toBe(true);
    for (let n = 0; n < line.length; n += 1) expect(isWhole(line.slice(0, n), HEAD)).toBe(false);
    for (let n = 1; n < HEAD.length; n += 1) expect(isWhole(HEAD.slice(0, n), '')).toBe(false);
    expect(isWhole(HEAD, '')).toBe(true);
  });

  it('is laid out as the file is: other separators, columns in another order, a byte-order mark', () => {
    const head = '\ufeffend;note;kind;items;date;reading;entry';
    const draft = batch({ note: 'a;b', reading: 0.46, items: [{ id: 'base', amount: 1.5, unit: 'g', tool: null }] });
    const { line } = lineOf(draft, { head, tail: [] }, 'j');
    expect(line).toBe('1;"a;b";batch;1.5 g base;2026-11-28;0,46;1');
    expect(read(`${head}\r\n${line}\r\n`)[0]).toMatchObject({ note: 'a;b', reading: 0.46, items: draft.items });
    expect(isWhole(line, head)).toBe(true);
  });
});

describe('a journal that cannot be read', () => {
  it('tells every line that is wrong, with its number', () => {
    const text = `${HEAD}\n1,2026-11-28,batch,moss,,1.2 g base,,,,,,,,,,,,,,,,,,1\nx,28.11.2026,bacth,,four,1.2 kg base,,,,,,,,,,,,,,,,,,\n2,2026-11-28,undo,,,,,,,,,,,,,,,,7,,,,,2\n3,2026-11-28,batch,"oops\n`;
    expect(problemsOf(text).map(({ code, where }) => [code, where.line])).toEqual([
      ['entry-entry', 3],
      ['entry-date', 3],
      ['entry-kind', 3],
      ['entry-litres', 3],
      ['entry-items', 3],
      ['entry-of', 4],
      ['csv-quote', 5],
    ]);
    expect(problemsOf('id,name\na,b\n')[0]).toMatchObject({ where: { line: 1 } });
  });

  it('wants numbers that grow, and passes over half a line with a warning', () => {
    const whole = journalOf([batch(), batch(), batch()]);
    const [head, a, b, c] = whole.split('\n');
    expect(problemsOf([head, b, a, c, ''].join('\n'))).toMatchObject([{ code: 'entry-order', where: { line: 3 } }]);
    expect(problemsOf(whole.slice(0, -9))).toMatchObject([{ code: 'half-line', severity: 'warning' }]);
    expect(read(whole.slice(0, -9))).toHaveLength(2);
    expect(read(whole.slice(0, -1))).toHaveLength(3);
    expect(read('')).toEqual([]);
  });
});
