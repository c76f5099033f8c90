import { mgPerLitre } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import type { NotSureEnough } from '../../src/chance/robust-types.js';
import type { Sureness } from '../../src/chance/sure.js';
import type { ElementLine } from '../../src/feed/results.js';
import { surenessLines } from '../../src/report/says/sureness.js';
import { planOf } from '../chance/plans.js';
import { request } from '../feed/fixtures.js';
import type { LinearRule } from '../../src/programme/rule.js';
import { bandEnd } from './fixtures.js';

const mg = mgPerLitre;
const n: ElementLine = {
  element: 'N',
  mgPerLitre: mg(100),
  low: mg(100),
  high: mg(100),
  min: mg(90),
  aim: mg(100),
  max: mg(110),
};
const rule: LinearRule = {
  kind: 'linear',
  text: 'NH4 <= 0.1 * N',
  terms: { 'NH4-N': 1, N: -0.1 },
  upper: 0,
  from: { owner: 'you' },
};
const sure: Sureness = {
  share: 0.9399,
  elements: [
    { element: 'N', low: 91.04, high: 109.2 },
    { element: 'Na', low: 1, high: 2 },
  ],
  ec: { low: 0.9, high: 1.1 },
  risks: [
    { limit: bandEnd('N', 'least', 90), share: 0.04 },
    { limit: { kind: 'rule', rule, end: 'most', bound: 0, owner: 'you' }, share: 0.02 },
    { limit: bandEnd('N', 'most', 110), share: 0.004 },
  ],
  sources: [{ source: 'scale', shareWithout: 0.98 }],
  batches: 4000,
  seed: 1,
};

describe('how sure, on a sheet', () => {
  it('share rounded down, risks that matter, intervals of what has a band', () => {
    expect(surenessLines(sure, [n])).toEqual([
      'About 93 of 100 batches keep every limit, as hands, jars and water vary.',
      'Most at risk: N too low (4 of 100), NH4 <= 0.1 * N (2 of 100).',
      'Nine of ten cans hold, in mg/L: N 91 to 109.',
    ]);
  });

  it('below nine of ten it names the source, if one tells, and the way to surer doses', () => {
    const lines = surenessLines({ ...sure, share: 0.5 }, [n]);
    expect(lines[0]).toMatch(/^About 50 of 100 .* Ask for surer doses with --sure 90%\.$/);
    expect(lines).toContain('Most of it comes from the error of the scale: without that, 98 of 100 would hold.');
  });

  it('a wish is answered first, and its blame is not said twice', () => {
    const half = { ...sure, share: 0.5 };
    const wish: NotSureEnough = {
      status: 'short',
      plan: planOf(request([], {}), []),
      wanted: 0.9,
      share: 0.5,
      sureness: half,
      tightened: 1,
      plain: { costPerLitre: 0, largestDeviation: 0 },
      extraCostPerLitre: null,
      extraDeviation: 0,
      blame: { source: 'scale', shareWithout: 0.98 },
      remedies: [{ kind: 'batch', litres: 8, share: 0.7 }],
    };
    const lines = surenessLines(half, [n], wish);
    expect(lines[0]).toBe(
      'No doses found keep every limit in 90 of 100 batches; the surest keep them in 50. Most to blame is the error of the scale: without it, 98. It would help to take a batch of 8 L (70 of 100).',
    );
    expect(lines.join(' ')).not.toMatch(/comes from|--sure/);
  });

  it('certainty and hopelessness', () => {
    const none = { ...sure, risks: [], sources: [], elements: [] };
    expect(surenessLines({ ...none, share: 1 }, [])).toEqual([
      'All of 100 batches keep every limit, as hands, jars and water vary.',
    ]);
    expect(surenessLines({ ...none, share: 0 }, [])[0]).toMatch(/^None of 100/);
    expect(surenessLines({ ...none, share: 0.001 }, [])[0]).toMatch(/^Less than 1 of 100/);
  });
});
