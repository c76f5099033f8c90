import { describe, expect, it } from 'vitest';
import { elementPerOxide } from '../../src/chemistry/oxides.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { purchase } from '../../src/purchase/purchase.js';
import type { PurchaseRequest } from '../../src/purchase/types.js';
import { powder } from '../feed/fixtures.js';
import { dice } from '../solver/dice.js';
import { isServed, smallPurchase } from './brute.js';

const invented = (asked: PurchaseRequest): PurchaseRequest => ({
  ...asked,
  market: asked.market.map((one) =>
    powder(one.id, contentOf(one), { pack: one.pack!, price: one.price!, evidence: 'invented' }),
  ),
});

const contentOf = ({ composition }: PurchaseRequest['market'][number]): Partial<Record<Nutrient, number>> =>
  Object.fromEntries(
    (['K', 'Ca', 'Mg', 'S'] as const).flatMap((n) =>
      composition.content[n].low > 0 ? [[n, composition.content[n].low / 10] as const] : [],
    ),
  );

describe('the label to look for', () => {
  it('is one of which any serves: random labels within the ranges, by plain highs, a tenth more of the product at hand', async () => {
    let tried = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const d = dice(9000 + seed);
      const asked = invented(smallPurchase(seed));
      const result = await purchase(asked, { ways: [], beside: false });
      if (result.status !== 'made') continue;
      const [{ packs }] = result.options;
      for (const { id, figures } of result.lookFor) {
        expect(packs.some((pack) => pack.id === id && pack.isInvented)).toBe(true);
        for (let k = 0; k < 4; k += 1) {
          const jars = packs.map((pack) => {
            const product = asked.market.find((one) => one.id === pack.id)!;
            const owned = asked.shelf.find((one) => one.id === pack.id)?.onHand ?? 0;
            const onHand = owned + pack.count * pack.pack;
            if (pack.id !== id) return product.with({ onHand });
            const content = contentOf(product);
            for (const { figure, least, now, most } of figures) {
              const printed = k < 2 ? (d.chance(0.5) ? least : most) : d.between(least, most);
              expect(least).toBeLessThanOrEqual(now * (1 + 1e-9));
              content[figure] = printed * (figure === 'K' ? elementPerOxide('K2O') : 1);
            }
            return powder(id, content, { onHand: owned + 1.1 * pack.count * pack.pack });
          });
          const others = asked.shelf.filter((one) => packs.every((pack) => pack.id !== one.id));
          expect(await isServed(asked, [...others, ...jars]), `seed ${seed}, ${id}`).toBe(true);
          tried += 1;
        }
      }
    }
    expect(tried).toBeGreaterThan(40);
  });
});
