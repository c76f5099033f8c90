import { parse } from 'csv-parse/sync';
import * as z from 'zod';
import { describe, expect, it } from 'vitest';
import type { BlendMade } from '../../src/feed/results.js';
import { blendSheet } from '../../src/report/blend.js';
import { renderCsv } from '../../src/report/csv.js';
import { renderHtml } from '../../src/report/html.js';
import { assessJson } from '../../src/report/json/assess.js';
import { blendJson } from '../../src/report/json/blend.js';
import { reachJson } from '../../src/report/json/reach.js';
import { reachShape } from '../../src/report/reach-shapes.js';
import { assessShape, blendShape, SHAPES } from '../../src/report/schemas.js';
import { schemaId } from '../../src/report/schema-id.js';
import { heading, inFull, paragraph, type Sheet, table } from '../../src/report/sheet.js';
import { renderText } from '../../src/report/text.js';
import { assessResult, blendResult, infeasibleResult, reachResult } from './fixtures.js';

const nasty = '=1+1</title><script>alert("x")</script>';
const attacked: BlendMade = { ...blendResult, items: blendResult.items.map((item) => ({ ...item, name: nasty })) };

describe('what is told only in full', () => {
  const sheet: Sheet = {
    title: 't',
    blocks: [paragraph('first'), ...inFull([heading('h'), table(['deep'], [['cell']])])],
  };

  it('is left out of text and page unless asked for', () => {
    const plain = { columns: 80, colour: false };
    expect(renderText(sheet, plain)).toBe('t\n\nfirst\n');
    expect(renderText(sheet, { ...plain, full: true })).toContain('deep');
    expect(renderHtml([sheet])).not.toContain('<table>');
    expect(renderHtml([sheet], { full: true })).toContain('<table>');
  });

  it('is always in the CSV, as it is in the JSON', () => {
    expect(renderCsv(sheet)).toContain('deep\r\ncell');
  });
});

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
  it('hold the id that their command goes by', () => {
    for (const [command, shape] of SHAPES) {
      const ids = JSON.stringify(z.toJSONSchema(shape)).match(/velamen\.[a-z-]+\/\d+/g) ?? [];
      expect(ids.length, command).toBeGreaterThan(0);
      expect(ids, command).toContain(schemaId(command));
    }
  });

  it('hold for what they describe', () => {
    const [made, cannot] = [blendJson(blendResult), blendJson(infeasibleResult)];
    expect(blendShape.parse(made)).toEqual(made);
    expect(blendShape.parse(cannot)).toEqual(cannot);
    expect(reachShape.parse(reachJson(reachResult))).toEqual(reachJson(reachResult));
    expect(assessShape.parse(assessJson(assessResult))).toEqual(assessJson(assessResult));
  });
  it('of a feed that cannot be made hold no doses, elements or EC', () => {
    const { nearest, ...top } = blendJson(infeasibleResult) as ReturnType<typeof blendJson> & { nearest: object };
    for (const key of ['items', 'waters', 'elements', 'ec', 'costPerLitre']) {
      expect(top).not.toHaveProperty(key);
      expect(nearest).toHaveProperty(key);
    }
    expect(blendShape.safeParse({ ...blendJson(infeasibleResult), items: [] }).success).toBe(false);
  });
  it('refuse a missing or unknown key', () => {
    const made = blendJson(blendResult);
    const { proof: _, ...without } = made;
    expect(blendShape.safeParse(without).success).toBe(false);
    expect(blendShape.safeParse({ ...made, extra: 1 }).success).toBe(false);
  });
});
