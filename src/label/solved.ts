import type { Ions } from '../chemistry/ions.js';
import { NUTRIENTS, type Nutrient, type PerNutrient } from '../chemistry/nutrients.js';
import type { Ends } from './counter-ions.js';
import type { Label } from './product.js';
import { type LikelyMakeUps, likelyMakeUps } from './likely-make-ups.js';
import { closeBySources, type Impossible, openByCounterIons } from './undeclared-by-sources.js';

/**
 * What the programs of a label say: all of its closure that has to be solved, as plain data, so that what is known of a label can be
 * written down. Ions in mmol, nutrients in mg, of one g or mL.
 */
export interface Solved {
  /** By the salts it names; null where there is no list, or none that can be used. */
  bySources: SolvedBySources | Impossible | null;
  /** What every plausible counter-ion leaves open, where its list does not close it; null where none of them make the analysis. */
  open: Open | null;
  /** By the make-ups that are likely where its list does not close it; null where there are none. */
  likely: LikelyMakeUps | null;
}

interface SolvedBySources {
  verdict: 'closed';
  open: Open;
  likely: PerNutrient<number>;
  value: Ions;
  ends: Ends<Ions>;
  usual: Ends<Ions>;
}

type Open = ReadonlyMap<Nutrient, { low: number; high: number }>;

/** What a label's programs depend on. */
type Asked = Pick<Label, 'composition' | 'derivedFrom'> & { density?: number | undefined };

/** Solves the programs of a label without a formula: those of its list first, and only where it does not close, of every counter-ion. */
export async function solveLabel({ composition, derivedFrom, density }: Asked): Promise<Solved> {
  const bySources = await closeBySources(composition, derivedFrom, density);
  if (bySources?.verdict === 'closed') {
    const { open, nearest, usual } = bySources;
    const { mg: likely, ions: value } = nearest;
    const of = { verdict: 'closed' as const, open, likely, value, ends: endsOf(bySources), usual };
    return { bySources: of, open: null, likely: null };
  }
  const open = await openByCounterIons(composition, density);
  return { bySources, open, likely: await likelyMakeUps(composition, derivedFrom, density) };
}

/** What the programs of labels say, by `labelKey`; a formula needs none. */
export async function solveLabels(labels: readonly Label[]): Promise<Map<string, Solved>> {
  const solved = new Map<string, Solved>();
  for (const label of labels.filter(({ formula }) => formula === undefined)) {
    const key = labelKey(label);
    if (!solved.has(key)) solved.set(key, await solveLabel(label));
  }
  return solved;
}

/** All that the programs of a label depend on, as text: labels with the same key have the same answers. */
export function labelKey({ composition: { per, content, printed, law }, derivedFrom, density }: Asked): string {
  const figures = NUTRIENTS.map((nutrient) => {
    const { low, stated, high } = content[nutrient];
    return low === stated && stated === high ? low : [low, stated, high];
  });
  const key = [per, density ?? null, derivedFrom, figures, printed ? [...printed] : null];
  return JSON.stringify(law === 'eu' ? [...key, law] : key);
}

const endsOf = ({ leastConductive, mostConductive, acid, alkaline }: Ends<Ions>): Ends<Ions> => ({
  leastConductive,
  mostConductive,
  acid,
  alkaline,
});
