import { describe, expect, it } from 'vitest';
import { type DoseProof, PenProof, SearchProof } from '../../src/dose/proof.js';
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

  it('of what it was held to, where that was more than the limits', () => {
    expect(doseProofSays(search.ofPlan())).toMatch(
      /^among doses held as near the aims as the plan, and to its limits as far as they were moved in: no doses that keep every limit/,
    );
  });

  it('only of a proof that the search made: types and the frozen object refuse others', () => {
    const cut = SearchProof.of({ ...choice, by: 'best found' }, open);
    const { within, items, measures, combinations } = cut;
    // @ts-expect-error figures written down are no proof
    const written: DoseProof = { ...choice, within, items, measures, combinations };
    // @ts-expect-error nor is a copy
    const copied: DoseProof = { ...cut, by: 'all' };
    // @ts-expect-error nor that of a plan by the pen
    const pen: DoseProof = { by: 'the pen' };
    for (const forged of [written, copied]) expect(forged).not.toBeInstanceOf(SearchProof);
    expect(pen).not.toBeInstanceOf(PenProof);
    expect(() => {
      // @ts-expect-error what it rests on is read only
      cut.by = 'all';
    }).toThrow(TypeError);
    expect(cut.by).toBe('best found');
  });
});
