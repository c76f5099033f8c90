import { mgPerLitre } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/problem.js';
import { atStrength, parseRules, resolveProgramme } from '../../src/programme/index.js';
import type { ProgrammeTables } from '../../src/programme/tables.js';
import type { LinearRule, Rule } from '../../src/programme/rule.js';

const band = (min: number, aim: number, max: number) => ({
  min: mgPerLitre(min),
  aim: mgPerLitre(aim),
  max: mgPerLitre(max),
});
const sourced = { refs: ['memory'], source: 'test', evidence: 'invented', notes: '' };
const tables: ProgrammeTables = {
  plants: [
    { id: 'fern', name: 'fern', synonyms: [], media: ['peat', 'sphagnum'], ...sourced },
    { id: 'vanda', name: 'vanda', synonyms: [], media: ['mounted'], ...sourced },
  ],
  bands: [
    { plants: '*', nutrient: 'N', ...band(50, 100, 150), ...sourced },
    { plants: 'fern', nutrient: 'N', ...band(40, 80, 120), ...sourced },
    { plants: '*', nutrient: 'Ca', min: mgPerLitre(20), ...sourced },
  ],
  factors: [
    { plants: '*', medium: '*', phase: 'rest', nutrient: '*', factor: 0.5, ...sourced },
    { plants: '*', medium: 'peat', phase: '*', nutrient: 'N', factor: 1.5, ...sourced },
  ],
  rules: [
    { plants: '*', medium: '*', phase: '*', rule: 'NH4 <= 0.5 * N', ...sourced },
    { plants: '*', medium: 'sphagnum', phase: '*', rule: 'NH4 <= 0.25 * N', ...sourced },
    { plants: 'fern', medium: '*', phase: '*', rule: 'EC <= 0.9', ...sourced },
    { plants: '*', medium: '*', phase: '*', rule: 'EC <= 1.4', ...sourced },
    { plants: 'vanda', medium: '*', phase: '*', rule: 'Na <= 50', ...sourced },
  ],
};

describe('resolveProgramme', () => {
  it('takes the group’s own band, or the default, times every matching factor', () => {
    const read = resolveProgramme(tables, 'fern', 'peat', 'rest');
    if (!read.ok) throw new Error('refused');
    expect(read.value.bands.N).toEqual({ min: 30, aim: 60, max: 90 });
    expect(read.value.bands.Ca).toEqual({ min: 10 });
  });

  it('keeps the tightest of rules over the same terms, and the lowest EC cap', () => {
    const read = resolveProgramme(tables, 'fern', 'sphagnum', 'growth');
    if (!read.ok) throw new Error('refused');
    expect(read.value.rules.map((r) => r.text)).toEqual(['NH4 <= 0.25 * N', 'EC <= 0.9']);
    expect(read.value.evidence.some(({ of }) => of.kind === 'rule' && of.text === 'NH4 <= 0.25 * N')).toBe(true);
  });

  it('refuses an unknown group with the nearest names, and a medium that makes no sense', () => {
    const unknown = resolveProgramme(tables, 'fren', 'peat', 'growth');
    expect(unknown.ok ? [] : unknown.problems.map((p) => p.fix)).toEqual(['Did you mean fern?']);
    const medium = resolveProgramme(tables, 'vanda', 'peat', 'growth');
    expect(medium.ok ? [] : medium.problems.map((p) => p.fix)).toEqual(['There are programmes for vanda in mounted.']);
  });
});

describe('atStrength', () => {
  it('scales bands by a share, or so that the nitrogen aim is met, and leaves rules alone', () => {
    const read = resolveProgramme(tables, 'fern', 'sphagnum', 'growth');
    if (!read.ok) throw new Error('refused');
    const share = atStrength(read.value, { kind: 'percent', percent: 50 });
    expect(share.ok && share.value.programme.bands.Ca).toEqual({ min: 10 });
    expect(share.ok && share.value.programme.bands.N).toEqual({ min: 20, aim: 40, max: 60 });
    const nitrogen = atStrength(read.value, { kind: 'nitrogen', mgPerLitre: mgPerLitre(60) });
    expect(nitrogen.ok && nitrogen.value.factor).toBe(0.75);
    expect(nitrogen.ok && nitrogen.value.programme.bands.N?.aim).toBe(60);
    expect(nitrogen.ok && nitrogen.value.programme.rules).toEqual(read.value.rules);
  });
});

const linear = (rules: readonly Rule[]): LinearRule[] => rules.filter((rule) => rule.kind === 'linear');

describe('parseRules', () => {
  it('turns plain maths into linear rules', () => {
    const read = parseRules(['NH4 <= 0 * N', 'Ca >= 3 * Mg', 'Na <= 50', 'NO3 + NH4 >= 0.8 N', 'Ca/Mg >= 3'], {
      owner: 'you',
    });
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(linear(read.value).map(({ terms, lower, upper }) => ({ terms, lower, upper }))).toEqual([
      { terms: { 'NH4-N': 1 }, lower: undefined, upper: 0 },
      { terms: { Ca: 1, Mg: -3 }, lower: 0, upper: undefined },
      { terms: { Na: 1 }, lower: undefined, upper: 50 },
      { terms: { 'NO3-N': 1, 'NH4-N': 1, N: -0.8 }, lower: 0, upper: undefined },
      { terms: { Ca: 1, Mg: -3 }, lower: 0, upper: undefined },
    ]);
  });

  it('takes EC only as a cap', () => {
    const read = parseRules(['EC <= 0.8', '1.2 >= 2 * EC'], { owner: 'you' });
    // in the one list of rules, so that nobody can leave it behind
    expect(read.ok && read.value.map(({ kind, upper }) => [kind, upper])).toEqual([
      ['ec', 0.8],
      ['ec', 0.6],
    ]);
    for (const text of ['EC >= 0.2', 'EC <= 0.01 * N', 'EC = 0.5', 'EC <= 0']) {
      const refused = parseRules([text], { owner: 'you' });
      expect(refused.ok ? [] : refused.problems.map((p) => p.code), text).toEqual(['rule-ec']);
    }
  });

  it('keeps a strict limit with its bound, and says so', () => {
    const read = parseRules(
      ['NH4 < 0.1 * N', 'Ca > 40', 'Na <= 50'],
      { owner: 'you' },
      { file: 'bench.yaml', line: 3 },
    );
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(linear(read.value).map(({ text, lower, upper }) => ({ text, lower, upper }))).toEqual([
      { text: 'NH4 < 0.1 * N', lower: undefined, upper: 0 },
      { text: 'Ca > 40', lower: 40, upper: undefined },
      { text: 'Na <= 50', lower: undefined, upper: 50 },
    ]);
    expect(read.warnings.map(problemLine)).toEqual([
      'bench.yaml:3: found "NH4 < 0.1 * N"; expected <= or >=. Read < as <=: a limit includes its bound.',
      'bench.yaml:3: found "Ca > 40"; expected <= or >=. Read > as >=: a limit includes its bound.',
    ]);
  });

  it('tells every problem of every rule at once', () => {
    const read = parseRules(['N * K <= 3', 'Kalium <= 3', 'Ca'], { owner: 'you' });
    expect(read.ok ? 0 : read.problems.length).toBe(3);
  });
});
