import { describe, expect, it } from 'vitest';
import type { ReachResult } from '../../src/feed/results.js';
import { reachAllSheet } from '../../src/report/reach-all.js';
import { reachAgainstSheet, reachSheet } from '../../src/report/reach.js';
import { reachJson } from '../../src/report/json/reach.js';
import { renderText } from '../../src/report/text.js';
import { bandEnd, reachResult } from './fixtures.js';

const told = (sheet: Parameters<typeof renderText>[0], full = false): string =>
  renderText(sheet, { columns: 80, colour: false, full });
const first = (result: ReachResult): string => told(reachSheet(result, 'rain')).split('\n')[0]!;
const [nitrogen, lime, iron] = reachResult.elements;
const together: ReachResult = { ...reachResult, status: 'together', conflicting: false, conflict: [], aimsMiss: 0 };
const within = { ...lime!, whole: { lowest: 0, highest: 60 }, reachable: true, aimReachable: true, decides: null };

describe('the reach of a shelf', () => {
  it('answers in its first line', () => {
    expect(first({ ...together, elements: [nitrogen!, within] })).toBe('moss: all aims can be met on this shelf');
    expect(first({ ...together, aimsMiss: 0.1, elements: [nitrogen!, within] })).toBe(
      'moss: each aim can be met on this shelf, but not all at once',
    );
    const short = {
      ...within,
      aimReachable: false,
      decides: { kind: 'limit', limit: bandEnd('N', 'most', 48) } as const,
    };
    expect(first({ ...together, elements: [nitrogen!, short] })).toBe('moss: Ca aim out of reach; the rest can be met');
    expect(first({ ...together, elements: [short] })).toBe('moss: Ca aim out of reach, though all limits can be kept');
    expect(first({ ...together, elements: [iron!] })).toBe('moss: every element can be brought into its band');
    expect(first({ ...reachResult, status: 'open' })).toBe('moss: not proved what this shelf can reach');
  });

  it('says where not all limits can be kept together, and which contradict each other', () => {
    expect(first(reachResult)).toBe('moss: Ca out of reach, so not all limits can be kept together');
    expect(told(reachSheet(reachResult, 'rain'))).toContain('Ca ≥ 24 and Mg ≤ 12 contradict each other');
    const alone = { ...reachResult, elements: [nitrogen!] };
    expect(first(alone)).toBe('moss: not all limits can be kept together');
    expect(told(reachSheet(alone, 'rain'))).toContain('Each element by itself could be brought into its band');
    // where not even the caps can be kept, no element could by itself
    const none = { ...alone, elements: [{ ...nitrogen!, whole: null, capsOnly: null, reachable: false }] };
    expect(told(reachSheet(none, 'rain'))).not.toContain('by itself');
  });

  it('tells band, range, aim and what decides in one table; the causes in full alone', () => {
    const sheet = reachSheet(reachResult, 'rain');
    expect(told(sheet)).toMatch(/^ *N +32 +40 +48 +10 +90 +yes$/m);
    expect(told(sheet)).toMatch(/^ *Ca +24 +32 +48 +0 +18\.5 +TOO LOW +only cal brings it$/m);
    expect(told(sheet)).toMatch(/^ *Fe +0\.4 +0\.1 +no end$/m);
    expect(told(sheet)).not.toContain('EC ≤ 0.6');
    expect(told(sheet, true)).toContain('Ca: Mg ≤ 12 mg/L; EC ≤ 0.6 mS/cm');
    expect(told(sheet, true)).toContain('Ca: only cal brings it, and Mg ≤ 12');
    expect(reachJson(reachResult).elements[1]).toMatchObject({
      aimReachable: false,
      decides: 'only cal brings it, and Mg ≤ 12',
      limitedBy: ['Mg ≤ 12 mg/L', 'EC ≤ 0.6 mS/cm'],
    });
  });

  it('fits a screen of 24 lines with twelve elements within reach', () => {
    const lines = told(
      reachSheet({ ...together, elements: Array.from({ length: 12 }, () => nitrogen!) }, 'rain'),
    ).split('\n');
    expect(
      lines.slice(
        0,
        lines.findIndex((line) => line.startsWith('Plants')),
      ).length,
    ).toBeLessThanOrEqual(24);
  });

  it('never shows the caps alone as if all limits were kept', () => {
    const torn = { ...reachResult, elements: [{ ...nitrogen!, whole: null, aimReachable: null }, lime!] };
    expect(told(reachSheet(torn, 'rain'))).toMatch(/^ *N +32 +40 +48 +\(0 +120\)$/m);
    const beside = told(reachAgainstSheet(torn, reachResult));
    expect(beside).toMatch(/^ *N +32 +48 +\(0–120\) +10–90/m);
    expect(beside).toContain('In brackets: the other limits cannot all be kept there');
    expect(told(reachAgainstSheet(reachResult, reachResult))).not.toContain('In brackets');
  });

  it('leads several feeds with one overview', () => {
    const text = told(reachAllSheet([reachResult, { ...together, elements: [nitrogen!, within] }]));
    expect(text).toMatch(/NO +Ca out of reach/);
    expect(text).toMatch(/yes +all aims can be met/);
    expect(text).toContain('1 of 2 feeds can be mixed from this shelf.');
  });
});
