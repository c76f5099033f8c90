import type { Joint } from './program.js';
import { settledValue } from './option.js';
import { availableWith, closestPossible, settleThrift } from './settle.js';
import type { Extra, Unproved } from './types.js';

/** How many are told. */
const TOLD = 3;

/** One pack of one more product beside the best option: those that bring the feeds closest to their aims, closest first. */
export async function extrasOf(joint: Joint, best: Unproved['option']): Promise<Extra[]> {
  const bought = new Map(best.packs.map((pack) => [pack.id, pack.count]));
  const counts = joint.pool.map(({ product }) => bought.get(product.id) ?? 0);
  const spare = joint.request.budget === undefined ? Number.POSITIVE_INFINITY : joint.request.budget - best.spend;
  const found: { index: number; available: number[]; closest: number }[] = [];
  for (const [index, { offer }] of joint.pool.entries()) {
    if (offer === null || counts[index]! > 0 || offer.price > spare) continue;
    if (joint.feeds.every((feed) => !(feed.ceilings[index]! > 0))) continue;
    const available = availableWith(
      joint,
      counts.map((count, i) => (i === index ? 1 : count)),
    );
    const closest = await closestPossible(joint, available);
    // a hair closer is no reason to buy: one part in a hundred of the aims
    if (closest !== null && best.closest !== null && closest < best.closest - 0.01)
      found.push({ index, available, closest });
  }
  const price = (index: number): number => joint.pool[index]!.offer!.price;
  found.sort((a, b) => a.closest - b.closest || price(a.index) - price(b.index) || a.index - b.index);
  const extras: Extra[] = [];
  for (const { index, available, closest } of found.slice(0, TOLD)) {
    const settled = await settleThrift(joint, available);
    if (settled === null) continue;
    const { id, name } = joint.pool[index]!.product;
    extras.push({ id, name, extraSpend: price(index), closest, costPerLitre: settledValue(joint, settled) });
  }
  return extras;
}
