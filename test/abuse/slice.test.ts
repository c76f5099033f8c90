import { expect, it } from 'vitest';
import { examine, type Finding } from './examine.js';

/** `npm run abuse` goes on from there. */
const CASES = 240;

it(`${CASES} slips in files and words end in an answer or a refusal`, async () => {
  const findings: Finding[] = [];
  for (let seed = 1; seed <= CASES; seed += 1) findings.push(await examine(seed));
  const bad = findings.filter(({ faults }) => faults.length > 0);
  expect(bad.map(({ seed, argv, faults }) => `#${seed} ${argv.join(' ').slice(0, 80)}: ${faults.join('; ')}`)).toEqual(
    [],
  );
  // the cases must not quietly stop reaching the answers
  expect(findings.filter(({ exit }) => exit === 0).length).toBeGreaterThan(CASES / 12);
  expect(findings.filter(({ exit }) => exit === 2).length).toBeGreaterThan(CASES / 4);
});
