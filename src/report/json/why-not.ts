import type * as z from 'zod';
import type { ConflictLine, FarkasSum, Relaxation, WhyNot } from '../../feed/results.js';
import { becauseLines } from '../says/because.js';
import { limitFrom, limitSays } from '../says/limits.js';
import { farkasSays, moveSays, sourceSays, waySays } from '../says/why-not.js';
import type { blendCannotShape } from '../schemas.js';

type CannotJson = z.infer<typeof blendCannotShape>;
type WhyNotJson = Pick<CannotJson, 'absent' | 'conflict' | 'irreducible' | 'farkas' | 'relaxations'>;

/** Why there is no feed, as it is published. */
export function whyNotJson({ absent, conflict, irreducible, farkas, relaxations }: WhyNot): WhyNotJson {
  return {
    absent: absent.map(({ element, min, broughtBy }) => ({ element, min, broughtBy: broughtBy.map(sourceSays) })),
    conflict: conflict.map(conflictJson),
    irreducible,
    farkas: farkas && farkasJson(farkas),
    relaxations: relaxations.map(wayJson),
  };
}

export const conflictJson = ({ limit, because }: ConflictLine): CannotJson['conflict'][number] => ({
  limit: limitSays(limit),
  from: limitFrom(limit),
  because: because.flatMap(becauseLines),
});

function farkasJson(sum: FarkasSum): NonNullable<CannotJson['farkas']> {
  const { terms, asked, most } = sum;
  return {
    terms: terms.map(({ limit, end, bound, times }) => ({ limit: limitSays(limit), end, bound, times })),
    asked,
    most,
    sentence: farkasSays(sum),
  };
}

export const wayJson = (way: Relaxation): CannotJson['relaxations'][number] => ({
  kind: way.kind,
  ...waySays(way),
  ...(way.kind === 'together' ? { moves: way.moves.map(moveSays) } : {}),
});
