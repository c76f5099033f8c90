import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/solution/index.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import type { Part } from '../../src/can/part.js';
import { sequenceOf, WHILE_MIXING } from '../../src/can/sequence.js';
import { ionSourceOf, ionSourceOfWater } from '../../src/can/ion-sources.js';
import { closeShelf } from '../../src/label/close.js';
import { cloudingOf, type Verdict } from '../../src/can/clouding.js';
import { pure } from '../feed/fixtures.js';

const catalog = shippedCatalog();
const shelf = await closeShelf([...catalog.products, ...catalog.salts.filter((p) => p.kind !== 'acid')]);
const named = (id: string) => shelf.find((p) => p.id === id)!;
const RANK: Record<Verdict, number> = { clear: 0, borderline: 1, 'will cloud': 2 };

/** The worst that some of the parts do, mineral by mineral, beyond what the water does by itself; by the chemistry and nothing of the sequence. */
function worstOf(parts: readonly Part[], waters: Parameters<typeof sequenceOf>[1], full: number): Verdict {
  const water = waters.map(({ water: w, share }) => ionSourceOfWater(w, share));
  const alone = cloudingOf(water, solutionChemistry).minerals;
  const added = parts.map(({ product, perLitre }) => ionSourceOf(product, perLitre / full));
  return cloudingOf([...water, ...added], solutionChemistry)
    .minerals.filter(({ verdict }, m) => RANK[verdict] > RANK[alone[m]!.verdict])
    .reduce<Verdict>((most, { verdict }) => (RANK[verdict] > RANK[most] ? verdict : most), 'clear');
}

describe('the order of mixing', () => {
  const parts = fc
    .uniqueArray(fc.nat(shelf.length - 1), { minLength: 1, maxLength: 6 })
    .chain((indices) =>
      fc.tuple(...indices.map((i) => fc.double({ min: 0.02, max: 1.2, noNaN: true }).map((x) => ({ i, x })))),
    )
    .map((all) => all.map(({ i, x }): Part => ({ product: shelf[i]!, perLitre: x })));
  const waters = fc.constantFrom(...catalog.waters, pure).map((water) => [{ water, share: 1 }]);

  it('never clouds on the way where the finished can does not, and says so where that cannot be', () => {
    let careful = 0;
    fc.assert(
      fc.property(parts, waters, (some, water) => {
        const { turns, avoiding } = sequenceOf(some, water);
        expect(new Set(turns.map((t) => t.product))).toEqual(new Set(some.map((p) => p.product)));
        expect(turns.every((t) => t.full === 1 || t.full === WHILE_MIXING)).toBe(true);
        // once the can is full it does not empty again
        expect(turns.map((t) => t.full)).toEqual([...turns.map((t) => t.full)].sort((a, b) => a - b));
        const finished = RANK[worstOf(some, water, 1)];
        const onTheWay = turns.map(({ full }, i) => RANK[worstOf(turns.slice(0, i + 1), water, full)]);
        const worse = Math.max(...onTheWay) > finished;
        if (turns.some((t) => t.full === 1)) careful += 1;
        expect(avoiding.kind === 'unavoidable').toBe(worse);
      }),
      { numRuns: 250, seed: 11 },
    );
    expect(careful).toBeGreaterThan(10);
  });

  it('blames no order for what the water does by itself', () => {
    // the tap is at the border of lime as it stands; the acid phosphate takes it away
    const some = ['potassium-nitrate', 'monopotassium-phosphate'].map((id) => ({ product: named(id), perLitre: 0.2 }));
    const tap = [{ water: catalog.waters.find((w) => w.id === 'hard-tap')!, share: 1 }];
    expect(cloudingOf([ionSourceOfWater(tap[0]!.water, 1)], solutionChemistry).verdict).not.toBe('clear');
    const { turns, avoiding } = sequenceOf(some, tap);
    expect(turns.map((t) => t.product.id)).toEqual(['potassium-nitrate', 'monopotassium-phosphate']);
    expect(['nothing', 'full can']).toContain(avoiding.kind);
  });

  it('keeps to an order that was told already, as long as it is as clear', () => {
    const some = ['potassium-nitrate', 'calcium-nitrate', 'magnesium-sulfate'].map((id) => ({
      product: named(id),
      perLitre: 0.2,
    }));
    const water = [{ water: pure, share: 1 }];
    const told = ['magnesium-sulfate', 'potassium-nitrate', 'calcium-nitrate'];
    expect(sequenceOf(some, water, { told }).turns.map((t) => t.product.id)).toEqual(told);
    expect(sequenceOf(some, water).turns[0]!.product.id).toBe('calcium-nitrate');
  });

  it('takes calcium before sulfate and phosphate, and what is neutral between them (common practice, no source)', () => {
    const some = ['monopotassium-phosphate', 'magnesium-sulfate', 'potassium-nitrate', 'calcium-nitrate'].map((id) => ({
      product: named(id),
      perLitre: 0.2,
    }));
    const { turns, verdict } = sequenceOf(some, [{ water: pure, share: 1 }]);
    expect(verdict).toBe('clear');
    expect(turns.slice(0, 2).map((t) => t.product.id)).toEqual(['calcium-nitrate', 'potassium-nitrate']);
    expect(turns.every((t) => t.full === WHILE_MIXING)).toBe(true);
  });

  it('fills to the mark first where three quarters of the water would cloud', () => {
    // just below the border of gypsum in the full can: calcium and sulfate in even parts
    const found = [2, 2.2, 2.4, 2.6, 2.8, 3, 3.2, 3.4]
      .map((x) =>
        sequenceOf(
          [
            { product: named('calcium-nitrate'), perLitre: x },
            { product: named('magnesium-sulfate'), perLitre: x },
          ],
          [{ water: pure, share: 1 }],
        ),
      )
      .find((sequence) => sequence.turns[1]!.full === 1);
    expect(found).toBeDefined();
    expect(found!.turns.map((t) => t.full)).toEqual([WHILE_MIXING, 1]);
    expect(found!.avoiding).toMatchObject({
      kind: 'full can',
      before: { name: expect.stringMatching(/^Magnesium sulfate/) },
    });
  });
});
