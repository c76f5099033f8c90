import { describe, expect, it } from 'vitest';
import { doubtsOfPrint, readPrintedLabel } from '../../src/label/printed-label.js';
import { packIn } from '../../src/label/printed-pack.js';
import { readAnalysis } from '../../src/label/read-analysis.js';
import { EU_LABELS } from './printed-eu.js';
import { UNLIKE_LABELS } from './printed-unlike.js';
import { US_LABELS } from './printed-us.js';

describe.each([
  ['US', US_LABELS],
  ['EU', EU_LABELS],
])('printed labels, %s', (_, labels) => {
  it.each(labels)('%s', (text, told, sources) => {
    const { analysis, leftOver, understood } = readPrintedLabel(text);
    const words = told.split(' ');
    const expected = Object.fromEntries(words.flatMap((w, i) => (i % 2 === 0 ? [[w, Number(words[i + 1])]] : [])));
    expect(analysis.percent).toEqual(expected);
    expect(analysis.derivedFrom?.join('; ')).toBe(sources);
    expect(leftOver).toEqual([]);
    for (const { printed, percent } of understood) {
      // the figure stands in what it was read from, but for ppm and decimal commas
      if (!/ppm/.test(printed)) expect(printed.replace(/,/g, '.')).toContain(String(percent).replace(/^0(?=\.)/, ''));
    }
  });
});

/** `N 12 K2O 8` by column. */
const byColumn = (told: string): Record<string, number> =>
  Object.fromEntries(told.split(' ').flatMap((word, i, words) => (i % 2 === 0 ? [[word, Number(words[i + 1])]] : [])));

describe('labels in unlike styles', () => {
  it.each(UNLIKE_LABELS)('%s', (text, told, name, form = 'powder') => {
    const { analysis, leftOver, name: own } = readPrintedLabel(text);
    expect(analysis.percent).toEqual(byColumn(told));
    expect(own).toBe(name);
    expect([analysis.form, analysis.basis, analysis.density].filter((part) => part !== undefined).join(' ')).toBe(form);
    expect(leftOver).toEqual([]);
  });
});

describe('a printed label', () => {
  it('there are forty of them at least, each different', () => {
    const texts = [...US_LABELS, ...EU_LABELS].map(([text]) => text);
    expect(new Set(texts).size).toBeGreaterThanOrEqual(40);
  });

  it('tells liquids, density and basis', () => {
    expect(readPrintedLabel('Weighs 10.1 lb per gal\nTotal Nitrogen 3%').analysis).toMatchObject({
      form: 'liquid',
      density: 1.21,
    });
    expect(readPrintedLabel('N 4,5 %; density 1,15 kg/l').analysis).toMatchObject({ form: 'liquid', density: 1.15 });
    expect(readPrintedLabel('5 % N total (m/v)').analysis).toMatchObject({ form: 'liquid', basis: 'w/v' });
    expect(readPrintedLabel('Total Nitrogen 3%').analysis.form).toBe('powder');
  });

  it('is a label as any other: it reads as an analysis, and its slips are doubts', () => {
    const { analysis, doubts, name } = readPrintedLabel(
      'Sample Even 19-19-19\nTotal Nitrogen (N) 19%\nPhosphorus (P) 19%\nPotassium (K) 19%\nBoron (B) 2%',
    );
    expect(name).toBe('Sample Even 19-19-19');
    expect(readAnalysis(analysis).ok).toBe(true);
    expect(doubts.map(({ code }) => code)).toEqual(['grade-elements', 'trace-too-much']);
  });

  it('ends the list of sources where another line begins', () => {
    const sources = (text: string) => readPrintedLabel(`N 2%\nDerived from: ${text}`).analysis.derivedFrom;
    expect(sources('calcium nitrate, magnesium nitrate\nShake well')).toEqual(['calcium nitrate', 'magnesium nitrate']);
    expect(sources('calcium nitrate\nBlue Crystal Orchid Company')).toEqual(['calcium nitrate']);
    expect(sources('calcium nitrate, monopotassium\nphosphate and\nurea')).toEqual([
      'calcium nitrate',
      'monopotassium phosphate',
      'urea',
    ]);
  });

  it('tells what stands beside no nutrient, and what stands twice', () => {
    expect(readPrintedLabel('Total Nitrogen 8%\nFiller 12.5%').leftOver).toEqual(['12.5%']);
    expect(readPrintedLabel('Total Nitrogen 8%\nTotal Nitrogen 9%').doubts.map(({ code }) => code)).toEqual([
      'printed-twice',
    ]);
    const split = readPrintedLabel('Sample Feed 5-2-12\nN 5%\nP2O5 2 %\nSoluble Potash (K2O) 1 2%');
    expect(doubtsOfPrint(split)).toMatchObject([
      { code: 'printed-split', where: { file: 'the label Sample Feed 5-2-12' }, fix: expect.stringContaining('12 %') },
    ]);
    for (const whole of [
      '20-20-20\n5 %',
      'P2O5 2 %',
      'N 5 % 2 % nitrate nitrogen',
      'Nitrogen 12,5 %',
      'NPK 8 2 4\nFe 0.1 %',
    ])
      expect(readPrintedLabel(whole).doubts.filter(({ code }) => code === 'printed-split')).toEqual([]);
    expect(readPrintedLabel('').analysis.percent).toEqual({});
  });
});

it('longer than any label is refused, before a second is spent on its brackets', () => {
  expect(() => readPrintedLabel('('.repeat(1_000_000))).toThrow(
    expect.objectContaining({ problems: [expect.objectContaining({ code: 'label-too-long' })] }),
  );
});

describe('packs', () => {
  it.each([
    ['Foo 2 lb, $12', ['2 lb'], 12, '$'],
    ['Epsom salt, Net Wt. 4 lb (1.81 kg), CA$ 6.99', ['4 lb', '1.81 kg'], 6.99, 'CAD'],
    ['derived from: kelp extract / 32 fl oz, weight 2.2 lb', ['32 fl oz', '2.2 lb'], null, ''],
    ['13-0-46 $12', [], 12, '$'],
    ['12,50 € for 1 kg', ['1 kg'], 12.5, 'EUR'],
  ])('%s', (text, sizes, amount, currency) => {
    const pack = packIn(text);
    expect(pack.sizes).toEqual(sizes);
    expect(pack.price).toEqual(amount === null ? null : { amount, currency });
  });

  it.each([
    'Weighs 9.6 lb/gal',
    'Use 5 g / 10 L',
    '2 g per L',
    'apply 2 lb per acre',
    'N 5 g, P 2 g',
    '13-0-46',
    '5 g/L',
  ])('no pack: %s', (text) => expect(packIn(text)).toEqual({ sizes: [], price: null, printed: [] }));

  it('are no sources', () => {
    const { analysis } = readPrintedLabel('Drops 0-0-1\nderived from: kelp extract / 32 fl oz, weight 2.2 lb');
    expect(analysis.derivedFrom).toEqual(['kelp extract']);
    expect(analysis.form).toBe('liquid');
  });
});
