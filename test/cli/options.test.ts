import { describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments.js';
import { assessCommand } from '../../src/cli/assess.js';
import { blendCommand } from '../../src/cli/blend.js';
import { parseCount } from '../../src/desk/options/number.js';
import { parseShare } from '../../src/desk/options/share.js';
import { parseWaterWords } from '../../src/desk/options/water.js';
import { Refusal } from '../../src/problem.js';

const codes = (argv: string[]): string[] => {
  try {
    readArguments(blendCommand, argv);
    return [];
  } catch (fault) {
    if (fault instanceof Refusal) return fault.problems.map((p) => `${p.code} ${p.fix}`);
    throw fault;
  }
};

describe('arguments', () => {
  it('are read as written, repeated ones in order', () => {
    const given = readArguments(blendCommand, [
      '--plants',
      'moth orchid',
      '--rule',
      'Ca >= 3 * Mg',
      '--rule=NH4 <= 0 * N',
      '--closest',
      '--nh4',
      '0',
    ]);
    expect(given.text('plants')).toBe('moth orchid');
    expect(given.texts('rule')).toEqual(['Ca >= 3 * Mg', 'NH4 <= 0 * N']);
    expect([given.flag('closest'), given.flag('json'), given.text('nh4'), given.text('medium')]).toEqual([
      true,
      false,
      '0',
      undefined,
    ]);
  });

  it.each([
    [['--plnats', 'fern'], 'unknown-option Did you mean --plants?'],
    [['--qqqqqqqq'], 'unknown-option `velamen blend -h` lists them.'],
    [['--__proto__', 'x'], 'unknown-option `velamen blend -h` lists them.'],
    [['--no-json'], 'unknown-option'],
    [['-json'], 'unknown-option'],
    [['--plants'], 'option-without-value Write --plants GROUP.'],
    [['--plants', ''], 'option-without-value Write --plants GROUP.'],
    [['--plants', 'a', '--plants', 'b'], 'option-given-twice Keep the one you mean.'],
    [['--json', '--csv'], 'two-formats Ask for one at a time.'],
    [['4', 'L'], 'stray-word'],
  ])('%j is refused: %s', (argv, wanted) => {
    expect(codes(argv).some((code) => code.startsWith(wanted))).toBe(true);
  });

  it('may begin with a minus sign: a negative amount is a value, judged by whoever reads it', () => {
    const given = readArguments(blendCommand, ['--mix', '-4 L', '--nh4', '-.1', '--strength=-10 %', '--json']);
    expect(['mix', 'nh4', 'strength'].map((name) => given.text(name))).toEqual(['-4 L', '-.1', '-10 %']);
    expect(given.flag('json')).toBe(true);
    expect(readArguments(assessCommand, ['-1 g base in 4 L', '--json']).operands).toEqual(['-1 g base in 4 L']);
    expect(codes(['-4'])).toEqual([expect.stringMatching(/^stray-word/)]);
  });

  it('are all told at once', () => {
    expect(codes(['--plnats', 'fern', '--medium', '--mix', '1 L', '--mix', '2 L', 'word'])).toHaveLength(4);
  });
});

describe('option values', () => {
  it.each([
    ['0', 0],
    ['10 %', 0.1],
    ['10%', 0.1],
    ['0.25', 0.25],
    ['.5', 0.5],
    ['100 %', 1],
    ['10', null],
    ['-1', null],
    ['1e-1', 0.1],
    ['0,1', 0.1],
    ['lots', null],
    ['120 %', null],
  ])('share %s is %s', (text, share) => {
    const read = parseShare(text, {});
    expect(read.ok ? read.value : null).toBe(share);
  });

  it.each([
    ['3', 3],
    ['0', null],
    ['2.5', null],
    ['-1', null],
    ['99999', null],
    ['three', null],
  ])('count %s is %s', (text, count) => {
    const read = parseCount(text, {});
    expect(read.ok ? read.value : null).toBe(count);
  });

  it('a water is a name or an analysis', () => {
    const value = (text: string) => {
      const read = parseWaterWords(text, {});
      return read.ok ? read.value : read.problems[0]?.found;
    };
    expect(value('rain')).toBe('rain');
    expect(value('Ca=40, Mg = 11,alkalinity:130')).toEqual({ Ca: '40', Mg: '11', alkalinity: '130' });
    expect(value('Ca=40, Mg')).toBe('"Mg"');
    expect(value('Ca=40, Ca=41')).toBe('Ca twice');
  });
});
