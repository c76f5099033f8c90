import { whyNot } from '../why/conflict.js';
import { type Joint, jointProgram } from './program.js';
import { search } from './search.js';
import type { Failure, PurchaseOptions, PurchaseRequest } from './types.js';
import type { ConflictReason, ConflictLine } from '../feed/why-not.js';

/**
 * Why no purchase does: the feeds that all of market and shelf together cannot mix, each with its conflict; or, where each could be
 * mixed, which wish of the grower's stands in the way of all.
 */
export async function failuresOf(joint: Joint, options: PurchaseOptions): Promise<Failure[]> {
  const shelf = joint.pool
    .filter(({ onHand, offer }) => onHand !== 0 || offer !== null)
    .map((candidate) => candidate.product);
  const failures: Failure[] = [];
  for (const { request } of joint.request.feeds) {
    const why = await whyNot({ ...request, shelf });
    if (why && why.conflict.length > 0) failures.push({ feed: request.header.name, conflict: why.conflict });
  }
  if (failures.length > 0) return failures;
  const wishes = await wishesOf(joint.request, options);
  const conflict = wishes.length > 0 ? wishes : [stockLine(joint.request)];
  return [{ feed: joint.request.feeds.map(({ request }) => request.header.name).join(' and '), conflict }];
}

/** The grower's wishes, each lifted alone. */
async function wishesOf(request: PurchaseRequest, options: PurchaseOptions): Promise<ConflictLine[]> {
  const lines: ConflictLine[] = [];
  const { budget, atMost, ...rest } = request;
  const { currency } = request;
  const without = (wish: DoesWithout['wish'], least: Least): DoesWithout[] => [
    { kind: 'does without', wish, ...least, currency },
  ];
  if (budget !== undefined) {
    const least = await leastOf({ ...rest, ...(atMost === undefined ? {} : { atMost }) }, options);
    const limit = { kind: 'budget', end: 'most', bound: budget, currency, owner: 'you' } as const;
    if (least) lines.push({ limit, because: without('budget', least) });
  }
  if (atMost !== undefined) {
    const least = await leastOf({ ...rest, ...(budget === undefined ? {} : { budget }) }, options);
    const limit = { kind: 'new products', end: 'most', bound: atMost, owner: 'you' } as const;
    if (least) lines.push({ limit, because: without('new products', least) });
  }
  if (lines.length === 0 && budget !== undefined && atMost !== undefined) {
    const least = await leastOf(rest, options);
    const limit = {
      kind: 'new products for a budget',
      end: 'most',
      bound: atMost,
      budget,
      currency,
      owner: 'you',
    } as const;
    if (least) lines.push({ limit, because: without('both', least) });
  }
  return lines;
}

type DoesWithout = Extract<ConflictReason, { kind: 'does without' }>;
type Least = Pick<DoesWithout, 'spend' | 'packs'>;

async function leastOf(request: PurchaseRequest, options: PurchaseOptions): Promise<Least | null> {
  const joint = jointProgram(request);
  const { found } = await search(joint, { ...options, byCases: false });
  if (!found) return null;
  const packs = joint.pool.flatMap(({ product }, i) =>
    found.counts[i]! > 0 ? [{ id: product.id, count: found.counts[i]! }] : [],
  );
  const spend = joint.pool.reduce((sum, { offer }, i) => sum + found.counts[i]! * (offer?.price ?? 0), 0);
  return { spend, packs };
}

const stockLine = ({ weeks }: PurchaseRequest): ConflictLine => ({
  limit: { kind: 'supply', end: 'least', bound: weeks, owner: 'shelf' },
  because: [{ kind: 'not for sale' }],
});
