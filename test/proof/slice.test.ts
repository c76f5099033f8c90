import { describe, expect, it } from 'vitest';
import { examine, type Finding } from './examine.js';
import { families } from './families/index.js';
import { MOST_UNCERTIFIED, missed, tally, trouble } from './tally.js';

/** The first of each family; `npm run proof` goes on from there. */
const EACH = 6;

describe(`${families.length * EACH} hard programs, judged by an exact rational simplex`, () => {
  const findings: Finding[] = [];

  it.each(families)('$name: nothing wrong', async (family) => {
    const own: Finding[] = [];
    for (let number = 1; number <= EACH; number += 1) own.push(await examine(family, number));
    findings.push(...own);
    expect(own.flatMap(({ number, fault }) => (fault === undefined ? [] : [`#${number}: ${fault}`]))).toEqual([]);
  });

  it(`at most ${100 * MOST_UNCERTIFIED} % uncertified, none too slow, both engines heard`, () => {
    const result = tally(findings);
    expect(result.programs).toBeGreaterThanOrEqual(400);
    expect(missed(result), trouble(findings).join('\n')).toEqual([]);
    expect(result.engines['javascript-lp-solver']).toBeGreaterThan(100);
    expect(result.engines.highs).toBeGreaterThan(20);
    // the families must not quietly stop making what they are there to make
    expect(Math.min(result.infeasible, result.unbounded)).toBeGreaterThan(10);
    expect(result.withoutExact).toBeLessThan(result.programs / 50);
  });
});
