import { describe, expect, it } from 'vitest';
import { type Caution, inOneList } from '../../src/can/cautions.js';
import { blendSheet } from '../../src/report/blend.js';
import { severalSheets } from '../../src/report/several.js';
import { paragraph } from '../../src/report/sheet.js';
import { renderText } from '../../src/report/text.js';
import { blendResult } from './fixtures.js';

const overview = () => ({ title: 'two feeds', blocks: [paragraph('at a glance')] });

describe('a report of several results', () => {
  const nitrate: Caution = { code: 'ammonium', items: ['base'] };
  const one = { ...blendResult, cautions: [{ code: 'label-first' } as const, nitrate, { code: 'runoff' } as const] };
  const two = { ...one, cautions: [{ code: 'label-first' } as const, { ...nitrate, items: ['base', 'salt'] }] };
  const told = (results: readonly (typeof blendResult)[]): string =>
    severalSheets(results, (result) => blendSheet(result), overview)
      .map((sheet) => renderText(sheet, { columns: 80, colour: false }))
      .join('\n');

  it('is led by the overview and tells each caution once, at the end, for all of them', () => {
    const text = told([one, two]);
    expect(text.startsWith('two feeds\n')).toBe(true);
    expect(text.match(/Take care/g)).toHaveLength(1);
    expect(text.match(/The label comes first/g)).toHaveLength(1);
    expect(text).toContain('base, salt: holds or may hold ammonium');
    expect(text.lastIndexOf('Take care')).toBeGreaterThan(text.lastIndexOf('What goes in'));
  });

  it('tells each product of a hazard once', () => {
    const hazard = (...items: string[]): Caution => ({
      code: 'oxidiser',
      hazards: items.map((item) => ({ item, codes: ['H272'], may: item === 'base' })),
    });
    const text = told([
      { ...one, cautions: [hazard('base', 'salt')] },
      { ...one, cautions: [hazard('salt', 'base')] },
    ]);
    expect(text.replace(/\s+/g, ' ')).toContain(
      'fire: salt (H272); perhaps base (H272), by the salts in it: its label',
    );
    expect(text.match(/H272/g)).toHaveLength(2);
  });

  it('of one result alone is its own report', () => {
    expect(told([one])).toBe(renderText(blendSheet(one), { columns: 80, colour: false }));
  });
});

describe('cautions in one list', () => {
  it('come once each, with all their products, the most pressing first', () => {
    const alkali: Caution = { code: 'alkali-beside-ammonium', alkalis: ['lime'], ammonium: ['a'] };
    const lists: Caution[][] = [
      [{ code: 'label-first' }, { code: 'ammonium', items: ['a'] }, { code: 'start-weak' }],
      [{ code: 'label-first' }, { code: 'acid', items: ['x'] }, alkali, { code: 'start-weak' }],
      [{ ...alkali, ammonium: ['b'] }, { code: 'carnivorous-roots' }],
    ];
    expect(inOneList(lists)).toEqual([
      { code: 'label-first' },
      { code: 'acid', items: ['x'] },
      { code: 'ammonium', items: ['a'] },
      { code: 'alkali-beside-ammonium', alkalis: ['lime'], ammonium: ['a', 'b'] },
      { code: 'carnivorous-roots' },
      { code: 'start-weak' },
    ]);
    expect(inOneList([])).toEqual([]);
  });
});
