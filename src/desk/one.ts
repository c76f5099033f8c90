import { atDoor } from '../door.js';
import { oneMix, type OneResult } from '../blend/one/one-mix.js';
import type { Vessel } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { FeedRequest } from '../feed/request.js';
import { type Problem, problem, Refusal } from '../problem.js';
import { mixingSheet, type SheetOfFeed } from '../sheet/mixing-sheet.js';
import type { Answer, Answers } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { clash } from './clash.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { penInHand, WEEKS } from './doses.js';
import { askedOfMix, feedRequests } from './feed-requests.js';
import { type FeedWishes, feedWishes } from './feed-wishes.js';
import { type OpenBench, opened } from './opened.js';
import { productsKnown } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import { made, type Wishes } from './wishes.js';

/** One mix, with the cans of the bench that it is measured into. */
export interface OneForBench extends OneResult {
  vessels: readonly Vessel[];
}

/**
 * The fewest mixes that feed the whole bench, each diluted with water for its feeds: near their aims, sure in these hands, thrifty. `met` is
 * false where a feed has no mix, or a can misses a limit that hurts or that plants need. Amounts in g/L and mL/L of the mix.
 * @throws Refusal with every problem of bench, shelf and wishes
 */
export async function oneForBench(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<OneForBench>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const which = feedWishes(wishes, collected);
  refuseBesideOne(wishes, collected);
  const requests = feedRequests(open, collected, askedOfMix(wishes, collected));
  const warnings = collected.settle();
  const result = await oneOf(requests, open, which);
  return {
    met: keepsAll(result),
    result: { ...result, vessels: open.kit.cans ?? [] },
    warnings,
  };
}

/** Whether every feed has a mix, and every can keeps what hurts and what plants need. */
export const keepsAll = ({ mixes, without, status }: OneResult): boolean =>
  without.length === 0 &&
  status !== 'none' &&
  mixes.every(({ cans }) => cans.every(({ violations }) => violations.length === 0));

/** What asks another question of each feed. */
export function refuseBesideOne(wishes: Wishes, collected: Collected): void {
  for (const other of made(wishes, ['bare', 'closest', 'atMost', 'prices', 'by']))
    collected.add(clash('one', other, 'one mix that is near the aims of every feed, or another question about each'));
}

/** Refuses several mixes where a form holds one sheet only. @throws Refusal */
export function refuseSeveralMixes({ oneFeedFor = [] }: Wishes, mixes: number): void {
  if (oneFeedFor.length === 0) return;
  throw new Refusal(
    oneFeedFor.map((form) =>
      problem(
        `one-mix-in-${form}`,
        { field: '--one' },
        `${mixes} mixes`,
        `one mix for --${form}`,
        atDoor({
          typed: 'velamen blend --one --json tells all of them.',
          page: 'One for all pots in Feed tells all of them.',
        }),
      ),
    ),
  );
}

/** The sheets of the mixes of a bench, each with how its feeds are made of it; `met` as for the question above. */
export async function sheetsOfOne(
  requests: readonly FeedRequest[],
  open: Pick<OpenBench, 'kit' | 'catalog' | 'feeds' | 'pen' | 'bench'>,
  which: FeedWishes,
  options: Parameters<typeof mixingSheet>[3],
): Promise<Answers<SheetOfFeed>> {
  const { mixes, without } = await oneOf(requests, open, which);
  const results = mixes.map(({ plan, cans, proof }) => {
    const [{ sharing: strongest }] = cans as [(typeof cans)[number]];
    const name = cans.map(({ sharing }) => sharing.request.header.name).join(' + ');
    const { request } = strongest;
    const dilutions = cans.map(({ sharing: { request: own, parts } }) => ({
      feed: own.header.name,
      parts,
      litres: own.header.batchLitres ?? plan.batchLitres,
    }));
    const mixed = { ...request, header: { ...request.header, name } };
    return mixingSheet(plan, mixed, { status: 'made', notes: [], proof }, { ...options, dilutions });
  });
  const kept = results.every(({ status }) => status === 'kept');
  return { met: without.length === 0 && kept, results, warnings: notFed(without) };
}

/** A feed without a mix has no sheet. */
export const notFed = (without: readonly string[]): Problem[] =>
  without.map((feed) => ({
    ...problem(
      'no-mix-for-feed',
      { field: '--one' },
      `${feed}: this shelf gives it no feed`,
      'a feed',
      atDoor({ typed: `velamen blend --feed ${feed} says why.`, page: `Choose ${feed} in Feed to see why.` }),
    ),
    severity: 'warning' as const,
  }));

/** The same for requests of an open bench. */
export function oneOf(
  requests: readonly FeedRequest[],
  open: Pick<OpenBench, 'kit' | 'catalog' | 'feeds' | 'pen' | 'bench'>,
  { factor, sure }: Pick<FeedWishes, 'factor' | 'sure'>,
): Promise<OneResult> {
  const { kit, catalog, feeds } = open;
  return oneMix(requests, {
    ...penInHand(open, undefined),
    kit,
    known: productsKnown(catalog),
    solubility: catalog.solubility,
    ...(factor === undefined ? {} : { factor }),
    ...(sure === undefined ? {} : { sure }),
    litresPerYear: (name) => {
      const weekly = feeds.find((feed) => feed.name === name)?.weeklyLitres;
      return weekly === undefined ? null : weekly * WEEKS;
    },
  });
}
