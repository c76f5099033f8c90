import type { Amounts } from '../can/mix-amounts.js';
import { withCan } from '../can/can-cautions.js';
import { type Caution, cautionsFor } from '../can/cautions.js';
import { conflictOf } from '../why/conflict.js';
import { nearestMix } from '../why/nearest.js';
import { type Costing, costing } from '../feed/price.js';
import { pricesOf } from './prices.js';
import { missesOf, readOut } from '../feed/readout.js';
import { withoutAimed } from '../feed/grade.js';
import { A_REQUEST, type FeedRequest } from '../feed/request.js';
import type { BlendCannot, BlendNote, BlendOpen, BlendResult, Mix, NearestMix, Relaxation } from '../feed/results.js';
import { type FeedTooFew, solveFeed } from '../formulation/index.js';
import { costOfSilence } from './unknowns.js';
import { refuseUnlike } from '../wrong-type.js';

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
export async function blend(request: FeedRequest, options: BlendOptions = {}): Promise<BlendResult> {
  refuseUnlike({ request, options }, { request: A_REQUEST, options: 'object' });
  const asked = { ...request, programme: withoutAimed(request.programme) };
  const cost = costing(asked.shelf);
  const answer = await solveFeed(asked);
  const told = {
    goal: asked.goal,
    feed: asked.header,
    notes: notesOf(asked),
    proof: answer.proof,
  };
  switch (answer.answer) {
    case 'found': {
      const mix = readOut(answer.amounts, asked);
      return {
        status: 'made',
        ...told,
        ...mix,
        unknowns: await costOfSilence(asked, answer.figure),
        cautions: cautionsOf(mix, asked),
        ...(isPriced(asked, cost, options)
          ? { prices: await pricesOf(asked, answer.linearisation, answer.optimal) }
          : {}),
      };
    }
    case 'none': {
      const nearest = await nearestMix(asked);
      return {
        status: 'cannot',
        ...told,
        unknowns: await costOfSilence(asked, null),
        cautions: cautionsOf(nearest, asked),
        ...(await conflictOf(asked, answer.linearisation)),
        nearest,
      };
    }
    case 'too few':
      return tooFew(answer, asked, told);
    case 'open': {
      const nearest = answer.over ? missing(answer.over, asked) : await nearestMix(asked);
      return {
        status: 'open',
        ...told,
        unknowns: [],
        cautions: cautionsOf(nearest, asked),
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

function disagreements({ shelf }: FeedRequest): BlendNote[] {
  return shelf.flatMap(({ id, disagreement }) =>
    disagreement === undefined ? [] : [{ kind: 'sources disagree', product: id, off: disagreement }],
  );
}

/** Where more products would do: the wish is what stands in the way, and on a search's word alone it is only said to. */
async function tooFew(
  { atMost, fewest, proof }: FeedTooFew,
  asked: FeedRequest,
  told: Pick<BlendCannot, 'goal' | 'feed' | 'notes' | 'proof'>,
): Promise<BlendCannot | BlendOpen> {
  const relaxations: Relaxation[] = fewest === null ? [] : [{ kind: 'products', from: atMost, to: fewest }];
  const nearest = await nearestMix(asked);
  const rest = { ...told, unknowns: [], cautions: cautionsOf(nearest, asked), relaxations, nearest };
  if (proof.verdict !== 'infeasible') return { status: 'open', ...rest };
  return {
    status: 'cannot',
    ...rest,
    absent: [],
    conflict: [
      {
        limit: { kind: 'products', end: 'most', bound: atMost, owner: 'you' },
        because: [{ kind: 'more products do' }],
      },
    ],
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
  const cautions = cautionsFor(
    request.shelf.filter((p) => used.has(p.id)),
    request.header,
  );
  return withCan(cautions, mix);
}

/** What is worth knowing about prices and labels of a shelf. */
export function notesOf(request: FeedRequest): BlendNote[] {
  const { counts, assumed, dearest } = costing(request.shelf);
  return [
    ...(counts === 'mass' ? [{ kind: 'no prices' } as const] : []),
    ...(dearest === null ? [] : [{ kind: 'price assumed', products: assumed, dearest } as const]),
    ...disagreements(request),
  ];
}
