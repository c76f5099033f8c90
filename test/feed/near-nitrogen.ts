import type { FeedRequest } from '../../src/feed/request.js';
import { mgPerLitre } from '../../src/units/index.js';

/** The request with nitrogen held within a share of its aim, or of another amount, mg/L, as a grower might ask: a can is then easily outside. */
export function withNitrogenNear<R extends Pick<FeedRequest, 'programme'>>(
  request: R,
  around?: number,
  share = 0.1,
): R {
  const { programme } = request;
  const aim = mgPerLitre(around ?? programme.bands.N?.aim ?? 0);
  if (aim === 0) return request;
  const N = { min: mgPerLitre(aim * (1 - share)), aim, max: mgPerLitre(aim * (1 + share)) };
  return { ...request, programme: { ...programme, bands: { ...programme.bands, N } } };
}
