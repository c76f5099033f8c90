import { canCautions } from '../can/can-cautions.js';
import { type Caution, cautionsFor, inOneList, ureaCaution } from '../can/cautions.js';
import { Proof, type Stop } from '../feed/proof.js';
import { compare } from './compare.js';
import { atLeastEc, ecReserve, keepsCaps } from './ec.js';
import { factorIn, type Held, heldNear } from './held.js';
import { lookFor } from './look-for.js';
import { optionOf } from './option.js';
import { type Joint, jointProgram } from './program.js';
import { answerOf, isOver, type Search, search, stopAt } from './search.js';
import {
  keepsLimits,
  type PurchaseCannot,
  type PurchaseMade,
  type PurchaseNote,
  type PurchaseOpen,
  type PurchaseOption,
  type PurchaseOptions,
  type PurchaseRequest,
  type PurchaseResult,
  type PurchaseUnfinished,
  type Unproved,
  type Way,
} from './types.js';
import { type Chosen, nearest, simplest } from './ways.js';
import { failuresOf } from './why.js';

/**
 * The cheapest whole packs with which every feed can be given over the horizon near its aims, the shelf used first; that of the fewest new
 * products; the nearest for twice the money; and what they are worth beside other ways. Where no purchase does, why. A search that is not
 * finished never says that nothing does.
 */
export async function purchase(request: PurchaseRequest, options: PurchaseOptions = {}): Promise<PurchaseResult> {
  options.onStep?.({ kind: 'near' });
  const held = await heldNear(request, request.factor ?? 1, options);
  if (held === null) return unfinished(request, { by: 'time' });
  options.onStep?.({ kind: 'best' });
  let first = await cheapestOf(request, held, jointProgram(held.request), options);
  // the linearisation of the least EC has the last word on what is impossible, as in blend
  const second = isNone(first) || isOverCap(first) ? await atLeastEc(first.joint, options) : null;
  if (second) {
    const again = await cheapestOf(request, held, second, options);
    const isBetter = again.listed === null ? isNone(again) : isSettled(again.listed);
    // a search that was cut short leaves open what the first one ruled out
    if (isBetter || (isNone(first) && isCutShort(again))) first = again;
  } else if (isNone(first) && isOver(options)) return unfinished(request, { by: 'time' });
  if (first.listed !== null) return made(request, first.joint, first.listed, options);
  const stopped = first.answer as Extract<Search, { found: null }>;
  return stopped.none ? nothing(first.joint, stopped, options) : unfinished(request, stopped.stopped);
}

async function made(
  request: PurchaseRequest,
  joint: Joint,
  best: Listed,
  options: PurchaseOptions,
): Promise<PurchaseMade> {
  const { listed, notes } = await otherWays(request, best, options);
  options.onStep?.({ kind: 'beside' });
  const oneMore = await oneMoreAllowed(joint, options);
  const comparison = isOver(options) || options.beside === false ? null : await compare(joint, best, options);
  const reserve = isSettled(best) ? await ecReserve(joint, best.option, options) : null;
  const beside = isOver(options) && notes.every(({ kind }) => kind !== 'not finished') ? [NO_TIME_BESIDE] : [];
  const proofOf = ({ chosen, overCap }: Listed): Proof =>
    Proof.of({
      question: 'purchase',
      ...horizonOf(joint),
      way: chosen.way,
      near: factorIn(chosen.held.near),
      answer: answerOf(chosen.found),
      overCap,
      reserve: chosen.joint === joint ? reserve : null,
    });
  const told = listed.map(({ one, ways }) => ({
    one,
    option: { ...one.option, ways, factor: factorIn(one.chosen.held.near), proof: proofOf(one) },
  }));
  // what the kit cannot measure closely enough is told, and told last
  told.sort((a, b) => Number(keepsLimits(b.option)) - Number(keepsLimits(a.option)));
  const [{ one: foremost, option: first }] = told as [(typeof told)[number]];
  return {
    status: 'made',
    ...headOf(request),
    options: told.map(({ option }) => option) as [PurchaseOption, ...PurchaseOption[]],
    lookFor: await lookFor(foremost.chosen.joint, foremost.chosen.found.counts, options),
    oneMoreAllowed: oneMore,
    comparison,
    notes: [...notesOf(joint), ...notes, ...beside],
    cautions: cautionsOf(joint, first),
    proof: first.proof,
  };
}

async function nothing(
  joint: Joint,
  answer: Extract<Search, { none: true }>,
  options: PurchaseOptions,
): Promise<PurchaseCannot | PurchaseOpen> {
  const proof = Proof.of({
    question: 'purchase',
    ...horizonOf(joint),
    way: { kind: 'cheapest' },
    near: null,
    answer: { found: false, none: true, byArithmetic: answer.byArithmetic, engine: answer.engine },
    overCap: [],
    reserve: null,
  });
  options.onStep?.({ kind: 'why not' });
  return {
    status: proof.verdict === 'infeasible' ? 'cannot' : 'open',
    ...headOf(joint.request),
    failures: await failuresOf(joint, options),
    notes: notesOf(joint),
    cautions: [],
    proof,
  };
}

const NO_TIME_BESIDE = { kind: 'not finished', at: 'beside', stopped: { by: 'time' } } as const;

/** What a purchase comes to of which nothing is known yet. */
export function unfinished(request: PurchaseRequest, stopped: Stop): PurchaseUnfinished {
  const { currency, weeks } = request;
  const answer = { found: false, none: false, stopped } as const;
  return {
    status: 'unfinished',
    ...headOf(request),
    stopped,
    notes: [],
    cautions: [],
    proof: Proof.of({
      question: 'purchase',
      currency,
      weeks,
      way: CHEAPEST,
      near: null,
      answer,
      overCap: [],
      reserve: null,
    }),
  };
}

const CHEAPEST = { kind: 'cheapest' } as const;

/** An option with what the search said of it. */
interface Listed extends Unproved {
  chosen: Chosen;
}

/** The search for the cheapest. */
interface First {
  joint: Joint;
  answer: Search;
  listed: Listed | null;
}

async function cheapestOf(
  request: PurchaseRequest,
  held: Held,
  joint: Joint,
  options: PurchaseOptions,
): Promise<First> {
  const answer = await search(joint, options);
  if (!answer.found) return { joint, answer, listed: null };
  const factor = request.factor ?? 1;
  const listed = await read(request, { way: CHEAPEST, joint, held, factor, found: answer.found });
  return { joint, answer, listed };
}

async function read(request: PurchaseRequest, chosen: Chosen): Promise<Listed> {
  const requests = request.feeds.map((feed) => feed.request);
  return { ...(await optionOf(chosen.joint, chosen.found, requests, chosen.factor)), chosen };
}

/** The options beside the cheapest, each told once. */
async function otherWays(
  request: PurchaseRequest,
  best: Listed,
  options: PurchaseOptions,
): Promise<{ listed: { one: Listed; ways: [Way, ...Way[]] }[]; notes: PurchaseNote[] }> {
  const listed: { one: Listed; ways: [Way, ...Way[]] }[] = [{ one: best, ways: ['cheapest'] }];
  if (best.chosen.found.boundBy === null)
    return { listed, notes: [{ kind: 'not finished', at: 'best', stopped: stopAt(options) }] };
  const notes: PurchaseNote[] = [];
  for (const way of ['simplest', 'nearest'] as const) {
    if (!(options.ways ?? [way]).includes(way)) continue;
    options.onStep?.({ kind: 'way', way });
    const choice = await (way === 'simplest' ? simplest(best.chosen, options) : nearest(request, best.chosen, options));
    if (choice.found === null) {
      if (choice.stopped) notes.push({ kind: 'not finished', at: 'more', stopped: choice.stopped.stopped });
      continue;
    }
    const same = listed.find(({ one }) => isSame(one.chosen, choice));
    if (same) same.ways.push(way);
    else listed.push({ one: await read(request, choice), ways: [way] });
  }
  return { listed, notes: notes.slice(0, 1) };
}

/** The same packs: pools are in the same order, for they are of the same request. */
const isSame = (a: Chosen, b: Chosen): boolean => a.found.counts.every((count, i) => count === b.found.counts[i]);

const isNone = ({ answer }: First): boolean => answer.found === null && answer.none;
const isOverCap = ({ listed }: First): boolean => listed !== null && !keepsCaps(listed.option);
/** The search for the best was not finished. */
const isCutShort = ({ answer }: First): boolean =>
  answer.found === null ? !answer.none : answer.found.boundBy === null;
/** The search came to its end, with packs that keep every cap. */
const isSettled = ({ chosen, overCap }: Listed): boolean => chosen.found.boundBy !== null && overCap.length === 0;

const horizonOf = ({ request }: Joint): { currency: string; weeks: number } => ({
  currency: request.currency,
  weeks: request.weeks,
});

async function oneMoreAllowed(joint: Joint, options: PurchaseOptions): Promise<PurchaseMade['oneMoreAllowed']> {
  const { atMost } = joint.request;
  if (atMost === undefined) return null;
  const answer = await search(jointProgram({ ...joint.request, atMost: atMost + 1 }), { ...options, byCases: false });
  if (!answer.found || answer.found.boundBy === null) return null;
  const { counts, objective } = answer.found;
  return { spend: objective, products: joint.pool.flatMap(({ product }, i) => (counts[i]! > 0 ? [product.id] : [])) };
}

/** What every answer begins with. */
export function headOf(request: PurchaseRequest): Pick<PurchaseResult, 'currency' | 'weeks' | 'plan' | 'market'> {
  return {
    currency: request.currency,
    weeks: request.weeks,
    plan: request.feeds.map(({ request: feed, weeklyLitres }) => ({
      feed: feed.header,
      weeklyLitres,
      litres: weeklyLitres * request.weeks,
    })),
    market: { name: request.marketName, products: request.market.length },
  };
}

export function notesOf({ pool, request }: Joint): PurchaseNote[] {
  const unknown = pool.filter((c) => c.isOnShelf && c.onHand === null).map((c) => c.product.id);
  const other = pool
    .filter(({ product, isOnShelf }) => {
      const sold = isOnShelf ? request.market.find((p) => p.id === product.id) : undefined;
      return sold !== undefined && sold.composition.per !== product.composition.per;
    })
    .map((c) => c.product.id);
  return [
    ...(unknown.length === 0 ? [] : [{ kind: 'stock unknown', products: unknown } as const]),
    ...(other.length === 0 ? [] : [{ kind: 'other form', products: other } as const]),
  ];
}

function cautionsOf(joint: Joint, best: Unproved['option']): Caution[] {
  const bought = new Set([...best.packs, ...best.stock].map((line) => line.id));
  const products = joint.pool.filter(({ product }) => bought.has(product.id)).map(({ product }) => product);
  const urea = Math.max(...best.feeds.map(({ nitrogenShares }) => nitrogenShares?.urea ?? 0));
  const ofProducts = inOneList([
    cautionsFor(products, ...best.feeds.map(({ feed }) => feed)),
    ureaCaution(products, urea),
  ]);
  return inOneList([ofProducts, ...best.feeds.map((mix) => canCautions(mix))]);
}
