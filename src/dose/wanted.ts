import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import type { Mix } from '../feed/results.js';

/** A mix that has been read out, as amounts in the order of the request's shelf and waters. */
export function amountsOfMix(
  mix: Pick<Mix, 'items' | 'waters'>,
  request: Pick<FeedRequest, 'shelf' | 'waters'>,
): Amounts {
  const perLitre = new Map(mix.items.map((item) => [item.id, item.gramsPerLitre ?? item.millilitresPerLitre ?? 0]));
  const shares = new Map(mix.waters.map((water) => [water.id, water.share]));
  return {
    products: request.shelf.map((product) => perLitre.get(product.id) ?? 0),
    waters: request.waters.map((water) => shares.get(water.id) ?? 0),
  };
}
