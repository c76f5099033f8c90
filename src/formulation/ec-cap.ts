import { solve } from '../../solver/index.js';
import { conductingIons, conductivity, ionsOfMix } from './ec.js';
import { type EcPlane, firstPlane, planeAt, planeOfProduct, planeOfWater } from './ec-row.js';
import { amountsOf } from './amounts.js';
import { formulate, shortNumber } from './formulate.js';
import type { Amounts } from './readout.js';
import { ecCap, type FeedRequest } from './request.js';

/** Rounds of linearisation at most; tests end within them. */
export const MOST_ROUNDS = 6;
/** A mix this near below its cap has nothing left to win; a pen repeats within 1 to 2 %. */
const NEAR = 1e-3;
const KEPT = 1e-6;

/** A result with the plane that its EC row stood on. */
export interface Capped<T> {
  result: T;
  /** The request with that plane. */
  request: FeedRequest;
  round: number;
  /** True where the EC row holds the mix back; where not, the result stands whatever the plane. */
  presses: boolean;
}

/**
 * Solves with the EC row as a plane, measures the mix by the full model, lets the plane touch the model at that mix, and solves again, until
 * the mix keeps the cap by the full model and stands at it (or the row does not hold it back). Each plane lies above the model where
 * that bends downwards, so every mix found keeps the cap and the next is no worse: the concave–convex procedure. A mix over the
 * cap is cut off by its own plane, moved by what it was over from the fourth round on.
 * @param mixOf the amounts of a result, or null where there is no mix to measure
 */
export async function underEcCap<T>(
  request: FeedRequest,
  run: (request: FeedRequest) => Promise<T>,
  mixOf: (result: T) => Amounts | null,
): Promise<Capped<T>> {
  const cap = ecCap(request);
  let current: FeedRequest = { ...request, ecPlane: request.ecPlane ?? firstPlane(request) };
  if (cap === null) return { result: await run(request), request, round: 1, presses: false };
  let kept: Capped<T> | null = null;
  let last: Capped<T> | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const result = await run(current);
    const amounts = mixOf(result);
    if (!amounts) return kept ?? { result, request: current, round, presses: true };
    const plane = current.ecPlane!;
    last = { result, request: current, round, presses: onPlane(plane, amounts, request) >= cap * (1 - KEPT) };
    const ions = conductingMix(amounts, request);
    const ec = conductivity(ions);
    if (ec <= cap * (1 + KEPT)) kept = last;
    if (kept === last && (!last.presses || ec >= cap * (1 - NEAR))) return kept;
    const touching = planeAt(ions, `${shortNumber(ec)} mS/cm, the mix of round ${round}`);
    const over = kept === last || round < 4 ? 0 : ec - cap;
    current = { ...request, ecPlane: { ...touching, constant: touching.constant + over } };
  }
  return kept ?? last!;
}

/**
 * The mix of least EC that keeps every other limit, by planes in turn; null where even without the cap none does. Least for the last
 * plane: a lower one elsewhere is not excluded.
 */
export async function leastEc(request: FeedRequest): Promise<{ ec: number; plane: EcPlane } | null> {
  let plane = request.ecPlane ?? firstPlane(request);
  let least: { ec: number; plane: EcPlane } | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const formulated = formulate({ ...request, ecPlane: plane });
    const terms = formulated.program.rows.find((row) => row.id === 'ec')?.terms ?? {};
    const verdict = await solve({
      columns: formulated.program.columns.map((c) => ({ ...c, cost: terms[c.id] ?? 0 })),
      rows: formulated.program.rows.filter((row) => row.id !== 'ec'),
    });
    if (verdict.verdict !== 'optimal') return least;
    const ions = conductingMix(amountsOf(verdict, formulated), request);
    const ec = conductivity(ions);
    if (least && ec >= least.ec * (1 - NEAR)) return least;
    plane = planeAt(ions, `${shortNumber(ec)} mS/cm, the least found with every other limit kept`);
    least = { ec, plane };
  }
  return least;
}

/** What the proof says about the EC row; empty where it does not matter. */
export function ecWords({ request, round, presses }: Capped<unknown>): string {
  if (!presses || ecCap(request) === null || !request.ecPlane) return '';
  return `; EC row linearised at ${request.ecPlane.at} (round ${round})`;
}

function conductingMix(amounts: Amounts, { shelf, waters }: FeedRequest): ReturnType<typeof ionsOfMix> {
  return ionsOfMix(amounts, shelf, waters, 'value', conductingIons);
}

function onPlane(plane: EcPlane, amounts: Amounts, { shelf, waters }: FeedRequest): number {
  const products = amounts.products.reduce((sum, x, i) => sum + (x > 0 ? x * planeOfProduct(plane, shelf[i]!) : 0), 0);
  return amounts.waters.reduce((sum, share, i) => sum + share * planeOfWater(plane, waters[i]!), products);
}
