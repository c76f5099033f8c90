import type { FeedRequest } from '../feed/request.js';
import type { Batch } from './batch.js';
import { type PossibleCan, quantiles } from './posterior.js';

/**
 * What is left of each product on the shelf, g or mL, by place: what was on hand less what the middle can took, so that a dose which was
 * forgotten still stands on the shelf and one that went in twice is gone twice. Infinite where nobody counted.
 */
export function stockLeft({ shelf }: FeedRequest, { items }: Batch, cans: readonly PossibleCan[]): number[] {
  return shelf.map(({ id, onHand }) => {
    if (onHand === undefined) return Number.POSITIVE_INFINITY;
    const at = items.findIndex(({ product }) => product.id === id);
    if (at < 0) return onHand;
    const [used] = quantiles(
      cans.map((can) => can.amounts[at]!),
      [0.5],
    );
    return Math.max(0, onHand - used!);
  });
}
