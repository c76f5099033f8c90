import type { ClosedProduct } from '../label/closed-product.js';
import type { OnSale, Water } from '../label/product.js';
import type { Programme } from '../programme/programme.js';
import { type MilliSiemensPerCm, milliSiemensPerCm } from '../units/index.js';
import type { Rule } from '../programme/rule.js';
import type { EcLinearisation } from './ec-linearisation.js';
import type { FeedHeader } from './results.js';

/** One feed to be formulated. Bands in `programme` are already at the wanted strength. */
export interface FeedRequest {
  header: FeedHeader;
  programme: Programme;
  /** The grower's own rules, on top of the programme's. */
  rules: Rule[];
  /** A lower EC cap of the grower's own, mS/cm. */
  maxEc?: MilliSiemensPerCm;
  shelf: ClosedProduct[];
  /** At least one source; several are blended, shares summing to 1. */
  waters: Water[];
  goal: 'cheapest' | 'closest';
  /** Waters that could be blended in where no mix exists, and products that could be bought: only ever named as ways out. */
  otherWaters?: Water[];
  market?: readonly OnSale[];
  /** At most this many products. */
  atMost?: number;
  /** Temperature of the can in °C, where it is to be told apart from 25. */
  temperatureC?: number;
  /** The linearisation that stands for the EC model in the program; by default one that suits the programme. */
  ecLinearisation?: EcLinearisation;
}

/** The tightest EC cap in force, mS/cm, or null. */
export function ecCap(request: Pick<FeedRequest, 'programme' | 'maxEc'>): MilliSiemensPerCm | null {
  const caps = [request.programme.maxEc, request.maxEc].filter((c) => c !== undefined);
  return caps.length === 0 ? null : milliSiemensPerCm(Math.min(...caps));
}

/** The same request without any cap on EC. */
export function withoutEcCap(request: FeedRequest): FeedRequest {
  const { maxEc: _, ecLinearisation: __, ...rest } = request;
  const { maxEc: ___, ...programme } = request.programme;
  return { ...rest, programme };
}

/** Programme rules first, then the grower's. */
export function allRules(request: Pick<FeedRequest, 'programme' | 'rules'>): Rule[] {
  return [...request.programme.rules, ...request.rules];
}
