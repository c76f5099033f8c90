import type { Kit } from '../../src/catalog/bench-types.js';
import { measuresWithin } from '../../src/dose/measure.js';
import { paperTools, type Tool, toolsOf } from '../../src/dose/tools.js';
import type { Amounts } from '../../src/can/mix-amounts.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { type End, endsOf } from './ends.js';
import type { Open } from './try-all-ranges.js';

/**
 * Each item of a blend with leaving it out and every measure up to the most that stock and label allow and that any limit to which nothing
 * is opposed has room for: more than that can be in no mix that holds.
 */
export function openTo(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  ends: readonly End[] = endsOf(request, amounts),
): Open[] {
  const batch = request.header.batchLitres!;
  const used = amounts.products.flatMap((x, i) => (x > 1e-12 ? [i] : []));
  return used.map((shelf) => {
    const product = request.shelf[shelf]!;
    const ceiling = Math.min(
      product.onHand ?? Number.POSITIVE_INFINITY,
      (product.maxRate ?? Number.POSITIVE_INFINITY) * batch,
    );
    const most = ends
      .filter((end) => end.of(shelf) > 0 && used.every((i) => end.of(i) >= 0))
      .reduce((least, end) => Math.min(least, (batch * (end.most - end.water)) / end.of(shelf)), ceiling);
    if (!Number.isFinite(most)) throw new Error(`nothing bounds ${product.id}`);
    const tools = toolsFor(product, kit);
    return {
      shelf,
      wanted: amounts.products[shelf]! * batch,
      amounts: [...new Set([0, ...measuresWithin(product, tools, 0, most * (1 + 1e-9)).map((m) => m.amount)])],
    };
  });
}

/** A liquid is not weighed; what nothing measures is written down to 0.01 g or 0.1 mL. */
function toolsFor(product: FeedRequest['shelf'][number], kit: Kit): readonly Tool[] {
  const tools = toolsOf(kit).filter((tool) => product.form === 'powder' || tool.kind !== 'scale');
  if (measuresWithin(product, tools, 0, 1000).length > 0) return tools;
  return paperTools.filter((tool) => (tool.kind === 'scale') === (product.form === 'powder'));
}
