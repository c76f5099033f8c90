import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { BlendResult } from '../../src/feed/results.js';
import { blendSheet } from '../../src/report/blend.js';
import { renderCsv } from '../../src/report/csv.js';
import { renderHtml } from '../../src/report/html.js';
import { assessShape, blendShape, reachShape } from '../../src/report/schemas.js';
import { assessJson } from '../../src/report/json/assess.js';
import { blendJson } from '../../src/report/json/blend.js';
import { renderText } from '../../src/report/text.js';
import { assessResult, blendResult, infeasibleResult, reachResult } from './fixtures.js';

const nasty = '=1+1</title><script>alert("x")</script>';
const attacked: BlendResult = { ...blendResult, items: blendResult.items.map((item) => ({ ...item, name: nasty })) };

describe('CSV', () => {
  it('can be read back, with the very figures of the result', () => {
    const rows: string[][] = parse(renderCsv(blendSheet(blendResult)), { relax_column_count: true });
    const calcium = rows.find((row) => row[0] === 'Ca');
    expect(calcium).toEqual(['Ca', '18.5', '18.5', '18.5', '24', '32', '48', 'low']);
  });
  it('hands no formula to a spreadsheet', () => {
    const rows: string[][] = parse(
      renderCsv(blendSheet({ ...attacked, items: attacked.items.map((item) => ({ ...item, id: '@x' })) })),
      { relax_column_count: true },
    );
    expect(rows.flat().filter((cell) => /^[=@+]/.test(cell))).toEqual([]);
  });
});

describe('HTML', () => {
  it('escapes whatever a file says', () => {
    const page = renderHtml([blendSheet({ ...attacked, feed: { ...attacked.feed, name: nasty } })]);
    expect(page).not.toContain('<script');
    expect(page).toContain('&lt;script&gt;');
  });
  it('fetches nothing', () => {
    const page = renderHtml([blendSheet(blendResult)]).replaceAll('http://www.w3.org/2000/svg', '');
    expect(page).not.toMatch(/https?:|src=|@import|url\(/);
  });
  it('says low and high in words, and draws one bar per band', () => {
    const page = renderHtml([blendSheet(blendResult)]);
    expect(page).toContain('<td>low</td>');
    expect(page.match(/<svg /g)).toHaveLength(7);
    expect(page).toContain('<title>Ca: low</title>');
  });
});

describe('one model', () => {
  it('shows the same amounts in text, CSV and HTML', () => {
    const sheet = blendSheet(blendResult, 500);
    const [text, csv, html] = [
      renderText(sheet, { columns: 80, colour: false }),
      renderCsv(sheet),
      renderHtml([sheet]),
    ];
    for (const figure of ['0.313 g', '1.25 g', '0.4 mL', '0.02 mg', '0.00325 EUR']) {
      expect(text).toContain(figure);
      expect(csv).toContain(figure);
      expect(html).toContain(figure);
    }
  });
});

describe('shapes', () => {
  it('hold for what they describe', () => {
    for (const result of [blendResult, infeasibleResult].map(blendJson))
      expect(blendShape.parse(result)).toEqual(result);
    expect(reachShape.parse(reachResult)).toEqual(reachResult);
    const assessed = assessJson(assessResult);
    expect(assessShape.parse(assessed)).toEqual(assessed);
  });
  it('refuse a missing or unknown key', () => {
    const printed = blendJson(blendResult);
    const { proof: _, ...without } = printed;
    expect(blendShape.safeParse(without).success).toBe(false);
    expect(blendShape.safeParse({ ...printed, extra: 1 }).success).toBe(false);
  });
});
