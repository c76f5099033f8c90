import type { Verdict } from '../../solver/index.js';
import type { Stage } from './closest.js';
import type { Proof } from '../feed/results.js';
import { formatDigits } from '../units/index.js';

/** Turns a verdict into the proof block of a report. `unit` is money per litre, or grams per litre. */
export function proofOf(verdict: Verdict, noun: 'cheaper' | 'lighter' | 'closer', unit: string): Proof {
  if (verdict.verdict === 'optimal') {
    const found = plain(verdict.objective);
    return {
      engine: verdict.engine,
      verdict: 'optimal',
      found: verdict.objective,
      bound: verdict.bound,
      gap: verdict.gap,
      violation: verdict.violation,
      sentence: `no ${noun} mix exists within these limits: bound ${plain(verdict.bound)}, found ${found} ${unit}`,
    };
  }
  if (verdict.verdict === 'infeasible') {
    return {
      engine: verdict.engine,
      verdict: 'infeasible',
      found: null,
      bound: null,
      gap: null,
      violation: null,
      sentence:
        'no mix keeps all these limits: a weighted sum of them contradicts itself (checked on the labels’ own figures)',
    };
  }
  if (verdict.verdict === 'unbounded')
    throw new Error('modelling fault: cost falls for ever; no feed has a negative price');
  return {
    engine: 'none',
    verdict: 'uncertified',
    found: null,
    bound: null,
    gap: null,
    violation: null,
    sentence: `not proved: ${verdict.why}`,
  };
}

/** The proof of a staged search: every stage, and one line for the last. */
export function stagedProof(stages: readonly Stage[], unit: string): Proof {
  const last = stages.at(-1)!.verdict;
  const worst = stages[0]!.verdict;
  return {
    ...proofOf(last, 'closer', unit),
    sentence:
      `no closer mix exists within these limits: largest miss ${percent(worst.objective)} (bound ${percent(worst.bound)}); ` +
      `of those as close, none is cheaper: bound ${plain(last.bound)}, found ${plain(last.objective)} ${unit}`,
    stages: stages.map(({ goal, verdict }) => ({
      goal,
      found: verdict.objective,
      bound: verdict.bound,
      gap: verdict.gap,
      violation: verdict.violation,
      engine: verdict.engine,
    })),
  };
}

const plain = (x: number): string => formatDigits(x, 3);

function percent(share: number): string {
  return `${plain(100 * Math.max(0, share))} %`;
}
