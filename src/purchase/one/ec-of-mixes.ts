import type { PurchaseSettled } from '../../feed/proof.js';
import { ecCap, withoutEcCap } from '../../feed/request.js';
import { type Found, isOver, search } from '../search.js';
import type { PurchaseOptions, PurchaseRequest } from '../types.js';
import { jointOf, type MixForSale } from './mixes-for-sale.js';

const KEPT = 1e-6;

/**
 * What has to be said of a proof whose search knew the EC caps of its mixes and their feeds by a straight line each: nothing where the packs
 * cost the same without any cap, else what they would cost.
 */
export async function ecReserveOf(
  request: PurchaseRequest,
  mixes: readonly MixForSale[],
  { objective }: Found,
  options: PurchaseOptions,
): Promise<PurchaseSettled['reserve']> {
  const capped = mixes.flatMap(({ group }) => group.filter((one) => ecCap(one.request) !== null));
  if (capped.length === 0) return null;
  const feeds = capped.map((one) => one.request.header.name);
  if (isOver(options)) return { feeds, leastWithoutCap: null };
  const free = mixes.map((mix): MixForSale => {
    const { request: of } = mix.planned;
    const diluted = (of.diluted ?? []).map((one) => ({ ...one, request: withoutEcCap(one.request) }));
    return { ...mix, linearisation: null, planned: { ...mix.planned, request: { ...withoutEcCap(of), diluted } } };
  });
  const { found } = await search(jointOf(request, free), { ...options, byCases: false });
  const least = found && found.boundBy !== null ? found.objective : null;
  return least !== null && least >= objective * (1 - KEPT) - KEPT ? null : { feeds, leastWithoutCap: least };
}
