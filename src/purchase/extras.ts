import type { Joint } from './program.js';
import { settledValue } from './option.js';
import { promised } from './promise.js';
import { isOver } from './search.js';
import { availableWith, closestAnswer, closestPossible, settleThrift } from './settle.js';
import type { Extra, PurchaseOptions, Unproved } from './types.js';

/** How many are told. */
const TOLD = 3;
/** A hair closer is no reason to buy: one part in a hundred of the aims. */
const NOTICED = 0.01;
/** What the certificate grants a bound. */
const ROUNDING = 1e-6;

/** One pack of one more product beside the best option: those that bring the feeds closest to their aims, closest first. */
export async function extrasOf(joint: Joint, best: Unproved['option'], options: PurchaseOptions): Promise<Extra[]> {
  const bought = new Map(best.packs.map((pack) => [pack.id, pack.count]));
  const counts = joint.pool.map(({ product }) => bought.get(product.id) ?? 0);
  const now = best.closest === null ? null : await closestAnswer(joint, availableWith(joint, counts));
  if (now === null) return [];
  const spare = joint.request.budget === undefined ? Number.POSITIVE_INFINITY : joint.request.budget - best.spend;
  const price = (index: number): number => joint.pool[index]!.offer!.price;
  const bounds = promised(joint, now);
  const hopeful = [...bounds.keys()]
    .filter((i) => counts[i] === 0 && bounds[i]! < Math.max(0, now.objective) - NOTICED && price(i) <= spare)
    .filter((i) => joint.feeds.some((feed) => feed.ceilings[i]! > 0))
    .sort((a, b) => bounds[a]! - bounds[b]! || a - b);
  let found: { index: number; available: number[]; closest: number }[] = [];
  for (const index of hopeful) {
    // what comes now cannot be closer than the last that is told
    if (isOver(options) || (found.length === TOLD && bounds[index]! > found.at(-1)!.closest + ROUNDING)) break;
    const available = availableWith(
      joint,
      counts.map((count, i) => (i === index ? 1 : count)),
    );
    const closest = await closestPossible(joint, available);
    if (closest === null || closest >= best.closest! - NOTICED) continue;
    found = [...found, { index, available, closest }]
      .sort((a, b) => a.closest - b.closest || price(a.index) - price(b.index) || a.index - b.index)
      .slice(0, TOLD);
  }
  const extras: Extra[] = [];
  for (const { index, available, closest } of found) {
    const settled = await settleThrift(joint, available);
    if (settled === null) continue;
    const { id, name } = joint.pool[index]!.product;
    extras.push({ id, name, extraSpend: price(index), closest, costPerLitre: settledValue(joint, settled) });
  }
  return extras;
}
