import type { Limit } from '../feed/limits.js';
import { aimsOf, factorOf, MAIN_ELEMENTS, nearBands, type NearAsked, NITROGEN_WITHIN } from '../feed/near.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedSettled, FewSettled } from '../feed/proof.js';
import type { FeedRequest } from '../feed/request.js';
import { waterContent } from '../feed/terms.js';
import { cheapest, type FeedAnswer, type FeedFound, programOn } from '../formulation/index.js';

/** The least widths at which a shelf has a plan, and what keeps it from nearer ones. */
export interface NearestWidth {
  asked: NearAsked;
  /** The cheapest mix at those widths. */
  found: FeedFound;
  /** The limits that contradict each other a little nearer; empty where nearer was not asked for. */
  stoppedBy: Limit[];
  /** What was answered to the same a little nearer; null where nearer was not asked for. */
  nearer: FeedSettled | FewSettled | null;
  /** The widths of `nearer`. */
  nearerAt: NearAsked | null;
}

/** Between the two ends of a bisection: no plant could tell widths that lie so near to each other. */
const CLOSE = 1.005;
/** The same for the share of its aim within which nitrogen lies. */
const NITROGEN_CLOSE = 1.02;
/** Beyond this the shelf holds next to nothing of an element: it is as good as missing. */
const FAR = 2 ** 10;

/**
 * The least factor, from `from` upwards, at which a mix keeps every limit and lies near its aims; each end of the bisection is a certified
 * program. Where even far widths leave no mix, nitrogen is held less tightly; where that does not help either, the answer of the limits
 * alone says why.
 * @param from the factor that is asked for; nothing nearer is sought
 * @param nitrogen share of its aim within which nitrogen is held
 */
export async function nearestWidth(
  request: FeedRequest,
  from: number,
  shared: Pick<NearAsked, 'own'> = {},
  nitrogen = NITROGEN_WITHIN,
): Promise<NearestWidth | Exclude<FeedAnswer, FeedFound>> {
  const without = missingFrom(request);
  const at = (factor: number, nitrogenWithin = nitrogen): NearAsked => ({
    factor,
    nitrogenWithin,
    without,
    ...shared,
  });
  const solved = (asked: NearAsked): Promise<FeedAnswer> => cheapest(nearRequest(request, asked));

  const first = await solved(at(from));
  if (first.answer === 'found') return { asked: at(from), found: first, stoppedBy: [], nearer: null, nearerAt: null };
  const widest = await widestOf(request, at(FAR), solved);
  if (widest.found.answer !== 'found') return widest.found;
  const { nitrogenWithin, apart = [] } = widest.asked;
  const leftOut = [...without, ...apart];

  let high = { asked: widest.asked, found: widest.found, reached: reachedBy(widest.found, request, leftOut) };
  let low: { asked: NearAsked; answer: FeedAnswer } = { asked: at(from), answer: first };
  const ask = async (factor: number): Promise<void> => {
    const asked = { ...at(factor, nitrogenWithin), apart };
    const answer = await solved(asked);
    if (answer.answer === 'found')
      high = { asked, found: answer, reached: Math.min(factor, reachedBy(answer, request, leftOut)) };
    else low = { asked, answer };
  };
  if (nitrogenWithin > nitrogen || apart.length > 0) await ask(from);
  for (let factor = from * 2; factor < high.reached; factor *= 2) await ask(factor);
  while (high.reached > low.asked.factor * CLOSE) await ask(Math.sqrt(high.reached * low.asked.factor));
  return {
    ...(high.reached < high.asked.factor ? await tightest(high, solved) : high),
    stoppedBy: limitsAgainst(nearRequest(request, low.asked), low.answer),
    nearer: settledOf(low.answer),
    nearerAt: low.asked,
  };
}

function settledOf({ proof: { settled } }: FeedAnswer): NearestWidth['nearer'] {
  return settled.question === 'feed' || settled.question === 'at most' ? settled : null;
}

interface Placed {
  asked: NearAsked;
  found: FeedFound;
}

/** At the widths that the last mix really has, where those are solved too. */
async function tightest(
  { asked, found, reached }: Placed & { reached: number },
  solved: (asked: NearAsked) => Promise<FeedAnswer>,
): Promise<Placed> {
  const own = { ...asked, factor: reached };
  const answer = await solved(own);
  return answer.answer === 'found' ? { asked: own, found: answer } : { asked, found };
}

/** A mix near to nothing but nitrogen's aim, and where there is none, less near to that; at last by the limits alone. */
async function widestOf(
  request: FeedRequest,
  far: NearAsked,
  solved: (asked: NearAsked) => Promise<FeedAnswer>,
): Promise<{ asked: NearAsked; found: FeedAnswer }> {
  const at = async (nitrogenWithin: number): Promise<{ asked: NearAsked; found: FeedAnswer }> => {
    const asked = { ...far, nitrogenWithin };
    return { asked, found: await solved(asked) };
  };
  let none = 0;
  for (let within = far.nitrogenWithin; within < 1; none = within, within *= 2) {
    let widest = await at(within);
    if (widest.found.answer !== 'found') continue;
    for (let high = within; none > 0 && high > none * NITROGEN_CLOSE; high = widest.asked.nitrogenWithin) {
      const middle = (none + high) / 2;
      const tried = await at(middle);
      if (tried.found.answer === 'found') widest = tried;
      else none = middle;
    }
    return widest;
  }
  const { near: _, ...bare } = request;
  const found = await cheapest(bare);
  return found.answer === 'found' ? holdingMost(request, far, found, solved) : { asked: far, found };
}

/** The elements that a mix can hold together: main elements before trace elements, each kept where one still exists with it. */
async function holdingMost(
  request: FeedRequest,
  far: NearAsked,
  bare: FeedFound,
  solved: (asked: NearAsked) => Promise<FeedAnswer>,
): Promise<Placed> {
  const open = aimsOf(request.programme)
    .map(([nutrient]) => nutrient)
    .filter((nutrient) => nutrient !== 'N' && !far.without.includes(nutrient))
    .sort((a, b) => Number(MAIN_ELEMENTS.includes(b)) - Number(MAIN_ELEMENTS.includes(a)));
  let kept: Placed | null = null;
  for (let { nitrogenWithin } = far; kept === null && nitrogenWithin < 1; nitrogenWithin *= 2) {
    const asked = { ...far, nitrogenWithin, apart: open };
    const found = await solved(asked);
    if (found.answer === 'found') kept = { asked, found };
  }
  kept ??= { asked: { ...far, nitrogenWithin: 1, apart: open }, found: bare };
  for (const nutrient of open) {
    const asked: NearAsked = { ...kept.asked, apart: kept.asked.apart!.filter((other) => other !== nutrient) };
    const found = await solved(asked);
    if (found.answer === 'found') kept = { asked, found };
  }
  return kept;
}

/** The cheapest mix as near to the aims as usual, or as near as the shelf comes; the answer of its limits where there is none. */
export async function nearMix(request: FeedRequest): Promise<FeedAnswer> {
  const nearest = await nearestWidth(request, 1);
  return 'found' in nearest ? nearest.found : nearest;
}

/** The least factor of all, below the usual one: how near the shelf comes at all. */
export const nearestOfAll = (request: FeedRequest, seek = nearestWidth): ReturnType<typeof nearestWidth> =>
  seek(request, LEAST);

/** At this factor a main element lies within 1 % of its aim. */
const LEAST = 1.01 / 1.35;

/** The request with its plan held near the aims. */
export const nearRequest = (request: FeedRequest, asked: NearAsked): FeedRequest => ({
  ...request,
  goal: 'cheapest',
  near: nearBands(request.programme, asked),
});

/** Elements with an aim that neither a product nor a water holds. */
export function missingFrom({ programme, shelf, waters }: FeedRequest): Nutrient[] {
  return aimsOf(programme)
    .map(([nutrient]) => nutrient)
    .filter(
      (nutrient) =>
        nutrient !== 'N' &&
        shelf.every(({ composition, onHand }) => onHand === 0 || !((composition.content[nutrient].stated ?? 0) > 0)) &&
        waters.every((water) => !(waterContent(water, nutrient) > 0)),
    );
}

/** The factor at which a mix lies: never more than it was solved for. */
function reachedBy({ amounts }: FeedFound, request: FeedRequest, without: readonly Nutrient[]): number {
  return aimsOf(request.programme).reduce((most, [nutrient, aim]) => {
    if (nutrient === 'N' || without.includes(nutrient)) return most;
    return Math.max(most, factorOf(nutrient, heldOf(nutrient, amounts, request), aim) * (1 + 1e-9));
  }, 0);
}

/** mg/L of an element in a mix, as labels state it. */
export function heldOf(
  nutrient: Nutrient,
  { products, waters }: Amounts,
  request: Pick<FeedRequest, 'shelf' | 'waters'>,
): number {
  const inProducts = products.reduce((sum, x, i) => {
    const content = request.shelf[i]!.composition.content[nutrient];
    return sum + x * (content.stated ?? content.low);
  }, 0);
  return waters.reduce((sum, share, i) => sum + share * waterContent(request.waters[i]!, nutrient), inProducts);
}

/** The limits that a proof of "none" leans on, read off its rows. */
function limitsAgainst(request: FeedRequest, answer: FeedAnswer): Limit[] {
  const { settled } = answer.proof;
  if (settled.question !== 'feed') return [];
  const last = settled.stages.at(-1)!.verdict;
  if (last.verdict !== 'infeasible') return [];
  return programOn(request, answer.linearisation)
    .limited.filter(({ row }) => (last.ray[row.id] ?? 0) !== 0)
    .map(({ limit }) => limit);
}
