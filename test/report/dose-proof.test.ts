import { describe, expect, it } from 'vitest';
import { type DoseProof, SearchProof, SurestProof } from '../../src/dose/proof.js';
import { doseProofSays } from '../../src/report/says/dose-proof.js';

/** Two items with fifteen measures each. */
const open = [{ measures: Array.from({ length: 15 }) }, { measures: Array.from({ length: 15 }) }];
const choice = { by: 'all', kept: 'limits', violation: 0, deviation: 0.06 } as const;
const search = SearchProof.of(choice, open);

describe('what is said of the search for doses', () => {
  it('that nothing is closer, where it ended', () => {
    expect(doseProofSays(search)).toBe(
      'no doses that keep every limit are closer to the blend (3 % off on average): every combination of 30 measures in 225 combinations was tried, or passed over because it breaks a limit or is farther from the blend',
    );
  });

  it.each([
    { kept: 'limits', violation: 0 },
    { kept: 'limits', violation: 0.1 },
    { kept: 'what the blend keeps', violation: 0.005 },
    { kept: 'what the blend keeps', violation: 0.1 },
    { kept: 'less than the blend', violation: 0.1 },
  ] as const)('never that there are no others, where it did not end: $kept, $violation', ({ kept, violation }) => {
    const proved = doseProofSays(SearchProof.of({ ...choice, kept, violation }, open));
    const found = doseProofSays(SearchProof.of({ ...choice, by: 'best found', kept, violation }, open));
    expect(proved).toMatch(/^no doses/);
    expect(found).not.toMatch(/no doses|least|every combination/);
    expect(found).toMatch(/the search did not end, so better ones may exist$/);
  });

  it('which limits it speaks of, where they were tightened, and nothing where none was made', () => {
    expect(doseProofSays(search.tightenedBy(1.25))).toMatch(
      /^the doses follow the blend for limits tightened by 1.25 of their standard deviations: there, no doses/,
    );
    expect(doseProofSays(SurestProof.of().tightenedBy(1.25))).toBe(
      'the doses follow the blend for limits tightened by 1.25 of their standard deviations, each by the measure of least expected error',
    );
  });

  it('only of a proof that the search made: types and the frozen object refuse others', () => {
    const cut = SearchProof.of({ ...choice, by: 'best found' }, open);
    const { tightened, items, measures, combinations } = cut;
    // @ts-expect-error figures written down are no proof
    const written: DoseProof = { ...choice, tightened, items, measures, combinations };
    // @ts-expect-error nor is a copy
    const copied: DoseProof = { ...cut, by: 'all' };
    // @ts-expect-error nor that of a plan where nothing was searched
    const surest: DoseProof = { by: 'each by itself', tightened: 0 };
    for (const forged of [written, copied]) expect(forged).not.toBeInstanceOf(SearchProof);
    expect(surest).not.toBeInstanceOf(SurestProof);
    expect(() => {
      // @ts-expect-error what it rests on is read only
      cut.by = 'all';
    }).toThrow(TypeError);
    expect(cut.by).toBe('best found');
  });
});
