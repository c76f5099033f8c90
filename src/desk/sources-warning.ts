import type { ClosedProduct } from '../label/closed-product.js';
import { type Problem, warning } from '../problem.js';
import { disagreementSays } from '../report/says/disagreement.js';

/** A warning where the salts that a product names cannot make its analysis. */
export function sourcesWarnings({ disagreement, where }: ClosedProduct): Problem[] {
  if (disagreement === undefined) return [];
  return [
    warning(
      'sources-disagree',
      { ...where, field: 'derived_from' },
      disagreementSays(disagreement),
      'salts that can make the analysis',
      'Copy the whole list of sources; until then the label counts as one without a list.',
    ),
  ];
}
