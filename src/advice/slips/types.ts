import type { Product } from '../../label/product.js';

/** One item of the batch that is spoken of, in mixing order. */
export interface ItemSpokenOf {
  readonly product: Pick<Product, 'id' | 'name' | 'form' | 'composition' | 'bulkDensity' | 'density' | 'kind'>;
  /** g or mL for the whole batch. */
  readonly planned: number;
  readonly bySpoon: boolean;
  /** How full the can is when it goes in: 1 = to the mark. */
  readonly full: number;
}

/** What the words are about: the batch as planned, and what a grower may name beside it. */
export interface BatchSpokenOf {
  readonly items: readonly ItemSpokenOf[];
  /** Litres that the doses were for. */
  readonly litres: number;
  /** Litres to the brim; null where nobody said. */
  readonly brimLitres: number | null;
  /** Ids of the waters it was to be made with. */
  readonly waters: readonly string[];
  /** Waters that are known: those of the bench first. */
  readonly knownWaters: readonly WaterSpokenOf[];
  readonly dropsPerMillilitre?: number;
}

/** A water by the names it goes by; `ownOnly` where each house has its own, so that only an analysis on the bench tells it. */
export interface WaterSpokenOf {
  readonly id: string;
  readonly names: readonly string[];
  readonly onBench: boolean;
}

/** One thing that was otherwise than planned. */
export type Slip =
  /** So many times the planned amount of an item, by its place. */
  | { kind: 'item'; item: number; factor: number }
  | { kind: 'litres'; litres: number }
  | { kind: 'water'; id: string }
  /** Not filled up to the mark after the last item. */
  | { kind: 'topping' };

/** One way it can have been, with its share among the ways told; no slips = as planned. */
export interface Way {
  share: number;
  slips: readonly Slip[];
}

/** What was told: the ways that the words leave open, likeliest first as told. */
export interface ToldSlips {
  /** The grower's own words. */
  text: string;
  ways: readonly Way[];
}

/** What has to be asked back, as found, expected and fix of a refusal. */
export interface AskedBack {
  found: string;
  expected: string;
  fix: string;
}

/** A clause as read; null where it is none that is known. */
export type ReadClause = { ways: readonly Way[] } | { ask: AskedBack } | null;
