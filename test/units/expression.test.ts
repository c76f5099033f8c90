import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRelation } from '../../src/units/expression.js';
import { relationText } from '../../src/units/linear.js';

const NAMES = ['N', 'NO3', 'NH4', 'urea', 'P', 'K', 'Ca', 'Mg', 'S', 'Na', 'Cl', 'EC'];

function read(text: string): string[] {
  const result = parseRelation(text, NAMES);
  if (!result.ok) throw new Error(result.problems.map((p) => p.found).join());
  return result.value.map(relationText);
}

function refusal(text: string): string {
  const result = parseRelation(text, NAMES, { file: 'bench.yaml', line: 9 });
  if (result.ok) throw new Error(`accepted: ${result.value.map(relationText).join()}`);
  expect(result.problems).toHaveLength(1);
  const [p] = result.problems;
  expect(p).toMatchObject({ code: 'rule', severity: 'error', where: { file: 'bench.yaml', line: 9 } });
  return `${p!.found} | ${p!.expected} | ${p!.fix}`;
}

describe('limits as growers write them', () => {
  it.each([
    ['NH4 <= 0.1 * N', ['NH4 <= 0.1 * N']],
    ['NH4 ≤ 0.1·N', ['NH4 <= 0.1 * N']],
    ['NH4 <= 10% * N', ['NH4 <= 0.1 * N']],
    ['NH4 <= 0 * N', ['NH4 <= 0']],
    ['NH4 = 0', ['NH4 == 0']],
    ['NO3 = N', ['NO3 == N']],
    ['NO3 == N', ['NO3 == N']],
    ['EC <= 0.8', ['EC <= 0.8']],
    ['Ca >= 3Mg', ['Ca >= 3 * Mg']],
    ['Ca >= 2*Mg + 10', ['Ca >= 2 * Mg + 10']],
    ['Ca/Mg >= 3', ['Ca >= 3 * Mg']],
    ['3 <= Ca/Mg', ['3 * Mg <= Ca']],
    ['2 <= Ca/Mg <= 5', ['2 * Mg <= Ca', 'Ca <= 5 * Mg']],
    ['(NH4 + urea)/N <= 0.4', ['NH4 + urea <= 0.4 * N']],
    ['Ca/Mg - 3 >= 0', ['Ca >= 3 * Mg']],
    ['2*(Ca - Mg)/4 >= K', ['0.5 * Ca >= 0.5 * Mg + K']],
    ['-N >= -5', ['5 >= N']],
    ['N => 3', ['N >= 3']],
    ['1/2 N <= K', ['0.5 * N <= K']],
  ])('%s', (text, expected) => {
    expect(read(text)).toEqual(expected);
  });

  it.each([
    ['NH4 < 0.1 * N', 'NH4 <= 0.1 * N', 'Read < as <=: a limit includes its bound.'],
    ['Ca > 3 * Mg', 'Ca >= 3 * Mg', 'Read > as >=: a limit includes its bound.'],
    ['NH4 <= 0,1 * N', 'NH4 <= 0.1 * N', 'Read as 0.1.'],
  ])('%s is read, and how is told', (text, relation, fix) => {
    const result = parseRelation(text, NAMES, { line: 9 });
    expect(read(text)).toEqual([relation]);
    expect(result.ok && result.warnings).toMatchObject([{ severity: 'warning', where: { line: 9 }, fix }]);
  });

  it('tells of each strict sign of a chain once', () => {
    const fixes = (text: string): string[] => {
      const result = parseRelation(text, NAMES);
      return result.ok ? result.warnings.map((p) => p.fix) : ['refused'];
    };
    expect(read('2 < Ca/Mg < 5')).toEqual(['2 * Mg <= Ca', 'Ca <= 5 * Mg']);
    expect(fixes('2 < Ca/Mg < 5')).toEqual(['Read < as <=: a limit includes its bound.']);
    expect(fixes('NH4 <= 0.1 * N')).toEqual([]);
  });
});

describe('limits that are refused, each with a way out', () => {
  it.each([
    ['N * K <= 3', /not linear/],
    ['N^2 <= 4', /not linear/],
    ['N^1 <= 4', /not linear/],
    ['Ca/Mg >= N', /ratio times an amount/],
    ['Ca/Mg >= K/N', /Two ratios/],
    ['Ca/Mg + K/N >= 3', /Two ratios/],
    ['Ca/Mg/K >= 2', /ratio of ratios/],
    ['Ca/(Mg - K) >= 2', /plus signs/],
    ['N/0 >= 2', /divided by 0/],
    ['sin(N) <= 1', /Functions/],
    ['import("x") <= 1', /plain maths/],
    ['[N] <= 1', /plain maths/],
    ['N.x <= 3', /Functions/],
    ['N[1] <= 3', /plain maths/],
    ['Ca:Mg >= 3', /Functions/],
    ['f(x) = x', /Functions/],
    ['N', /comparison/],
    ['', /empty rule/],
    ['N != 3', /<=, >= or =/],
    ['N <= 5; P <= 3', /One rule a line/],
    ['N <= 5\nP <= 3', /line break.*One rule a line/],
    ['N <= 3 and P <= 3', /comparison/],
    ['1 <= 2', /cancel out/],
    ['N <= N', /cancel out/],
    ['N <= 1e400', /a number 0, or from/],
    ['N <= 1e300 * 1e300', /a number 0, or from/],
    ['N <= Infinity', /a number 0, or from/],
    ['NH4 <= 10 %', /0.1 \* N is 10 % of all nitrogen/],
    ['NH4 <= 10 percent', /share/],
    ['1e-300 * N <= 1', /a number 0, or from/],
    ['NO3-N >= 0.75 * N', /write NO3.*subtract/],
    ['N <= 1,234', /one way only/],
    ['N <= 1,2,3', /one way only/],
    ['N <= 5 mg/L', /Leave the unit out/],
    ['no3 <= 3', /Did you mean NO3/],
    ['Zn <= 3', /name that rules know/],
    ['__proto__ <= 3', /name that rules know/],
    ['constructor <= 3', /name that rules know/],
    ['N <= (3', /plain maths/],
    ['N <= ) 3', /character 6/],
    [`N <= ${'('.repeat(400)}3`, /at most 400/],
  ])('%s', (text, reason) => {
    expect(refusal(text)).toMatch(reason);
  });
});

describe('laws', () => {
  const term = fc.tuple(fc.constantFrom(...NAMES), fc.double({ min: 0.001, max: 1000, noNaN: true }));
  const side = fc.array(term, { minLength: 1, maxLength: 4 });
  const written = (terms: [string, number][]): string => terms.map(([name, w]) => `${w} * ${name}`).join(' + ');

  it('holds for the same amounts as the text does', () => {
    fc.assert(
      fc.property(
        side,
        side,
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 12, maxLength: 12 }),
        (left, right, at) => {
          const value = (terms: [string, number][]): number =>
            terms.reduce((s, [n, w]) => s + w * at[NAMES.indexOf(n)]!, 0);
          const result = parseRelation(`${written(left)} <= ${written(right)} + 7`, NAMES);
          fc.pre(result.ok);
          const [relation] = result.ok ? result.value : [];
          const own = [...relation!.terms].reduce((s, [n, w]) => s + w * at[NAMES.indexOf(n)]!, 0) - relation!.constant;
          // Rounding of sums of up to eight products of size 1e5.
          expect(Math.abs(own - (value(left) - value(right) - 7))).toBeLessThan(1e-8);
        },
      ),
    );
  });

  it('what rounding leaves of a name on both sides is nothing', () => {
    expect(read('0.1 * N + 0.2 * N + K >= 0.3 * N + P')).toEqual(['K >= P']);
    expect(read('0.001 * Mg + 0.0010000000000000035 * Ca >= 0.001000000000000001 * Ca')).toEqual(['0.001 * Mg >= 0']);
    expect(read('N + 0.1 + 0.2 >= 0.3 + K')).toEqual(['N >= K']);
  });

  it('reads its own text back to the same limit', () => {
    fc.assert(
      fc.property(side, side, (left, right) => {
        const first = parseRelation(`${written(left)} >= ${written(right)}`, NAMES);
        fc.pre(first.ok);
        const relation = first.ok ? first.value[0]! : undefined;
        expect(read(relationText(relation!))).toEqual([relationText(relation!)]);
      }),
    );
  });

  it('never throws on any text', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => void expect(() => parseRelation(text, NAMES)).not.toThrow()),
    );
  });
});
