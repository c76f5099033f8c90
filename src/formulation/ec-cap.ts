import type { MilliSiemensPerCm } from '../units/index.js';
import { solve } from '../../solver/index.js';
import { conductingIons, conductivity, ionsOfMix } from '../can/ec.js';
import type { EcLinearisation, EcStanding } from '../feed/ec-linearisation.js';
import { firstLinearisation, linearisationAt, linearisationOfProduct, linearisationOfWater } from './ec-row.js';
import { amountsOf } from './amounts.js';
import { formulate } from './formulate.js';
import type { Amounts } from '../can/mix-amounts.js';
import { ecCap, type FeedRequest } from '../feed/request.js';

/** Rounds of linearisation at most; tests end within them. */
export const MOST_ROUNDS = 6;
/** A mix this near below its cap has nothing left to win; a pen repeats within 1 to 2 %. */
const NEAR = 1e-3;
const KEPT = 1e-6;

/** A result with the linearisation that its EC row stood on. */
export interface Capped<T> {
  result: T;
  /** The request with that linearisation. */
  request: FeedRequest;
  round: number;
  /** True where the EC row holds the mix back; where not, the result stands whatever the linearisation. */
  presses: boolean;
  /** False where a mix is over the cap by the full model after all rounds. */
  keeps: boolean;
}

/**
 * Solves with the EC row as a linearisation, measures the mix by the full model, lets the linearisation touch the model at that mix, and solves again, until
 * the mix keeps the cap by the full model and stands at it (or the row does not hold it back). Each linearisation lies above the model where
 * that bends downwards, so every mix found keeps the cap and the next is no worse: the concave–convex procedure. Where it bends
 * upwards (acid meets alkali) a mix may come out over the cap: then the linearisation is taken where the way to it from a mix inside the cap
 * crosses the cap, and from the second such round on it is also moved in, further each time.
 * @param mixOf the amounts of a result, or null where there is no mix to measure
 * @param inside a mix known to keep every limit, the cap too
 */
export async function underEcCap<T>(
  request: FeedRequest,
  run: (request: FeedRequest) => Promise<T>,
  mixOf: (result: T) => Amounts | null,
  inside: Amounts | null = null,
): Promise<Capped<T>> {
  const cap = ecCap(request);
  if (cap === null) return { result: await run(request), request, round: 1, presses: false, keeps: true };
  let current: FeedRequest = { ...request, ecLinearisation: request.ecLinearisation ?? firstLinearisation(request) };
  let safe = inside;
  let kept: Capped<T> | null = null;
  let last: Capped<T> | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const result = await run(current);
    const amounts = mixOf(result);
    if (!amounts) return kept ?? { result, request: current, round, presses: true, keeps: true };
    const presses = onLinearisation(current.ecLinearisation!, amounts, request) >= cap * (1 - KEPT);
    const ec = fullEc(amounts, request);
    const keeps = ec <= cap * (1 + KEPT);
    last = { result, request: current, round, presses, keeps };
    if (keeps) {
      kept = last;
      safe = amounts;
      if (!presses || ec >= cap * (1 - NEAR)) return kept;
    }
    const at = keeps || !safe ? amounts : crossing(safe, amounts, cap, request);
    const linearisation = linearisationAt(conductingMix(at, request), {
      at: at === amounts ? 'round' : 'way',
      mSPerCm: fullEc(at, request),
      round,
    });
    const over = keeps || round < 2 ? 0 : round * (ec - cap);
    const room = safe ? 0.9 * Math.max(0, cap - onLinearisation(linearisation, safe, request)) : over;
    current = {
      ...request,
      ecLinearisation: { ...linearisation, constant: linearisation.constant + Math.min(over, room) },
    };
  }
  return kept ?? last!;
}

/** The mix at the cap on the straight way from a mix inside it to one outside; every linear limit that both keep holds there too. */
function crossing(from: Amounts, to: Amounts, cap: number, request: FeedRequest): Amounts {
  let [low, high] = [0, 1];
  const between = (share: number): Amounts => ({
    products: from.products.map((x, i) => x + share * (to.products[i]! - x)),
    waters: from.waters.map((x, i) => x + share * (to.waters[i]! - x)),
  });
  for (let step = 0; step < 12; step += 1) {
    const middle = (low + high) / 2;
    if (fullEc(between(middle), request) <= cap) low = middle;
    else high = middle;
  }
  return between(low);
}

/**
 * The mix of least EC that keeps every other limit, by linearisations in turn; null where even without the cap none does. Least for the last
 * linearisation: a lower one elsewhere is not excluded.
 */
export async function leastEc(request: FeedRequest): Promise<Least | null> {
  let linearisation = request.ecLinearisation ?? firstLinearisation(request);
  let least: Least | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const formulated = formulate({ ...request, ecLinearisation: linearisation });
    const terms = formulated.program.rows.find((row) => row.id === 'ec')?.terms ?? {};
    const verdict = await solve({
      columns: formulated.program.columns.map((c) => ({ ...c, cost: terms[c.id] ?? 0 })),
      rows: formulated.program.rows.filter((row) => row.id !== 'ec'),
    });
    if (verdict.verdict !== 'optimal') return least;
    const amounts = amountsOf(verdict, formulated);
    const ions = conductingMix(amounts, request);
    const ec = conductivity(ions);
    if (least && ec >= least.ec * (1 - NEAR)) return least;
    linearisation = linearisationAt(ions, { at: 'least', mSPerCm: ec });
    least = { ec, linearisation, amounts };
  }
  return least;
}

interface Least {
  ec: MilliSiemensPerCm;
  linearisation: EcLinearisation;
  amounts: Amounts;
}

/** What an answer has to say about the EC row: null where it does not matter. */
export function standingOf({ request, round, presses, keeps }: Capped<unknown>): EcStanding | null {
  if (!presses || ecCap(request) === null || !request.ecLinearisation) return null;
  return { touches: request.ecLinearisation.touches, round, keeps };
}

/** mS/cm of a mix by the full model. */
export function fullEc(amounts: Amounts, request: FeedRequest): MilliSiemensPerCm {
  return conductivity(conductingMix(amounts, request));
}

/** The linearisation that touches the model at a mix. */
export function linearisationOfMix(amounts: Amounts, request: Pick<FeedRequest, 'shelf' | 'waters'>): EcLinearisation {
  const ions = conductingMix(amounts, request);
  return linearisationAt(ions, { at: 'mix', mSPerCm: conductivity(ions) });
}

function conductingMix(
  amounts: Amounts,
  { shelf, waters }: Pick<FeedRequest, 'shelf' | 'waters'>,
): ReturnType<typeof ionsOfMix> {
  return ionsOfMix(amounts, shelf, waters, 'value', conductingIons);
}

function onLinearisation(linearisation: EcLinearisation, amounts: Amounts, { shelf, waters }: FeedRequest): number {
  const products = amounts.products.reduce(
    (sum, x, i) => sum + (x > 0 ? x * linearisationOfProduct(linearisation, shelf[i]!) : 0),
    0,
  );
  return amounts.waters.reduce(
    (sum, share, i) => sum + share * linearisationOfWater(linearisation, waters[i]!),
    products,
  );
}
