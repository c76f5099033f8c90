import { solve, type Verdict } from '../../solver/index.js';
import { amountsOf } from '../formulation/amounts.js';
import { fewestProducts } from '../formulation/at-most.js';
import { type Caution, cautionsFor } from '../can/cautions.js';
import { disagreementText } from '../label/disagreement.js';
import { conflictOf } from '../why/conflict.js';
import { ecWords } from '../formulation/ec-cap.js';
import type { Formulated } from '../formulation/formulate.js';
import { nearestMix } from '../why/nearest.js';
import { costing } from '../feed/price.js';
import { pricesOf } from './prices.js';
import { proofOf, stagedProof } from '../formulation/proof.js';
import { readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { BlendResult, Mix } from '../feed/results.js';
import { figureOf, solveUnderCap } from '../formulation/solve-goal.js';
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
  const unit = cost.counts === 'money' ? `${asked.header.currency}/L` : 'g/L';
  const capped = await solveUnderCap(asked);
  const { result: solved, request } = capped;
  const notes = [...notesOf(request, cost), ...disagreements(asked)];

  if (solved.verdict.verdict === 'optimal') {
    const mix = readOut(amountsOf(solved.verdict, solved.formulated), request);
    const proof = solved.stages
      ? stagedProof(solved.stages, unit)
      : proofOf(solved.verdict, cost.counts === 'money' ? 'cheaper' : 'lighter', unit);
    if (solved.choiceBound !== undefined) {
      proof.bound = solved.choiceBound;
      proof.sentence += `; no other choice of at most ${request.atMost} products can cost less than ${formatNumber(solved.choiceBound)}`;
    }
    proof.sentence += ecWords(capped);
    if (!capped.keeps) proof.verdict = 'uncertified';
    const silence = await costOfSilence(request, figureOf(solved));
    const priced =
      request.goal === 'cheapest' &&
      request.atMost === undefined &&
      cost.counts === 'money' &&
      (options.prices ?? request.shelf.length <= PRICED_SHELF);
    return {
      ...head(request, capped.keeps ? 'optimal' : 'uncertified'),
      ...mix,
      unknowns: silence,
      notes,
      cautions: cautionsOf(mix, request),
      proof,
      ...(priced ? { prices: await pricesOf(request, solved.verdict) } : {}),
    };
  }

  const answer = await refused(request, solved.formulated, solved.verdict, notes, unit);
  if (answer.status === 'infeasible') answer.proof.sentence += ecWords(capped);
  return answer;
}

function disagreements({ shelf }: FeedRequest): string[] {
  return shelf.flatMap(({ id, disagreement }) => (disagreement ? [`${id}: ${disagreementText(disagreement)}.`] : []));
}

/** What is said when no mix keeps every limit, or when none could be proved. */
async function refused(
  request: FeedRequest,
  formulated: Formulated,
  verdict: Exclude<Verdict, { verdict: 'optimal' }>,
  notes: string[],
  unit: string,
): Promise<BlendResult> {
  const tooFew = request.atMost !== undefined && (await solve(formulated.program)).verdict === 'optimal';
  const proof = proofOf(verdict, 'cheaper', unit);
  if (tooFew) {
    const word =
      verdict.verdict === 'infeasible'
        ? 'each proved impossible'
        : 'the search found none (its own word: no arithmetic proves it)';
    if (verdict.verdict === 'uncertified' && verdict.claim === 'integer-infeasible') proof.verdict = 'infeasible';
    proof.sentence = `with any number of products a mix exists; of every choice of at most ${request.atMost}, ${word}`;
  }
  const status = proof.verdict === 'infeasible' ? 'infeasible' : 'uncertified';
  const nearest = tooFew ? null : await nearestMix(request);
  const why = tooFew
    ? await productConflict(formulated, request.atMost!)
    : status === 'infeasible'
      ? await conflictOf(request)
      : {};
  // nothing is recommended: the top of the result reads out the bare water, the mix that misses least stands under `nearest`
  const bare = readOut(
    { products: request.shelf.map(() => 0), waters: request.waters.map((_, i) => (i === 0 ? 1 : 0)) },
    request,
  );
  return {
    ...head(request, status),
    ...bare,
    unknowns: status === 'infeasible' && !tooFew ? await costOfSilence(request, null) : [],
    notes,
    cautions: cautionsOf(nearest ?? bare, request),
    proof,
    ...why,
    nearest,
  };
}

async function productConflict(
  formulated: Formulated,
  most: number,
): Promise<Required<Pick<BlendResult, 'conflict' | 'relaxations'>>> {
  const fewest = await fewestProducts(formulated);
  const limit = `at most ${most} ${most === 1 ? 'product' : 'products'}`;
  return {
    conflict: [{ limit, from: 'you', because: ['every other limit can be kept with more products'] }],
    relaxations:
      fewest === null
        ? []
        : [
            {
              kind: 'products',
              limit,
              change: `at most ${fewest} products instead of ${most}`,
              from: most,
              to: fewest,
            },
          ],
  };
}

function head(
  request: FeedRequest,
  status: BlendResult['status'],
): Pick<BlendResult, 'schema' | 'status' | 'goal' | 'feed'> {
  return { schema: 'velamen.blend/1', status, goal: request.goal, feed: request.header };
}

function cautionsOf(mix: Mix, request: FeedRequest): Caution[] {
  const used = new Set(mix.items.map((i) => i.id));
  return cautionsFor(
    request.shelf.filter((p) => used.has(p.id)),
    request.header.plants,
  );
}

function notesOf(request: FeedRequest, cost: ReturnType<typeof costing>): string[] {
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
