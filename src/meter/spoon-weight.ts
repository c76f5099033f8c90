import { NINETY } from '../chance/deviates.js';
import { exp, hypot } from '../units/elementary.js';
import { BOUNDS, type Millilitres } from '../units/index.js';

/** What a spoon of a product weighs. Nine of ten such trials have the truth within low…high. */
export interface SpoonWeight {
  status: 'weighed';
  id: string;
  spoon: string;
  gramsEach: number;
  low: number;
  high: number;
  gramsTogether: number;
  /** g/mL, level; with its own range. */
  bulkDensity: number;
  bulkLow: number;
  bulkHigh: number;
  /** g/mL either way within which nineteen of twenty such trials have the truth, as the shelf keeps it. */
  bulkOff: number;
  /** What the uncertainty comes from, largest first, as relative standard deviations. */
  from: { source: 'pen' | 'water' | 'label' | 'scale' | 'spoons'; sd: number }[];
}

/** Why a trial tells nothing. */
export type NoWeight = {
  status: 'not weighed';
  reason: 'no rise' | 'too small' | 'does not conduct' | 'beyond the model' | 'no such powder';
  /** mS/cm; of `no such powder` the g/mL. */
  found: number;
};

/** A level spoon of a fine powder repeats within 5 to 15 % (facts of the trade, from memory); the mean of several is better by their root. */
const LEVEL = 0.08;

/** Level spoons of one product and the grams they weigh together, however that was found. */
export interface SpoonsTogether {
  id: string;
  /** What one spoon holds to the brim, mL, and what the grower calls it. */
  millilitres: Millilitres;
  spoon: string;
  count: number;
  grams: number;
  /** Relative standard deviations of the grams; that of level spoons is added here. */
  from: SpoonWeight['from'];
}

/** Grams of so many level spoons → bulk density and its range. What no powder weighs is refused. */
export function spoonWeight({ id, millilitres, spoon, count, grams, from }: SpoonsTogether): SpoonWeight | NoWeight {
  const each = grams / count;
  const bulkDensity = each / millilitres;
  if (bulkDensity < BOUNDS.bulkDensity.least || bulkDensity > BOUNDS.bulkDensity.most)
    return { status: 'not weighed', reason: 'no such powder', found: bulkDensity };
  const parts: SpoonWeight['from'] = [...from, { source: 'spoons', sd: LEVEL / Math.sqrt(count) }];
  parts.sort((a, b) => b.sd - a.sd);
  const sd = hypot(...parts.map((part) => part.sd));
  const [down, up] = [exp(-NINETY * sd), exp(NINETY * sd)];
  return {
    status: 'weighed',
    id,
    spoon,
    gramsEach: each,
    low: each * down,
    high: each * up,
    gramsTogether: grams,
    bulkDensity,
    bulkLow: (each * down) / millilitres,
    bulkHigh: (each * up) / millilitres,
    bulkOff: 2 * sd * bulkDensity,
    from: parts,
  };
}
