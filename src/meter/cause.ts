/** What went wrong with a batch or with a reading of it; items by their place in the plan, from 0. */
export type Fault =
  /** Another amount of one item than planned; `variant` where one of these is the likeliest form of it. */
  | { kind: 'item'; item: number; variant: Variant | null }
  /** What an item holds conducts more or less than its label, which names no salts, lets expect; its nutrients are as planned. */
  | { kind: 'label'; item: number }
  /** The amounts of two items exchanged. */
  | { kind: 'swap'; item: number; other: number }
  /** Another volume of water; not topped up to the mark; another water. */
  | { kind: 'volume' | 'topping' | 'water' }
  /** The pen counts on another scale, does (or does not) correct for temperature, or is off. */
  | { kind: 'scale' | 'temperature' | 'pen' }
  /** Nothing: an alternative to what was said. */
  | { kind: 'none' }
  /** As the grower said: by the place of the way told; and, where the readings ask for it, one fault more. */
  | { kind: 'said'; way: number; besides: Exclude<Fault, { kind: 'said' }> | null };

export type Variant = 'forgotten' | 'doubled' | 'halved' | 'wrong spoon';

/** One fault with what the readings say of it. */
export interface Cause {
  /** Names it among the causes of one judgement: `item:2`, `volume`, `swap:0:1`. */
  cause: string;
  fault: Fault;
  /** The figure: a factor on amount, on what an item conducts, on water or reading; mS/cm more for another water. */
  value: { likely: number; low: number; high: number };
  /** Share among everything considered, given the readings. */
  probability: number;
  /** True where its best form makes the readings no surprise. */
  explains: boolean;
  /** True where it explains the readings about as well as the likeliest cause. */
  asWell: boolean;
}

/** What `PossibleCan.cause` and the lists of causes call a batch with which nothing went wrong. */
export const NO_FAULT = 'none';
