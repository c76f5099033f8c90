import type { Parts } from '../blend/one/parts.js';
import type { Caution } from '../can/cautions.js';
import type { FeedSpec } from '../catalog/bench-types.js';
import type { Supported } from '../catalog/practice.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Medium, Phase, Unfed } from '../programme/programme.js';
import type { Litres } from '../units/index.js';
import type { Climate } from './climate.js';
import type { Storage } from './storage.js';

/** A year of feed: what is given when, what it uses up, what to buy when. Amounts g or mL, money in the currency of the bench. */
export interface SeasonResult {
  bench: string;
  /** First and last day, `2026-12-01`. */
  from: string;
  to: string;
  weeks: number;
  currency: string;
  climate: Climate;
  feeds: SeasonFeed[];
  mixes: SeasonMix[];
  months: SeasonMonth[];
  products: ProductYear[];
  orders: SeasonOrder[];
  events: SeasonEvent[];
  storage: Storage[];
  litres: Litres;
  /** What is used over the whole time, product and water; what of it has no price is told under the products. */
  cost: number;
  /** Money for the packs that are ordered. */
  spend: number;
  /** Days from an order to its parcel. */
  leadDays: number;
  notes: SeasonNote[];
  cautions: Caution[];
}

/** What a year is made of, every dose chosen. */
export interface SeasonAsked {
  bench: string;
  /** The first day. */
  from: string;
  currency: string;
  leadDays: number;
  climate: Climate;
  feeds: AskedFeed[];
  mixes: MadeMix[];
  /** The products with the packs and prices by which they are bought again. */
  shelf: readonly ClosedProduct[];
  /** Packs of each that are bought before the first week, by id. */
  bought: ReadonlyMap<string, number>;
  /** Of what was worked out before. */
  notes: readonly SeasonNote[];
}

/** A feed with what it is in each month, January first. */
export interface AskedFeed {
  spec: FeedSpec;
  weeklyLitres: Litres;
  weeklyAssumed: boolean;
  months: readonly { state: SpanState; weeklyLitres: Litres }[];
}

/** Doses, and the feeds that are made of them; the first is the mix itself. */
export interface MadeMix {
  plan: DosePlan;
  feeds: { name: string; phase: Phase; strength: string; parts: Parts }[];
  /** False where a limit that hurts or that plants need is missed. */
  isKept: boolean;
  /** Share of cans that keep every limit, of the feed that does so least often; 0…1. */
  sure: number;
}

/** One feed of the bench through the year. */
export interface SeasonFeed {
  name: string;
  plants: string;
  medium: Medium;
  /** Litres in a week in which it is fed as the bench says. */
  weeklyLitres: Litres;
  pots: PotsOfFeed;
  /** Runs of weeks with one phase and strength, in their order; they cover the whole time. */
  spans: FeedSpan[];
  litres: Litres;
  cost: number;
  flush: FlushPlan;
}

/** Null where nobody said it. */
export interface PotsOfFeed {
  pots: number | null;
  potLitres: Litres | null;
  /** What all of them take at one watering, and how many waterings of feed a week that makes. */
  wateringLitres: Litres | null;
  wateringsAWeek: number | null;
  /** True where litres a week follow from one watering a week, because nobody said how many. */
  weeklyAssumed: boolean;
}

/** Weeks with one phase and strength of a feed. */
export interface FeedSpan {
  /** Counted from 1. */
  week: number;
  weeks: number;
  from: string;
  to: string;
  state: SpanState;
  litres: Litres;
  cost: number;
}

/** `fed`: by the mix of that number. `rest`: the plants want none. `other`: another feed of the bench has these months. `none`: asked so, or no doses. */
export type SpanState =
  | { kind: 'fed'; phase: Phase; strength: string; mix: number; share: number }
  | { kind: 'rest'; rest: Unfed }
  | { kind: 'other'; feeds: readonly string[] }
  | { kind: 'none'; why: 'asked' | 'no doses' };

/** Doses that are made once for every week that takes them. */
export interface SeasonMix {
  /** The feeds that are made of it; the first is the mix itself. Several only where one mix was asked for. */
  feeds: { name: string; phase: Phase; strength: string; parts: Parts; litres: Litres }[];
  batchLitres: Litres;
  items: { id: string; name: string; unit: 'g' | 'mL'; perLitre: number; inBatch: string; isByPen: boolean }[];
  waters: { id: string; share: number }[];
  /** Per litre of the mix; what has no price counts nothing. */
  costPerLitre: number;
  /** mg/L of nitrogen, and its share as ammonium and urea; null without nitrogen. */
  nitrogen: number;
  ammoniumAndUrea: number | null;
  ecMSPerCm: number;
  /** False where the doses miss a limit that hurts or that plants need. */
  isKept: boolean;
  /** Share of cans that keep every limit, of the feed that does so least often; 0…1. */
  sure: number;
  /** Litres of the mix over the whole time. */
  litres: Litres;
  weeks: number;
}

/** What falls into one month of the calendar; a week belongs to the month in which it begins. */
export interface SeasonMonth {
  /** `2026-12`. */
  key: string;
  weeks: number;
  litres: Litres;
  cost: number;
  light: number | null;
  temperatureC: number | null;
  isRest: boolean;
  /** By product, g or mL. */
  uses: { id: string; amount: number }[];
}

/** What becomes of one product. */
export interface ProductYear {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  used: number;
  /** Null where the shelf does not say. */
  onHand: number | null;
  pack: number | null;
  /** For one pack; null where no price is known. */
  price: number | null;
  cost: number | null;
  /** Week in which what is on hand does not reach, counted from 1, and the day on which it begins; null where it lasts or nobody knows. */
  runsOut: { week: number; day: string } | null;
  packs: number;
  /** On hand at the start and at the end of each week, orders arrived; null where the stock is unknown. */
  stock: number[] | null;
}

/** Packs to be ordered on a day, so that they are there on another. */
export interface SeasonOrder {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  /** The day to order, the day they have to be there. */
  day: string;
  needed: string;
  week: number;
  packs: number;
  pack: number;
  /** For all packs; null where no price is known. */
  cost: number | null;
  /** True where the lead time has begun already. */
  isLate: boolean;
}

/** How the pots of one feed are flushed with plain water. */
export interface FlushPlan {
  everyWeeks: number;
  potVolumes: number | null;
  /** For one pot and for all of them; null where nobody said what a pot holds, or how many there are. */
  litresPerPot: Litres | null;
  litres: Litres | null;
  /** Weeks in which it falls due, counted from 1; none while the plants get no feed. */
  weeks: number[];
  support: Supported;
}

/** A date for the calendar: every so many weeks, so many times. */
export type SeasonEvent = { day: string; everyWeeks: number; times: number } & (
  | { kind: 'mix'; mix: number; litres: Litres; perFeed: { name: string; litres: Litres }[] }
  | { kind: 'flush'; feed: string }
  | { kind: 'order'; order: number }
  | { kind: 'rest'; feed: string; rest: Unfed | null }
);

/** What is worth knowing beside it. Products and feeds go by name. */
export type SeasonNote =
  /** Asked for, and nothing that can be bought does, or none was found. */
  | { kind: 'no purchase' }
  | { kind: 'hemisphere assumed' }
  | { kind: 'stock unknown'; products: readonly string[] }
  | { kind: 'no pack'; products: readonly string[] }
  | { kind: 'no price'; products: readonly string[] }
  | { kind: 'no doses'; feeds: readonly string[] }
  | { kind: 'missed'; feeds: readonly string[] }
  | { kind: 'watered once a week'; feeds: readonly string[] }
  /** A phase that is fed weaker by itself: its strength is a share of its own programme. */
  | {
      kind: 'weaker phase';
      feeds: readonly { name: string; phase: Phase; strength: string; strengthFactor: number; phaseFactor: number }[];
    }
  | { kind: 'cool ammonium'; months: readonly number[]; feeds: readonly { name: string; share: number }[] };
