import { type Caution, cautionsFor } from '../can/cautions.js';
import { Proof, type Stop } from '../feed/proof.js';
import { compare } from './compare.js';
import { atLeastEc, ecReserve, keepsCaps } from './ec.js';
import { extrasOf } from './extras.js';
import { optionOf } from './option.js';
import { type Joint, jointProgram } from './program.js';
import { answerOf, type Found, isOver, type Search, search, stopAt, without } from './search.js';
import type {
  PurchaseCannot,
  PurchaseMade,
  PurchaseNote,
  PurchaseOpen,
  PurchaseOption,
  PurchaseOptions,
  PurchaseRequest,
  PurchaseResult,
  PurchaseUnfinished,
  Unproved,
} from './types.js';
import { failuresOf } from './why.js';

/**
 * The cheapest whole packs with which every feed can be mixed over the horizon, the shelf used first; the next best that differ in
 * what is bought; and what they are worth beside other ways. Where no purchase does, why. A search that is not finished never says that
 * nothing does.
 */
export async function purchase(request: PurchaseRequest, options: PurchaseOptions = {}): Promise<PurchaseResult> {
  let joint = jointProgram(request);
  let listed = await list(joint, options);
  // the linearisation of the least EC has the last word on what is impossible, as in blend
  const second = isNone(listed) || isOverCap(listed) ? await atLeastEc(joint, options) : null;
  if (second) {
    const again = await list(second, options);
    const [best] = again.listed;
    const isBetter = best === undefined ? isNone(again) : isSettled(best);
    // a search that was cut short leaves open what the first one ruled out
    if (isBetter || (isNone(listed) && isCutShort(again))) [joint, listed] = [second, again];
  } else if (isNone(listed) && isOver(options)) return unfinished(request, { by: 'time' });
  if (listed.listed.length > 0) return made(joint, listed, options);
  const { stopped } = listed;
  return stopped!.none ? nothing(joint, stopped!, options) : unfinished(joint.request, stopped!.stopped);
}

async function made(joint: Joint, { listed, notes }: Listing, options: PurchaseOptions): Promise<PurchaseMade> {
  const [best, ...rest] = inOrder(listed) as [Listed, ...Listed[]];
  options.onStep?.({ kind: 'beside' });
  const extras = await extrasOf(joint, best.option, options);
  const oneMore = await oneMoreAllowed(joint, options);
  const comparison = isOver(options) ? null : await compare(joint, best, options);
  const reserve = isSettled(best) ? await ecReserve(joint, best.option, options) : null;
  const beside = isOver(options) && notes.every(({ kind }) => kind !== 'not finished') ? [NO_TIME_BESIDE] : [];
  const proofOf = (one: Listed): Proof =>
    Proof.of({
      question: 'purchase',
      ...horizonOf(joint),
      earlier: listed.indexOf(one),
      answer: answerOf(one.found),
      overCap: one.overCap,
      reserve: one === best || one === listed[0] ? reserve : null,
    });
  const proved = (one: Listed): PurchaseOption => ({ ...one.option, proof: proofOf(one) });
  return {
    status: 'made',
    ...headOf(joint.request),
    options: [proved(best), ...rest.map(proved)],
    extras,
    oneMoreAllowed: oneMore,
    comparison,
    notes: [...notesOf(joint), ...notes, ...beside],
    cautions: cautionsOf(joint, best.option),
    proof: proofOf(listed[0]!),
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
    earlier: 0,
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
    proof: Proof.of({ question: 'purchase', currency, weeks, earlier: 0, answer, overCap: [], reserve: null }),
  };
}

/** An option with what the search said of it. */
interface Listed extends Unproved {
  found: Found;
}

/** Options as they were found, and what ended the search for more. */
interface Listing {
  listed: Listed[];
  stopped: Exclude<Search, { found: Found }> | null;
  notes: PurchaseNote[];
}

async function list(joint: Joint, options: PurchaseOptions): Promise<Listing> {
  const most = options.options ?? 5;
  const listed: Listed[] = [];
  let left = joint;
  while (listed.length < most) {
    options.onStep?.(listed.length === 0 ? { kind: 'best' } : { kind: 'option', number: listed.length + 1, of: most });
    const answer = await search(left, { ...options, byCases: listed.length === 0 });
    if (!answer.found)
      return { listed, stopped: answer, notes: listed.length === 0 ? [] : [endNote(answer, listed.length)] };
    const { found } = answer;
    listed.push({ ...(await optionOf(joint, found)), found });
    if (found.boundBy === null) {
      return { listed, stopped: null, notes: [{ kind: 'not finished', at: 'best', stopped: stopAt(options) }] };
    }
    if (found.counts.every((count) => count === 0)) break;
    left = without(left, found.counts, listed.length);
  }
  return { listed, stopped: null, notes: [] };
}

const isNone = ({ listed, stopped }: Listing): boolean => listed.length === 0 && stopped?.none === true;
const isOverCap = ({ listed }: Listing): boolean => listed[0] !== undefined && !keepsCaps(listed[0].option);
/** The search for the best was not finished. */
const isCutShort = ({ listed, stopped }: Listing): boolean =>
  listed[0] === undefined ? stopped?.none === false : listed[0].found.boundBy === null;
/** The search came to its end, with packs that keep every cap. */
const isSettled = ({ found, overCap }: Listed): boolean => found.boundBy !== null && overCap.length === 0;

/** Where two cost the same, the one whose feeds hold less value per litre comes first. */
function inOrder(listed: readonly Listed[]): Listed[] {
  const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * Math.max(1, a, b);
  const perLitre = ({ option }: Listed): number => option.feeds.reduce((sum, feed) => sum + feed.costPerLitre, 0);
  return [...listed].sort((a, b) =>
    same(a.option.total, b.option.total) ? perLitre(a) - perLitre(b) : a.option.total - b.option.total,
  );
}

const horizonOf = ({ request }: Joint): { currency: string; weeks: number } => ({
  currency: request.currency,
  weeks: request.weeks,
});

function endNote(answer: Exclude<Search, { found: Found }>, listed: number): PurchaseNote {
  return answer.none
    ? { kind: 'no more options', listed }
    : { kind: 'not finished', at: 'more', stopped: answer.stopped };
}

async function oneMoreAllowed(joint: Joint, options: PurchaseOptions): Promise<PurchaseMade['oneMoreAllowed']> {
  const { atMost } = joint.request;
  if (atMost === undefined) return null;
  const answer = await search(jointProgram({ ...joint.request, atMost: atMost + 1 }), { ...options, byCases: false });
  if (!answer.found || answer.found.boundBy === null) return null;
  const { counts, objective } = answer.found;
  return { spend: objective, products: joint.pool.flatMap(({ product }, i) => (counts[i]! > 0 ? [product.id] : [])) };
}

function headOf(request: PurchaseRequest): Pick<PurchaseResult, 'currency' | 'weeks' | 'plan' | 'market'> {
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

function notesOf({ pool, request }: Joint): PurchaseNote[] {
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
  return cautionsFor(products, ...best.feeds.map(({ feed }) => feed.plants));
}
