import type { Shape } from '../wrong-type.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { OnSale, Water } from '../label/product.js';
import type { Programme } from '../programme/programme.js';
import { type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import type { EcRule, LinearRule, Rule } from '../programme/rule.js';
import type { EcLinearisation } from './ec-linearisation.js';
import type { NearBands } from './near.js';
import type { FeedHeader } from './results.js';

/** What a caller without types has to bring as one. */
export const A_REQUEST = {
  header: 'object',
  programme: { bands: 'object', rules: 'list' },
  rules: 'list',
  shelf: 'list',
  waters: 'list',
} as const satisfies Shape;

/** One feed to be formulated. Bands in `programme` are already at the wanted strength. */
export interface FeedRequest {
  header: FeedHeader;
  programme: Programme;
  /** The grower's own rules, EC caps among them, on top of the programme's. */
  rules: Rule[];
  shelf: ClosedProduct[];
  /** At least one source; several are blended, shares summing to 1. */
  waters: Water[];
  goal: 'cheapest' | 'closest';
  /** How near to the aims the mix is held beside its limits, mg/L as labels state; absent: limits alone. */
  near?: NearBands;
  /** Waters that could be blended in where no mix exists, and products that could be bought: only ever named as ways out. */
  otherWaters?: Water[];
  market?: readonly OnSale[];
  /** At most this many products. */
  atMost?: number;
  /** Temperature of the can in °C, where it is to be told apart from 25. */
  temperatureC?: number;
  /** Other feeds that are this mix with more of the same water: their limits hold for it too. */
  diluted?: readonly Diluted[];
}

/** A feed that is a mix of another with water added. */
export interface Diluted {
  /** Its own limits; shelf and waters are those of the mix. */
  request: FeedRequest;
  /** Litres of the mix in a litre of this feed, above 0 and at most 1. */
  share: number;
  /** What stands for the model of EC in its row, where it has a cap; absent: one that suits its programme. */
  linearisation?: EcLinearisation;
}

/** Programme rules first, then the grower's; EC caps stand apart. */
export function linearRules({ programme, rules }: Pick<FeedRequest, 'programme' | 'rules'>): LinearRule[] {
  return [...programme.rules, ...rules].filter((rule) => rule.kind === 'linear');
}

/** The tightest EC cap in force, the programme's before the grower's where they say the same; or null. */
export function ecRule({ programme, rules }: Pick<FeedRequest, 'programme' | 'rules'>): EcRule | null {
  const caps = [...programme.rules, ...rules].filter((rule) => rule.kind === 'ec');
  return caps.reduce<EcRule | null>((least, cap) => (least === null || cap.upper < least.upper ? cap : least), null);
}

/** The tightest EC cap in force, mS/cm, or null. */
export const ecCap = (request: Pick<FeedRequest, 'programme' | 'rules'>): MilliSiemensPerCm | null =>
  ecRule(request)?.upper ?? null;

/** The same request with an EC cap of the grower's own, mS/cm; a tighter one stays in force. */
export function withEcCap<R extends Pick<FeedRequest, 'rules'>>(request: R, upper: number): R {
  const cap: EcRule = { kind: 'ec', text: `EC <= ${upper}`, upper: milliSiemensPerCm(upper), from: { owner: 'you' } };
  return { ...request, rules: [...request.rules, cap] };
}

/** The same request without any cap on EC. */
export function withoutEcCap(request: FeedRequest): FeedRequest {
  const others = (rules: readonly Rule[]): Rule[] => rules.filter((rule) => rule.kind !== 'ec');
  const programme = { ...request.programme, rules: others(request.programme.rules) };
  return { ...request, programme, rules: others(request.rules) };
}
