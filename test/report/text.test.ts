import { describe, expect, it } from 'vitest';
import { assessSheet } from '../../src/report/assess.js';
import { blendSheet } from '../../src/report/blend.js';
import { reachAgainstSheet, reachSheet } from '../../src/report/reach.js';
import { heading, list, paragraph, type Sheet, table } from '../../src/report/sheet.js';
import { renderText } from '../../src/report/text.js';
import { widthOf, wrap } from '../../src/report/wrap.js';
import { assessResult, blendResult, infeasibleResult, reachResult } from './fixtures.js';

const sheets: [string, Sheet][] = [
  ['blend', blendSheet(blendResult, 500)],
  ['infeasible', blendSheet(infeasibleResult)],
  ['reach', reachSheet(reachResult, 'rain')],
  ['two shelves', reachAgainstSheet(reachResult, { ...reachResult, shelf: 'other.csv' })],
  ['assess', assessSheet(assessResult, 'EC')],
];

describe('text', () => {
  it.each(sheets)('%s keeps to 80 columns, without trailing blanks or exponents', (_, sheet) => {
    const text = renderText(sheet, { columns: 80, colour: false });
    for (const line of text.split('\n')) {
      expect(widthOf(line)).toBeLessThanOrEqual(80);
      expect(line).toBe(line.trimEnd());
    }
    expect(text).not.toMatch(/\d[eE][+-]?\d/);
    expect(text).not.toMatch(/NaN|Infinity|undefined|null/);
  });

  it.each(sheets)('%s says the same with colour as without', (_, sheet) => {
    const plain = renderText(sheet, { columns: 80, colour: false });
    const coloured = renderText(sheet, { columns: 80, colour: true });
    expect(plain).not.toContain('\u001b');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the escapes are what is stripped
    expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(plain);
  });

  it('names the proof, the pen’s scale and every broken limit in words', () => {
    const text = renderText(blendSheet(blendResult, 500), { columns: 80, colour: false });
    expect(text).toContain('No cheaper mix exists within these limits: bound 0.00325, found 0.00325 EUR/L.');
    expect(text).toContain('about 210 ppm of that scale');
    expect(text).toMatch(/Ca .*LOW by 5.5/);
    expect(text).toMatch(/Mg .*HIGH by 2.2/);
    expect(text).toMatch(/Ca >= 2 \* Mg .*BROKEN/);
  });

  it('tells why there is no feed, the ways out and the nearest', () => {
    const text = renderText(blendSheet(infeasibleResult), { columns: 80, colour: false });
    for (const part of [
      'no feed keeps every limit',
      'Ca ≥ 24 mg/L (programme): Ca can only come from cal',
      'Mg ≤ 12 mg/L: 14.2 instead of 12 mg/L',
      '5.5 too little',
    ]) {
      expect(text).toContain(part);
    }
  });

  it('lets no text of a file move the cursor', () => {
    const sheet: Sheet = {
      title: 'a\u001b[31mb',
      blocks: [list(['x\u0007y\u202ez']), table(['n'], [['\u001b]0;t\u0007']])],
    };
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what must not be there
    expect(renderText(sheet, { columns: 80, colour: false })).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/);
  });

  it('sets a list right under its heading and gives the rest air', () => {
    const sheet: Sheet = { title: 't', blocks: [paragraph('p'), heading('h'), list(['i'])] };
    expect(renderText(sheet, { columns: 80, colour: false })).toBe('t\n\np\n\nh\n  - i\n');
  });
});

describe('wrap', () => {
  it('breaks at blanks and cuts what is too long', () => {
    expect(wrap('one two three', 7)).toEqual(['one two', 'three']);
    expect(wrap('abcdefghij k', 4)).toEqual(['abcd', 'efgh', 'ij k']);
    expect(wrap('', 10)).toEqual(['']);
  });
  it('counts wide letters twice and combining marks not at all', () => {
    expect(widthOf('水a')).toBe(3);
    expect(widthOf('e\u0301')).toBe(1);
  });
});
