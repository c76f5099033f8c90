import { describe, expect, it } from 'vitest';
import { reachAgainstSheet, reachSheet } from '../../src/report/reach.js';
import { renderText } from '../../src/report/text.js';
import { reachResult } from './fixtures.js';

const told = (sheet: Parameters<typeof renderText>[0]): string => renderText(sheet, { columns: 80, colour: false });

describe('the reach of a shelf', () => {
  it('tells both ranges: every other limit kept, and the caps only', () => {
    const text = told(reachSheet(reachResult, 'rain'));
    expect(text).toMatch(/lowest {2}highest {2}caps only/);
    expect(text).toMatch(/^ *N +10 +90 +0–120 +32 +40 +48/m);
    expect(text).toMatch(/^ *Fe +0.1 +no end +from 0 +0.4/m);
  });

  it('never shows the caps alone as if all limits were kept', () => {
    const [nitrogen, ...others] = reachResult.elements;
    const torn = { ...reachResult, elements: [{ ...nitrogen!, whole: null }, ...others] };
    expect(told(reachSheet(torn, 'rain'))).toMatch(/^ *N +0–120 +32 +40 +48/m);
    const beside = told(reachAgainstSheet(torn, reachResult));
    expect(beside).toMatch(/^ *N +32 +48 +\(0–120\) +10–90/m);
    expect(beside).toContain('In brackets: the other limits cannot all be kept there');
    expect(told(reachAgainstSheet(reachResult, reachResult))).not.toContain('In brackets');
  });
});
