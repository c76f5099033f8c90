import type { MilliSiemensPerCm } from '../units/index.js';
import { solve } from '../../solver/index.js';
import { conductivity } from '../chemistry/conductivity.js';
import { conductingIons, ionsOfMix } from '../can/ec.js';
import type { EcLinearisation, EcStanding } from '../feed/ec-linearisation.js';
import { firstLinearisation, linearisationAt, linearisationOfProduct, linearisationOfWater } from './ec-row.js';
import { amountsOf } from './amounts.js';
import { ecRowOf, formulate, type Formulated, type FormulateOptions } from './formulate.js';
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
  /** Null without a cap. */
  linearisation: EcLinearisation | null;
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
 * @param run solves a program that stands on the linearisation of the round
 * @param mixOf the amounts of a result, or null where there is no mix to measure
 */
export async function underEcCap<T>(
  request: FeedRequest,
  run: (formulated: Formulated) => Promise<T>,
  mixOf: (result: T) => Amounts | null,
  { from, inside = null, program = {} }: UnderCapOptions = {},
): Promise<Capped<T>> {
  const cap = ecCap(request);
  if (cap === null) {
    const result = await run(formulate(request, null, program));
    return { result, linearisation: null, round: 1, presses: false, keeps: true };
  }
  let linearisation = from ?? firstLinearisation(request);
  let safe = inside;
  let kept: Capped<T> | null = null;
  let last: Capped<T> | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const result = await run(formulate(request, linearisation, program));
    const amounts = mixOf(result);
    if (!amounts) return kept ?? { result, linearisation, round, presses: true, keeps: true };
    const presses = onLinearisation(linearisation, amounts, request) >= cap * (1 - KEPT);
    const ec = fullEc(amounts, request);
    const keeps = ec <= cap * (1 + KEPT);
    last = { result, linearisation, round, presses, keeps };
    if (keeps) {
      kept = last;
      safe = amounts;
      if (!presses || ec >= cap * (1 - NEAR)) return kept;
    }
    const at = keeps || !safe ? amounts : crossing(safe, amounts, cap, request);
    const touching = linearisationAt(conductingMix(at, request), {
      at: at === amounts ? 'round' : 'way',
      mSPerCm: fullEc(at, request),
      round,
    });
    const over = keeps || round < 2 ? 0 : round * (ec - cap);
    const room = safe ? 0.9 * Math.max(0, cap - onLinearisation(touching, safe, request)) : over;
    linearisation = { ...touching, constant: touching.constant + Math.min(over, room) };
  }
  return kept ?? last!;
}

/** Where to begin, and which limits to keep. */
export interface UnderCapOptions {
  /** The first linearisation; by default one that suits the programme. */
  from?: EcLinearisation;
  /** A mix known to keep every limit, the cap too. */
  inside?: Amounts | null;
  program?: FormulateOptions;
}

/**
 * The same, and where the first linearisation leaves no mix, its EC row perhaps among the reasons, once more from the mix of least EC:
 * limits are only called impossible where that, too, is over the cap.
 * @param blames `no`: there is a result; `no part`: there is none, and EC has no part in it; `may be`: there is none, and EC may be why
 */
export async function withSecondLook<T>(
  request: FeedRequest,
  run: (formulated: Formulated) => Promise<T>,
  mixOf: (result: T) => Amounts | null,
  blames: (result: T) => 'no' | 'no part' | 'may be',
  program: FormulateOptions = {},
): Promise<Capped<T>> {
  const first = await underEcCap(request, run, mixOf, { program });
  const blame = blames(first.result);
  const cap = ecCap(request);
  if (blame === 'no' || cap === null) return first;
  const least = blame === 'no part' ? null : await leastEc(request, program);
  if (!least) return { ...first, presses: false };
  // with few products the mix of least EC is no mix of theirs
  const inside = request.atMost === undefined && least.ec <= cap ? least.amounts : null;
  return underEcCap(request, run, mixOf, { from: least.linearisation, inside, program });
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
 * The mix of least EC that keeps every other limit, by linearisations in turn; null where even without the cap none does. It is proved
 * least for the last linearisation only: by the full model another mix may read lower.
 */
export async function leastEc(request: FeedRequest, program: FormulateOptions = {}): Promise<Least | null> {
  let linearisation = firstLinearisation(request);
  let least: Least | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const formulated = formulate(request, linearisation, program);
    const ecRow = ecRowOf(formulated);
    const terms = ecRow?.terms ?? {};
    const verdict = await solve({
      columns: formulated.program.columns.map((c) => ({ ...c, cost: terms[c.id] ?? 0 })),
      rows: formulated.program.rows.filter((row) => row !== ecRow),
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
export function standingOf({ linearisation, round, presses, keeps }: Capped<unknown>): EcStanding | null {
  return presses && linearisation ? { touches: linearisation.touches, round, keeps } : null;
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
