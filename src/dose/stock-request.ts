import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import type { concentrate } from '../stock/concentrate.js';
import type { Millilitres } from '../units/index.js';

type Asked = Parameters<typeof concentrate>[0];

/** The coldest that a stock bottle gets in a house, °C (common practice, no source). */
const COLDEST_CELSIUS = 10;

/** A stock of some items, one part in so many, as `concentrate` is asked for it. */
export const stockRequest = (
  items: Asked['items'],
  { waters: shares }: Amounts,
  { header, waters }: FeedRequest,
  { ratio, bottle, kit }: { ratio: number; bottle: Millilitres; kit: Kit },
): Asked => ({
  feed: header,
  recipe: null,
  items,
  waters: waters.map((water, i) => ({ water, share: shares[i]! })).filter(({ share }) => share > 0),
  weeklyLitres: null,
  ratio,
  tanks: null,
  jugMillilitres: bottle,
  coldestCelsius: COLDEST_CELSIUS,
  scaleStepGrams: kit.scaleStepGrams ?? null,
  remark: null,
});
