import { solve } from '../../solver/index.js';
import { ecRowOf, fullEc, leastEc, linearisationOfMix, MOST_ROUNDS, programOn } from '../formulation/index.js';
import { type Joint, jointProgram } from './program.js';
import { isOver, search } from './search.js';
import { ENGINES, type Settled, settleThrift } from './settle.js';
import type { PurchaseOption, PurchaseOptions, Unproved } from './types.js';
import type { PurchaseSettled } from '../feed/proof.js';
import { ecCap, type FeedRequest, withoutEcCap } from '../feed/request.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';

const KEPT = 1e-6;

/**
 * The thriftiest blends from given stocks that keep each EC cap by the full model: where one is over, its EC row is laid
 * through that blend and all are settled again. `over` names the feeds that no round brought under their cap.
 */
export async function settleUnderCaps(
  joint: Joint,
  available: readonly number[],
  waterCost: number,
): Promise<{ settled: Settled; over: string[] } | null> {
  let current = joint;
  let last: { settled: Settled; over: string[] } | null = null;
  for (let round = 1; round <= MOST_ROUNDS; round += 1) {
    const settled = await settleThrift(current, available, waterCost);
    if (settled === null) return last;
    const misses = joint.feeds.map((_, f) => excess(joint, settled, f));
    last = {
      settled,
      over: joint.request.feeds.flatMap(({ request }, f) => (misses[f]! > 0 ? [request.header.name] : [])),
    };
    if (last.over.length === 0) return last;
    const feeds = current.feeds.map((feed, f) => {
      if (misses[f]! <= 0) return feed;
      const request = pooled(joint, f);
      const linearisation = linearisationOfMix(settled.amounts[f]!, request);
      // where the model bends upwards, touching is not enough: a little further in each round
      const ecLinearisation = { ...linearisation, constant: linearisation.constant + (round - 1) * misses[f]! };
      return { ...feed, formulated: programOn(request, ecLinearisation) };
    });
    current = { ...current, feeds };
  }
  return last;
}

/** mS/cm over the cap by the full model; 0 where kept or without one. */
function excess(joint: Joint, settled: Settled, f: number): number {
  const request = pooled(joint, f);
  const cap = ecCap(request);
  if (cap === null) return 0;
  const over = fullEc(settled.amounts[f]!, request) - cap;
  return over > cap * KEPT ? over : 0;
}

/** By the full model. */
export function keepsCaps({ feeds }: Pick<PurchaseOption, 'feeds'>): boolean {
  return feeds.every(({ ec }) => ec.cap === null || ec.mSPerCm <= ec.cap.bound * (1 + KEPT));
}

function pooled(joint: Joint, f: number): FeedRequest {
  return { ...joint.request.feeds[f]!.request, shelf: joint.pool.map(({ product }) => product) };
}

/** The purchase with each feed's EC row laid through the least EC that all of pool can reach, for a second look before it is called impossible. */
export async function atLeastEc(joint: Joint, options: PurchaseOptions): Promise<Joint | null> {
  const linearisations: (EcLinearisation | null)[] = [];
  for (const f of joint.feeds.keys()) {
    if (isOver(options)) return null;
    const request = pooled(joint, f);
    const least = ecCap(request) === null ? null : await leastEc(request);
    linearisations.push(least === null ? null : least.linearisation);
  }
  return linearisations.some((one) => one !== null) ? jointProgram(joint.request, linearisations) : null;
}

/**
 * What has to be said of a proof whose search knew the EC caps by one linearisation each: nothing where the purchase costs the same
 * without any cap, else what it would cost without.
 */
export async function ecReserve(
  joint: Joint,
  best: Unproved['option'],
  options: PurchaseOptions,
): Promise<PurchaseSettled['reserve']> {
  const capped = joint.request.feeds.filter(({ request }) => ecCap(request) !== null);
  if (capped.length === 0) return null;
  const unknown = { feeds: capped.map(({ request }) => request.header.name), leastWithoutCap: null };
  if (isOver(options)) return unknown;
  if (await areIdle(joint)) return null;
  if (isOver(options)) return unknown;
  const free = withoutCaps(joint);
  // the plain bound settles most cases at once
  const relaxed = await solve(
    { ...free.program, columns: free.program.columns.map(({ integer: _, ...c }) => c) },
    { engines: ENGINES },
  );
  if (relaxed.verdict === 'optimal' && relaxed.bound >= best.total * (1 - KEPT) - KEPT) return null;
  const { found } = await search(free, { ...options, byCases: false });
  const least = found && found.boundBy !== null ? found.objective : null;
  if (least !== null && least >= best.total * (1 - KEPT) - KEPT) return null;
  return { ...unknown, leastWithoutCap: least };
}

/** True where no mix that keeps the other limits reaches an EC row: then the search was the same with it as without. */
async function areIdle({ feeds }: Joint): Promise<boolean> {
  for (const { formulated } of feeds) {
    const { columns, rows } = formulated.program;
    const row = ecRowOf(formulated);
    if (!row) continue;
    const program = {
      columns: columns.map((c) => ({ ...c, cost: -(row.terms[c.id] ?? 0) })),
      rows: rows.filter((r) => r !== row),
    };
    const most = await solve(program, { engines: ENGINES });
    if (most.verdict !== 'optimal' || -most.bound > row.upper!) return false;
  }
  return true;
}

function withoutCaps(joint: Joint): Joint {
  const feeds = joint.request.feeds.map((planned) => ({ ...planned, request: withoutEcCap(planned.request) }));
  return jointProgram({ ...joint.request, feeds });
}
