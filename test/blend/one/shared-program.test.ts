import { describe, expect, it } from 'vitest';
import {
  cheapestShared,
  dilutedAmounts,
  type keepsEc,
  type Sharing,
  sharedRequest,
} from '../../../src/blend/one/shared-request.js';
import { partsFor } from '../../../src/blend/one/parts.js';
import { ecCap, withoutEcCap } from '../../../src/feed/request.js';
import { fullEc } from '../../../src/formulation/index.js';
import { plainHighs } from '../../proof/plain-highs.js';
import { dice } from '../../solver/dice.js';
import { jointProgram, sharedBench } from './shared-benches.js';

const BENCHES = 60;

/** So many benches of two to four feeds. */
async function benches(count: number, from: Parameters<typeof sharedBench>[1], first: number): Promise<Sharing[][]> {
  const found: Sharing[][] = [];
  for (let seed = first; found.length < count; seed += 1) {
    const group = await sharedBench(seed, from);
    if (group.length > 1) found.push(group);
  }
  return found;
}

describe('one mix for several feeds', () => {
  it(`is what HiGHS finds on a program put together by itself, on ${BENCHES} benches`, async () => {
    const said = { optimal: 0, infeasible: 0 };
    for (const group of await benches(BENCHES, withoutEcCap, 1)) {
      for (const stretch of [1.15, 4]) {
        const { answer } = await cheapestShared(sharedRequest(group, stretch));
        const judge = await plainHighs(jointProgram(group, stretch));
        if (judge.verdict === 'optimal') {
          expect(answer.answer).toBe('found');
          // as near as either solver promises
          if (answer.answer === 'found')
            expect(Math.abs(answer.optimal.objective - judge.objective)).toBeLessThan(
              2e-6 * Math.max(1, judge.objective),
            );
          said.optimal += 1;
        } else {
          expect(judge.verdict).toBe('infeasible');
          expect(answer.answer).toBe('none');
          said.infeasible += 1;
        }
      }
    }
    // both answers were really put to the test
    expect(said.optimal).toBeGreaterThan(20);
    expect(said.infeasible).toBeGreaterThan(20);
  });

  it('keeps the EC cap of every feed by the full model, and where it finds none no mix drawn at random does', async () => {
    let found = 0;
    for (const group of await benches(40, (request) => request, 1001)) {
      const request = sharedRequest(group, 2);
      const { answer } = await cheapestShared(request);
      const keepsAll = (amounts: Parameters<typeof keepsEc>[0]): boolean =>
        group.every(({ request: own, parts }) => {
          const cap = ecCap(own);
          return cap === null || fullEc(dilutedAmounts(amounts, parts.share), own) <= cap * (1 + 1e-6);
        });
      if (answer.answer === 'found') {
        expect(keepsAll(answer.amounts)).toBe(true);
        found += 1;
        continue;
      }
      const program = jointProgram(group, 2);
      const d = dice(group.length);
      for (let tried = 0; tried < 12; tried += 1) {
        const costs = program.columns.map((column) => ({ ...column, cost: d.between(0, 1) }));
        const drawn = await plainHighs({ ...program, columns: costs });
        if (drawn.verdict !== 'optimal') break;
        const { shelf, waters } = group[0]!.request;
        const amounts = {
          products: drawn.x!.slice(0, shelf.length),
          waters: drawn.x!.slice(shelf.length, shelf.length + waters.length),
        };
        expect(keepsAll(amounts)).toBe(false);
      }
    }
    expect(found).toBeGreaterThan(10);
  });
});

describe('parts', () => {
  it('are whole, few and near', () => {
    expect(partsFor(1)).toMatchObject({ mix: 1, water: 0 });
    expect(partsFor(0.5)).toMatchObject({ mix: 1, water: 1 });
    expect(partsFor(0.25)).toMatchObject({ mix: 1, water: 3 });
    expect(partsFor(0.667)).toMatchObject({ mix: 2, water: 1 });
    expect(partsFor(0.02)).toMatchObject({ mix: 1, water: 49 });
    // a feed as weak as its water: no dilution reaches it, and none is sought for ever
    expect(partsFor(1e-12)).toMatchObject({ mix: 1, water: 99 });
    const d = dice(7);
    for (let tried = 0; tried < 500; tried += 1) {
      const share = d.between(0.02, 1);
      const { mix, water, off } = partsFor(share);
      expect(mix / (mix + water) / share - 1).toBeCloseTo(off, 9);
      // the widest gap between two such parts is the one from 2 in 9 to 1 in 4, whose middle is a 17th off both
      expect(Math.abs(off)).toBeLessThanOrEqual(1 / 17 + 1e-9);
    }
  });
});
