import type { Amounts } from '../can/mix-amounts.js';
import { type Caution, cautionsFor } from '../can/cautions.js';
import { disagreementText } from '../label/disagreement.js';
import { conflictOf } from '../why/conflict.js';
import { nearestMix } from '../why/nearest.js';
import { type Costing, costing } from '../feed/price.js';
import { pricesOf } from './prices.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendCannot, BlendOpen, BlendResult, Mix, NearestMix, Relaxation } from '../feed/results.js';
import { type FeedTooFew, solveFeed } from '../formulation/solve-feed.js';
import { costOfSilence } from './unknowns.js';
import { formatNumber } from '../units/index.js';

/** Up to this many products, what it costs to insist is always worked out: some ten programs for each of them. */
const PRICED_SHELF = 100;

/** What to work out besides the blend itself. `prices`: what it costs to insist; by default on shelves of up to 100 products. */
export interface BlendOptions {
  prices?: boolean;
}

/**
 * The cheapest (or closest) feed that keeps every limit, with its proof; or, where none does, the limits that conflict, the
 * ways out and the nearest feed.
 */
export async function blend(asked: FeedRequest, options: BlendOptions = {}): Promise<BlendResult> {
  const cost = costing(asked.shelf);
  const answer = await solveFeed(asked);
  const told = {
    goal: asked.goal,
    feed: asked.header,
    notes: [...notesOf(asked, cost), ...disagreements(asked)],
    proof: answer.proof,
  };
  const { request } = answer;
  switch (answer.answer) {
    case 'found': {
      const mix = readOut(answer.amounts, request);
      return {
        status: 'made',
        ...told,
        ...mix,
        unknowns: await costOfSilence(asked, answer.figure),
        cautions: cautionsOf(mix, request),
        ...(isPriced(asked, cost, options) ? { prices: await pricesOf(request, answer.optimal) } : {}),
      };
    }
    case 'none': {
      const nearest = await nearestMix(request);
      return {
        status: 'cannot',
        ...told,
        unknowns: await costOfSilence(asked, null),
        cautions: cautionsOf(nearest, request),
        ...(await conflictOf(request)),
        nearest,
      };
    }
    case 'too few':
      return tooFew(answer, told);
    case 'open': {
      const nearest = answer.over ? missing(answer.over, request) : await nearestMix(request);
      return {
        status: 'open',
        ...told,
        unknowns: [],
        cautions: cautionsOf(nearest, request),
        relaxations: [],
        nearest,
      };
    }
  }
}

/** What it costs to insist is worked out for the cheapest blend of a priced shelf that may use any number of products. */
function isPriced({ goal, atMost, shelf }: FeedRequest, { counts }: Costing, { prices }: BlendOptions): boolean {
  return goal === 'cheapest' && atMost === undefined && counts === 'money' && (prices ?? shelf.length <= PRICED_SHELF);
}

function disagreements({ shelf }: FeedRequest): string[] {
  return shelf.flatMap(({ id, disagreement }) => (disagreement ? [`${id}: ${disagreementText(disagreement)}.`] : []));
}

/** Where more products would do: the wish is what stands in the way, and on a search's word alone it is only said to. */
function tooFew(
  { atMost, fewest, proof, request }: FeedTooFew,
  told: Pick<BlendCannot, 'goal' | 'feed' | 'notes' | 'proof'>,
): BlendCannot | BlendOpen {
  const limit = `at most ${atMost} ${atMost === 1 ? 'product' : 'products'}`;
  const change = `at most ${fewest} products instead of ${atMost}`;
  const relaxations: Relaxation[] =
    fewest === null ? [] : [{ kind: 'products', limit, change, from: atMost, to: fewest }];
  const rest = { ...told, unknowns: [], cautions: cautionsOf(null, request), relaxations, nearest: null };
  if (proof.verdict !== 'infeasible') return { status: 'open', ...rest };
  return {
    status: 'cannot',
    ...rest,
    absent: [],
    conflict: [{ limit, from: 'you', because: ['every other limit can be kept with more products'] }],
    irreducible: true,
    farkas: null,
  };
}

function missing(amounts: Amounts, request: FeedRequest): NearestMix {
  const mix = readOut(amounts, request);
  return { ...mix, misses: missesOf(mix) };
}

function cautionsOf(mix: Mix | null, request: FeedRequest): Caution[] {
  const used = new Set(mix?.items.map((i) => i.id));
  return cautionsFor(
    request.shelf.filter((p) => used.has(p.id)),
    request.header.plants,
  );
}

function notesOf(request: FeedRequest, cost: Costing): string[] {
  const notes: string[] = [];
  if (cost.counts === 'mass')
    notes.push(
      'No product on this shelf has a price and a pack size, so the lightest mix was sought instead of the cheapest.',
    );
  if (cost.dearest !== null) {
    notes.push(
      `No price is known for ${cost.assumed.join(', ')}: counted at the dearest known price, ${formatNumber(cost.dearest)} ${request.header.currency} per g or mL; the cost shown leaves it out.`,
    );
  }
  return notes;
}
