import { describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments.js';
import { assessCommand } from '../../src/cli/assess.js';
import { blendCommand } from '../../src/cli/blend.js';
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
  it('a switch takes no value', () => {
    expect(codes(['--json=x'])).toEqual(['switch-value Write --json.']);
  });

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
    expect(given.words).toEqual({
      plants: 'moth orchid',
      rule: ['Ca >= 3 * Mg', 'NH4 <= 0 * N'],
      closest: true,
      nh4: '0',
    });
    expect(given.outputs).toEqual({ print: 'txt', files: [], replace: false });
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

  it('of no name of the machine’s own are told as they were written', () => {
    const read = () => readArguments(blendCommand, ['--__proto__', 'x']);
    expect(read).toThrow(
      expect.objectContaining({
        problems: expect.arrayContaining([expect.objectContaining({ found: '--__proto__' })]),
      }),
    );
  });

  it('may begin with a minus sign: a negative amount is a value, judged by whoever reads it', () => {
    const given = readArguments(blendCommand, ['--mix', '-4 L', '--nh4', '-.1', '--strength=-10 %', '--json']);
    expect(given.words).toEqual({ mix: '-4 L', nh4: '-.1', strength: '-10 %', json: true });
    expect(readArguments(assessCommand, ['-1 g base in 4 L', '--json']).operands).toEqual(['-1 g base in 4 L']);
    expect(codes(['-4'])).toEqual([expect.stringMatching(/^stray-word/)]);
  });

  it('are all told at once', () => {
    expect(codes(['--plnats', 'fern', '--medium', '--mix', '1 L', '--mix', '2 L', 'word'])).toHaveLength(4);
  });
});
