import type { Row, Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { FeedRequest } from '../feed/request.js';
import type { Decides } from '../feed/results.js';
import { waterContent } from '../feed/terms.js';
import type { Formulated, Limited } from '../formulation/index.js';

/** A multiplier below this share of the largest does not limit anything. */
const PRESSES = 1e-7;

/** A limit with its part in a proof. */
export interface Part extends Limited {
  part: number;
}

/**
 * The limits that a proof leans on, the greatest part first: multiplier times what the row amounts to, so that mS/cm and mg/L, a bound
 * and a ratio stand side by side.
 * @param besides told too, whatever their part
 */
export function partsOf(
  { limited }: Pick<Formulated, 'limited'>,
  verdict: Verdict,
  besides: readonly Limited[] = [],
): Part[] {
  const weights = verdict.verdict === 'optimal' ? verdict.y : verdict.verdict === 'infeasible' ? verdict.ray : {};
  const x = verdict.verdict === 'optimal' ? verdict.x : {};
  const parts = limited.map(({ limit, row }) => ({
    limit,
    row,
    part: Math.abs(weights[row.id] ?? 0) * sizeOf(row, x),
  }));
  const most = Math.max(0, ...parts.map(({ part }) => part));
  const tells = ({ part, row }: Part): boolean =>
    (most > 0 && part > PRESSES * most) || besides.some((one) => one.row.id === row.id);
  return parts.filter(tells).sort((a, b) => b.part - a.part);
}

/** The bound of a row; for a ratio, whose bound is 0, what one side of it comes to in the mix, or else its largest coefficient. */
function sizeOf(row: Row, x: Readonly<Record<string, number>>): number {
  const bound = Math.max(Math.abs(row.lower ?? 0), Math.abs(row.upper ?? 0));
  if (bound > 0) return bound;
  const side = Object.entries(row.terms).reduce((sum, [id, a]) => sum + Math.max(0, a) * (x[id] ?? 0), 0);
  return side > 0 ? side : Math.max(0, ...Object.values(row.terms).map(Math.abs));
}

/**
 * The one product or limit that keeps an element from where it is wanted.
 * @param short true where there is too little of it, false where too much
 * @param parts what may be named, the first first
 */
export function decidesOn(
  { shelf, waters }: FeedRequest,
  nutrient: Nutrient,
  short: boolean,
  [first]: readonly Pick<Part, 'limit'>[],
): Decides | null {
  const sources = sourcesOf(shelf, nutrient);
  const byWater = waters.some((water) => waterContent(water, nutrient) > 0);
  if (short && sources.length === 0 && (first === undefined || !byWater)) return { kind: 'nothing brings it' };
  if (first === undefined) return null;
  const { limit } = first;
  if (limit.kind === 'water')
    return { kind: 'water', mgPerLitre: Math.min(...waters.map((water) => waterContent(water, nutrient))) };
  const own = limit.kind === 'stock' || limit.kind === 'rate';
  return short && sources.length === 1 && !own
    ? { kind: 'only source', product: sources[0]!.id, limit }
    : { kind: 'limit', limit };
}

/** The products that bring an element. */
export const sourcesOf = (shelf: FeedRequest['shelf'], nutrient: Nutrient): FeedRequest['shelf'] =>
  shelf.filter(({ composition: { content } }) => (content[nutrient].stated ?? content[nutrient].low) > 0);

/** What a proof leans on and can be named: what the waters bring adds to too much and takes from too little. */
export function namedParts(formulated: Pick<Formulated, 'limited'>, verdict: Verdict): Part[] {
  const multiplier = (row: Row): number => (verdict.verdict === 'optimal' ? (verdict.y[row.id] ?? 0) : 0);
  return partsOf(formulated, verdict).filter(({ limit, row }) => limit.kind !== 'water' || multiplier(row) > 0);
}
