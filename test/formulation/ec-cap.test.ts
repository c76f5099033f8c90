import type { MilliSiemensPerCm } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { amountsOf } from '../../src/formulation/amounts.js';
import { closeShelf } from '../../src/label/close.js';
import { conductivity } from '../../src/chemistry/conductivity.js';
import { conductingIons, ionsOfMix } from '../../src/can/ec.js';
import { leastEc, MOST_ROUNDS, underEcCap } from '../../src/formulation/ec-cap.js';
import { ecCap, type FeedRequest, withEcCap, withoutEcCap } from '../../src/feed/request.js';
import { solveFeed } from '../../src/formulation/solve-feed.js';
import type { Amounts } from '../../src/can/mix-amounts.js';
import { unwrap } from '../../src/problem.js';
import { atStrength, resolveProgramme } from '../../src/programme/index.js';
import { solve } from '../../solver/index.js';
import { dice } from '../solver/dice.js';
import { request } from '../feed/fixtures.js';
import { seeds } from '../seeds.js';

const BENCHES = seeds(50, 100);
const catalog = shippedCatalog();
const salts = catalog.salts.filter((s) => !['acid', 'alkali', 'silicate'].includes(s.kind ?? ''));
const everything = [...salts, ...catalog.products];

/** A feed of the catalog on a random shelf and water; the EC cap lies between the least EC possible and that of the cheapest feed. */
async function randomBench(seed: number): Promise<FeedRequest | null> {
  const roll = dice(seed);
  const plants = roll.pick(catalog.plants.filter((p) => p.id !== 'carnivorous'));
  const full = unwrap(resolveProgramme(catalog, plants.id, roll.pick(plants.media), 'growth'));
  const { programme } = unwrap(atStrength(full, { kind: 'percent', percent: roll.between(40, 100) }));
  const shelf = await closeShelf(everything.filter(() => roll.chance(0.6)));
  const base = withoutEcCap({ ...request(shelf, {}), programme, waters: [roll.pick(catalog.waters)] });
  const free = await solveFeed(base);
  if (free.answer !== 'found') return null;
  const cheapest = fullEc(base, free.amounts);
  // asked with a cap, so that there is an EC row to go by
  const least = await leastEc(withEcCap(base, cheapest));
  return withEcCap(base, least!.ec + roll.between(0.05, 0.95) * (cheapest - least!.ec));
}

function fullEc({ shelf, waters }: FeedRequest, amounts: Amounts): MilliSiemensPerCm {
  return conductivity(ionsOfMix(amounts, shelf, waters, 'value', conductingIons));
}

describe('an EC cap is kept by the full model', () => {
  it(`on ${BENCHES} random benches, hard tap water among them, within six rounds, never dearer from round to round`, async () => {
    let pressed = 0;
    const waters = new Set<string>();
    for (let seed = 1, benches = 0; benches < BENCHES; seed += 1) {
      const bench = await randomBench(seed);
      if (!bench) continue;
      benches += 1;
      const answer = await solveFeed(bench);
      if (answer.answer !== 'found') throw new Error(`bench ${seed}: ${answer.answer}`);
      expect(answer.proof.verdict, `bench ${seed}`).toBe('optimal');
      // 1e-6 is what the certificate grants a row
      expect(fullEc(bench, answer.amounts), `bench ${seed}`).toBeLessThanOrEqual(ecCap(bench)! * (1 + 1e-6));
      const { settled } = answer.proof;
      const standing = settled.question === 'feed' ? settled.ec : null;
      expect(standing?.round ?? 1).toBeLessThanOrEqual(MOST_ROUNDS);
      if (standing) pressed += 1;
      if (standing) waters.add(bench.waters[0]!.id);

      const costs: number[] = [];
      await underEcCap(
        bench,
        async (formulated) => {
          const answer = await solve(formulated.program);
          if (
            answer.verdict === 'optimal' &&
            fullEc(bench, amountsOf(answer, formulated)) <= ecCap(bench)! * (1 + 1e-6)
          ) {
            costs.push(answer.objective);
          }
          return { verdict: answer, formulated };
        },
        ({ verdict: v, formulated }) => (v.verdict === 'optimal' ? amountsOf(v, formulated) : null),
      );
      // 1e-6: the gap that a certificate leaves
      for (let i = 1; i < costs.length; i += 1) expect(costs[i]!).toBeLessThanOrEqual(costs[i - 1]! * (1 + 2e-6));
    }
    expect(pressed).toBeGreaterThanOrEqual(0.6 * BENCHES);
    expect(waters.size).toBeGreaterThanOrEqual(3);
  });
});
