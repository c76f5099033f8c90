import { describe, expect, it } from 'vitest';
import type { SearchProof } from '../../src/dose/proof.js';
import { doseProofSays } from '../../src/report/says/dose-proof.js';

const search: SearchProof = {
  by: 'all',
  tightened: 0,
  kept: 'limits',
  violation: 0,
  items: 2,
  measures: 30,
  combinations: 225,
  deviation: 0.06,
};

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
    const proved = doseProofSays({ ...search, kept, violation });
    const found = doseProofSays({ ...search, by: 'best found', kept, violation });
    expect(proved).toMatch(/^no doses/);
    expect(found).not.toMatch(/no doses|least|every combination/);
    expect(found).toMatch(/the search did not end, so better ones may exist$/);
  });

  it('which limits it speaks of, where they were tightened, and nothing where none was made', () => {
    expect(doseProofSays({ ...search, tightened: 1.25 })).toMatch(
      /^the doses follow the blend for limits tightened by 1.25 of their standard deviations: there, no doses/,
    );
    expect(doseProofSays({ by: 'each by itself', tightened: 1.25 })).toBe(
      'the doses follow the blend for limits tightened by 1.25 of their standard deviations, each by the measure of least expected error',
    );
  });
});
