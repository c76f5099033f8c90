import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/solution/index.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import type { Part } from '../../src/sheet/part.js';
import { sequenceOf, WHILE_MIXING } from '../../src/sheet/sequence.js';
import { ionSourceOf, ionSourceOfWater } from '../../src/can/ion-sources.js';
import { closeShelf } from '../../src/label/close.js';
import { cloudingOf, type Verdict } from '../../src/can/clouding.js';
import { pure } from '../feed/fixtures.js';

const catalog = shippedCatalog();
const shelf = await closeShelf([...catalog.products, ...catalog.salts.filter((p) => p.kind !== 'acid')]);
const named = (id: string) => shelf.find((p) => p.id === id)!;
const RANK: Record<Verdict, number> = { clear: 0, borderline: 1, 'will cloud': 2 };

/** Worst on the way, by the chemistry itself and nothing of the sequence. */
function worstOnTheWay(turns: readonly (Part & { full: number })[], waters: Parameters<typeof sequenceOf>[1]): Verdict {
  const verdicts = turns.map(({ full }, i) => {
    const water = waters.map(({ water: w, share }) => ionSourceOfWater(w, share));
    const parts = turns.slice(0, i + 1).map(({ product, perLitre }) => ionSourceOf(product, perLitre / full));
    return cloudingOf([...water, ...parts], solutionChemistry).verdict;
  });
  return verdicts.sort((a, b) => RANK[b] - RANK[a])[0] ?? 'clear';
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
    fc.assert(
      fc.property(parts, waters, (some, water) => {
        const { turns, says } = sequenceOf(some, water);
        expect(new Set(turns.map((t) => t.product))).toEqual(new Set(some.map((p) => p.product)));
        expect(turns.every((t) => t.full === 1 || t.full === WHILE_MIXING)).toBe(true);
        // once the can is full it does not empty again
        expect(turns.map((t) => t.full)).toEqual([...turns.map((t) => t.full)].sort((a, b) => a - b));
        const finished = cloudingOf(
          [
            ...water.map(({ water: w, share }) => ionSourceOfWater(w, share)),
            ...some.map((p) => ionSourceOf(p.product, p.perLitre)),
          ],
          solutionChemistry,
        ).verdict;
        const worst = worstOnTheWay(turns, water);
        if (RANK[worst] > RANK[finished]) expect(says.join(' ')).toContain('No order keeps the can clear');
      }),
      { numRuns: 60, seed: 11 },
    );
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
    expect(found!.says[0]).toMatch(/^Fill to the mark before the Magnesium sulfate/);
  });
});
