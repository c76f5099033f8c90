import { describe, expect, it } from 'vitest';
import { journalPage } from '../../src/report/journal-page.js';
import { journalPotSheet } from '../../src/report/journal-pots.js';
import { journalPotShape, journalShape, journalStockShape } from '../../src/report/journal-shapes.js';
import { journalSvg } from '../../src/report/journal-svg.js';
import { journalSheet, journalStockSheet } from '../../src/report/journal.js';
import { journalJson, journalPotJson, journalStockJson } from '../../src/report/json/journal.js';
import { renderCsv } from '../../src/report/csv.js';
import { renderText } from '../../src/report/text.js';
import { unwrap } from '../../src/problem.js';
import { blank } from '../../src/year/journal/entry.js';
import type { JournalStock } from '../../src/year/journal/results.js';
import { potsOf } from '../../src/year/journal/pots.js';
import { shownJournal } from '../../src/year/journal/shown.js';
import { stockChanges, stockLeft } from '../../src/year/journal/stock.js';
import { withEntry } from '../../src/year/journal/write.js';

const HOSTILE = '<script>alert(1)</script> =HYPERLINK("x")';
const can = { feed: HOSTILE, note: HOSTILE, litres: 4, expected: 0.46, low: 0.42, high: 0.5 };
const item = { id: '=base', amount: 3, unit: 'g' as const, tool: null };
const text = [
  { ...blank('batch', '2026-05-01'), ...can, reading: 0.44, items: [item] },
  { ...blank('batch', '2026-05-08'), ...can, reading: 0.55, items: [item] },
  { ...blank('undo', '2026-05-09'), of: 1, note: HOSTILE },
  { ...blank('pot', '2026-05-10'), pot: HOSTILE, feed: HOSTILE, reading: 0.9, expected: 0.44 },
].reduce((sofar, draft) => withEntry(sofar, draft, 'j').text, '');
const journal = { name: 'journal.csv', text };
const shown = unwrap(shownJournal(journal, { last: 20, feed: null }));
const sheet = journalSheet(shown);

describe('the journal in every form', () => {
  it('runs nothing: no script, no formula, whatever names and notes hold', () => {
    for (const picture of [journalSvg(shown.feeds), journalPage(sheet, shown)({ full: true })]) {
      expect(picture).not.toMatch(/<script|\son[a-z]+=|javascript:/i);
      expect(picture).toContain('&lt;script&gt;');
      expect(picture).toContain('<svg');
    }
    for (const cell of renderCsv(sheet).split(/[,;\t\r\n]/)) expect(cell).not.toMatch(/^"?\s*[=@]/);
  });

  it('draws each reading that counts, those outside as rings', () => {
    const picture = journalSvg(shown.feeds);
    expect(picture.match(/<circle/g)).toHaveLength(1);
    expect(picture).toContain('fill="#fff" stroke="#222"');
    expect(journalSvg([])).toContain('No batch was read yet.');
  });

  it('has the published shapes', () => {
    expect(journalShape.parse(journalJson(shown))).toMatchObject({ size: { entries: 4, undone: 1 } });
    const changes = unwrap(stockChanges(journal));
    const lines = stockLeft([{ id: '=base', name: 'Base', form: 'powder', onHand: 2 }], changes);
    const { size } = shown;
    const stock: JournalStock = { status: 'counted', file: 'j', shelf: 's', size, lines, others: [] };
    expect(journalStockShape.parse(journalStockJson(stock)).lines[0]!.left).toBe(-1);
    const told = renderText(journalStockSheet(stock), { columns: 80, colour: false, full: false });
    expect(told).toContain('More was used than was there of =base');
    const pots = unwrap(potsOf(journal, [], null));
    expect(journalPotShape.parse(journalPotJson(pots)).pots[0]!.sentence).toContain('salts build up');
    expect(journalPotSheet({ ...pots, pots: [] }).blocks[0]).toMatchObject({ tone: 'bad' });
  });
});
