import { MOST_FEEDS, partitionsInto } from '../../blend/one/groups.js';
import type { NotShared } from '../../blend/one/one-types.js';
import { Proof } from '../../feed/proof.js';
import { factorIn, heldNear } from '../held.js';
import { lookFor } from '../look-for.js';
import { packsOf, stockLines } from '../option.js';
import type { Joint } from '../program.js';
import { headOf, notesOf, purchase, unfinished } from '../purchase.js';
import { answerOf, type Found, search } from '../search.js';
import type { PurchaseOptions, PurchaseRequest } from '../types.js';
import { ecReserveOf } from './ec-of-mixes.js';
import { type MixesGiven, mixesFrom, type MixesOf } from './given-mixes.js';
import { jointOf, type MixForSale, mixesForSale, widthsOf } from './mixes-for-sale.js';
import type { OnePurchase, OnePurchaseResult } from './one-types.js';

export type { MixesOf } from './given-mixes.js';

/** So many ways of sharing as many mixes are made out as doses, the cheapest first, before one mix more is taken. */
const MADE_OUT = 3;
const WEEKS = 52;

/** Packs for mixes that a search found. */
interface Bought {
  joint: Joint;
  shared: MixForSale[];
  found: Found;
}

/** What the search for the fewest mixes came to. */
interface Chosen {
  bought: Bought;
  given: MixesGiven;
  apart: NotShared[];
  forbidden: string[][][];
  isFewest: boolean;
}

/**
 * The fewest mixes that, diluted, feed all feeds, and of those the least money for whole packs: every way of sharing one mix is searched,
 * then two, and so on. The mixes are those of `blend --one` once the packs stand on the shelf; where cans of fewer mixes would not keep
 * their limits, more are taken.
 * @param mixesOf the mixes of a shelf, by `blend --one`
 */
export async function onePurchase(
  request: PurchaseRequest,
  mixesOf: MixesOf,
  options: PurchaseOptions = {},
): Promise<OnePurchaseResult> {
  const chosen = await fewestFor(request, mixesOf, options);
  if (chosen === 'none') return nothing(request, options);
  return 'status' in chosen ? chosen : made(request, chosen, options);
}

async function fewestFor(
  request: PurchaseRequest,
  mixesOf: MixesOf,
  options: PurchaseOptions,
): Promise<Chosen | 'none' | Extract<OnePurchaseResult, { status: 'unfinished' }>> {
  options.onStep?.({ kind: 'near' });
  const held = await heldNear(request, request.factor ?? 1, options);
  if (held === null) return unfinished(request, { by: 'time' });
  const near = held.near.flatMap((asked) => asked ?? []);
  const count = request.feeds.length;
  if (near.length < count) return 'none';
  options.onStep?.({ kind: 'best' });
  const groups = mixesForSale(request, near);
  const inTurn = count > MOST_FEEDS ? await groups.inTurn(count) : null;
  const places = request.feeds.map((_, i) => i);
  const forbidden: string[][][] = [];
  const sparse: NotShared[] = [];
  let last: Chosen | null = null;
  for (let mixes = 1; mixes <= count; mixes += 1) {
    const found: Bought[] = [];
    for (const way of inTurn === null ? partitionsInto(places, mixes) : [inTurn, places.map((i) => [i])]) {
      if (way.length !== mixes) continue;
      const shared = await groups.plansOf(way);
      if (shared === null) continue;
      const joint = jointOf(request, shared);
      const answer = await search(joint, options);
      if (answer.found) found.push({ joint, shared, found: answer.found });
      else if (answer.none) forbidden.push(shared.map(namesOf));
      else return unfinished(request, answer.stopped);
    }
    found.sort((a, b) => a.found.objective - b.found.objective);
    for (const bought of found.slice(0, MADE_OUT)) {
      options.onStep?.({ kind: 'doses' });
      const given = await mixesFrom(bought, request, mixesOf);
      const { one } = given;
      const serves = one.without.length === 0 && one.mixes.length <= mixes;
      const isFewest = inTurn === null || mixes === 1;
      if (serves || last === null || one.without.length < last.given.one.without.length)
        last = { bought, given, apart: [...groups.apart(), ...sparse], forbidden, isFewest };
      if (serves) return last;
      sparse.push(...one.apart.filter(({ why }) => why.kind === 'cans'));
    }
  }
  return last ?? 'none';
}

/** Why there is none, as a purchase for separate mixes says it. */
async function nothing(request: PurchaseRequest, options: PurchaseOptions): Promise<OnePurchaseResult> {
  const { hands: _, ...separately } = request;
  const apart = await purchase(separately, { ...options, ways: [], beside: false });
  if (apart.status !== 'made') return apart;
  const proof = Proof.of({
    question: 'purchase',
    currency: request.currency,
    weeks: request.weeks,
    way: { kind: 'cheapest' },
    near: null,
    answer: { found: false, none: true, byArithmetic: false, engine: apart.proof.engine ?? '' },
    overCap: [],
    reserve: null,
  });
  return { status: 'open', ...headOf(request), failures: [], notes: apart.notes, cautions: [], proof };
}

async function made(
  request: PurchaseRequest,
  { bought, given, apart, forbidden, isFewest }: Chosen,
  options: PurchaseOptions,
): Promise<OnePurchase> {
  const { joint, shared, found } = bought;
  const { one, used } = given;
  const packs = packsOf(joint, found.counts);
  const spend = packs.reduce((sum, pack) => sum + pack.count * pack.price, 0);
  const cans = one.mixes.flatMap((mix) => mix.cans);
  const weekly = (name: string): number =>
    request.feeds.find((feed) => feed.request.header.name === name)?.weeklyLitres ?? 0;
  const overCans = (perLitre: (can: (typeof cans)[number]) => number): number =>
    cans.reduce((sum, can) => sum + weekly(can.sharing.request.header.name) * perLitre(can), 0);
  const waterCost =
    request.weeks * overCans(({ mix }) => mix.waters.reduce((sum, { costPerLitre }) => sum + costPerLitre, 0));
  const isUnknown = cans.some(({ mix }) => mix.items.some(({ costPerLitre }) => costPerLitre === null));
  options.onStep?.({ kind: 'beside' });
  return {
    status: 'made',
    ...headOf(request),
    packs,
    spend,
    waterCost,
    total: spend + waterCost,
    stock: stockLines(joint, found.counts, used),
    laterYears: isUnknown ? null : WEEKS * overCans(({ mix }) => mix.costPerLitre),
    one,
    apart: apart.filter(({ feeds }, i) => apart.findIndex((other) => other.feeds.join() === feeds.join()) === i),
    forbidden,
    isFewest,
    separate: await separately(request, bought, options),
    lookFor: await lookFor(joint, found.counts, options),
    notes: notesOf(joint),
    cautions: one.cautions,
    proof: Proof.of({
      question: 'purchase',
      currency: request.currency,
      weeks: request.weeks,
      way: { kind: 'cheapest' },
      near: factorIn(shared.flatMap(widthsOf)),
      mixes: shared.map(namesOf),
      answer: answerOf(found),
      overCap: [],
      reserve: await ecReserveOf(request, shared, found, options),
    }),
  };
}

async function separately(
  request: PurchaseRequest,
  { shared, found }: Bought,
  options: PurchaseOptions,
): Promise<OnePurchase['separate']> {
  if (shared.length === request.feeds.length) return null;
  const { hands: _, ...plain } = request;
  const apart = await purchase(plain, { ...options, ways: [], beside: false });
  if (apart.status !== 'made') return null;
  const [{ total, packs }] = apart.options;
  return { spend: total, shared: found.objective, products: packs.map(({ id }) => id) };
}

const namesOf = ({ group }: MixForSale): string[] => group.map(({ request }) => request.header.name);
