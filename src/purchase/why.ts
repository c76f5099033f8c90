import { conflictOf } from '../why/conflict.js';
import { type Joint, jointProgram } from './program.js';
import { search } from './search.js';
import type { Failure, PurchaseOptions, PurchaseRequest } from './types.js';
import type { ConflictLine } from '../feed/results.js';
import { formatNumber } from '../units/index.js';

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
    const { conflict } = await conflictOf({ ...request, shelf });
    if (conflict.length > 0) failures.push({ feed: request.header.name, conflict });
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
  const money = (x: number): string => `${formatNumber(x)} ${request.currency}`.trim();
  if (budget !== undefined) {
    const least = await spendOf({ ...rest, ...(atMost === undefined ? {} : { atMost }) }, options);
    if (least)
      lines.push(
        line(`packs for at most ${money(budget)}`, `the least that does costs ${money(least.spend)}: ${least.what}`),
      );
  }
  if (atMost !== undefined) {
    const least = await spendOf({ ...rest, ...(budget === undefined ? {} : { budget }) }, options);
    if (least)
      lines.push(line(newProducts(atMost), `with any number this does, for ${money(least.spend)}: ${least.what}`));
  }
  if (lines.length === 0 && budget !== undefined && atMost !== undefined) {
    const least = await spendOf(rest, options);
    if (least)
      lines.push(
        line(
          `${newProducts(atMost)} for at most ${money(budget)}`,
          `without both limits ${least.what} does, for ${money(least.spend)}`,
        ),
      );
  }
  return lines;
}

async function spendOf(
  request: PurchaseRequest,
  options: PurchaseOptions,
): Promise<{ spend: number; what: string } | null> {
  const joint = jointProgram(request);
  const answer = await search(joint, { ...options, byCases: false });
  if (!answer.found) return null;
  const { counts } = answer.found;
  const packs = joint.pool.flatMap(({ product }, i) => (counts[i]! > 0 ? [`${counts[i]} × ${product.id}`] : []));
  const spend = joint.pool.reduce((sum, { offer }, i) => sum + counts[i]! * (offer?.price ?? 0), 0);
  return { spend, what: packs.join(', ') };
}

const line = (limit: string, because: string): ConflictLine => ({ limit, from: 'you', because: [because] });

function stockLine(request: PurchaseRequest): ConflictLine {
  return {
    limit: `stock for ${formatNumber(request.weeks)} weeks`,
    from: 'shelf',
    because: [
      'each feed could be mixed, but not from what is on hand and for sale for so long: something that is needed is not for sale',
    ],
  };
}

const newProducts = (most: number): string => `at most ${most} new ${most === 1 ? 'product' : 'products'}`;
