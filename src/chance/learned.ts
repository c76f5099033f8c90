/**
 * What good batches have told of jars, spoons and pen, as shares by which each is off from what labels and model say: a normal
 * distribution over all of them together, because readings of whole cans tell of sums.
 */
export interface Learned {
  /** Products as they are measured (`learnedKey`); the last one is the pen with the model. */
  keys: readonly string[];
  mean: readonly number[];
  covariance: readonly (readonly number[])[];
  /** Good batches of the feed that is asked about, and the days of the first and the last. */
  batches: number;
  from: string;
  to: string;
}

/** The name of the pen among the keys; no product is called so. */
export const PEN_KEY = '';

/** How many good batches of a feed its readings are narrowed by at least. */
export const LEAST_BATCHES = 3;

/** A product by the spoon is off by how it lies in the spoon too. */
export const learnedKey = (id: string, bySpoon: boolean): string => (bySpoon ? `${id} by the spoon` : id);

/** What a product brings to a reading: mS/cm for a unit of its share. */
export interface Bringing {
  key: string;
  slope: number;
}

/** Items that bring less than this share of a reading may be new without making the rest unknown. */
const SMALL = 0.02;

/** How far a reading lies off what is predicted by what was learned, and its standard deviation, mS/cm; null where a product in it is new. */
export function learnedOf(
  items: readonly Bringing[],
  mSPerCm: number,
  learned: Learned,
): { shift: number; sd: number } | null {
  const { keys, mean, covariance } = learned;
  const along = slopesAlong(items, mSPerCm, keys);
  if (along === null) return null;
  const shift = along.reduce((sum, slope, k) => sum + slope * mean[k]!, 0);
  const variance = along.reduce(
    (sum, slope, k) => sum + slope * along.reduce((inner, other, l) => inner + covariance[k]![l]! * other, 0),
    0,
  );
  return { shift, sd: Math.sqrt(Math.max(0, variance)) };
}

/** The slopes of a reading along all keys; null where a product that counts is none of them. */
export function slopesAlong(items: readonly Bringing[], mSPerCm: number, keys: readonly string[]): number[] | null {
  const places = items.map(({ key }) => keys.indexOf(key));
  if (items.some(({ slope }, i) => places[i]! < 0 && Math.abs(slope) > SMALL * mSPerCm)) return null;
  const along = keys.map((key) => (key === PEN_KEY ? mSPerCm : 0));
  for (const [i, { slope }] of items.entries()) if (places[i]! >= 0) along[places[i]!]! += slope;
  return along;
}

/** A matrix L with L Lᵀ = the covariance (Cholesky), so that independent deviates times its columns vary as it says. */
export function rootOf(covariance: readonly (readonly number[])[]): number[][] {
  const n = covariance.length;
  const root = covariance.map(() => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j <= i; j += 1) {
      let rest = covariance[i]![j]!;
      for (let k = 0; k < j; k += 1) rest -= root[i]![k]! * root[j]![k]!;
      // what is known for certain has no spread
      root[i]![j] = i === j ? Math.sqrt(Math.max(0, rest)) : root[j]![j]! > 1e-12 ? rest / root[j]![j]! : 0;
    }
  return root;
}
