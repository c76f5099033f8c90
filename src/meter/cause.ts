import type { Hypothesis } from './hypotheses.js';

/** One cause with what the readings say of it. */
export interface Cause {
  /** `item:2`, `volume`, `scale`, `temperature`, `pen`, `water`, `swap:0:1` */
  cause: string;
  kind: Exclude<Hypothesis['kind'], 'none'>;
  /** Id of the product, where it is about one. */
  id: string | null;
  /** `forgotten`, `doubled`, … where that is the likeliest form of it. */
  variant: NonNullable<Hypothesis['variant']> | null;
  /** The figure: a factor on amount, water or reading; mS/cm more for another water. */
  value: { likely: number; low: number; high: number };
  /** Share among everything considered, given the readings. */
  probability: number;
  /** True where its best form makes the readings no surprise. */
  explains: boolean;
  /** True where it explains the readings about as well as the likeliest cause. */
  asWell: boolean;
  /** `Calcium nitrate: about 2.1 times as much as planned` */
  words: string;
  /** How to find out. */
  check: string;
}
