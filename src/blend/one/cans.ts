import { watersOf } from '../../can/part.js';
import { dosedOf, withReadingOf } from '../../chance/reading.js';
import { judgedLimits, ecFigure, type JudgedCan } from '../../chance/sure-figures.js';
import { sharesOf } from '../../chance/sure.js';
import { limitSpreads, type LimitSpread, tightened } from '../../chance/tightened.js';
import { dilutedCan, varyingCan } from '../../chance/varying.js';
import type { TrialPlan } from '../../dose/plan-types.js';
import { readOut } from '../../feed/readout.js';
import type { FeedRequest } from '../../feed/request.js';
import type { Miss, Mix } from '../../feed/results.js';
import { CANS, counted, type Hands, missesByGrade } from '../handed.js';
import { dilutedAmounts, type Sharing } from './shared-request.js';

/** One feed as it comes out of a shared mix. */
export interface SharedCan {
  sharing: Sharing;
  mix: Mix;
  /** Limits that it does not keep, but for those that only convention stands behind. */
  violations: Miss[];
  custom: Miss[];
  /** Share of its cans that keep the limits. */
  sure: number;
}

/** The cans of a mix that was measured out, with what their limits vary by. */
export interface JudgedCans {
  cans: SharedCan[];
  /** Share of mixes of which every can keeps its limits. */
  all: number;
  judged: JudgedCan[];
}

const SEED = 1;

/** Each feed of a shared mix read out and counted: the mix is as it was mixed, each feed is measured off it and filled up with water. */
export function cansOf(plan: TrialPlan, group: readonly Sharing[], { known }: Hands): JudgedCans {
  const [{ request: strongest }] = group as [Sharing];
  const mixed = varyingCan(plan, strongest, known);
  const read = group.map(({ request, parts }) => {
    const amounts = dilutedAmounts(plan.amounts, parts.share);
    const diluted = dosedOf(plan).map((item) => ({ ...item, perLitre: item.perLitre * parts.share }));
    const mix = readOut(amounts, withBatch(request, plan));
    return { request, amounts, mix: withReadingOf(mix, diluted, watersOf(amounts, request.waters)), parts };
  });
  const judged = read.map(({ request, amounts, mix, parts }): JudgedCan => {
    const can = parts.water === 0 ? mixed : dilutedCan(mixed, parts.share, request.header.name);
    const ec = ecFigure(can, amounts, request);
    return { can, ec, limits: judgedLimits(can, counted(request, { mix, amounts }), ec) };
  });
  const { each, all } = sharesOf(judged, CANS, SEED);
  const cans = read.map(({ mix }, i): SharedCan => {
    const { custom, graver } = missesByGrade(mix, group[i]!.request);
    return { sharing: group[i]!, mix, violations: graver, custom, sure: each[i]! };
  });
  return { cans, all, judged };
}

const withBatch = (request: FeedRequest, { batchLitres }: Pick<TrialPlan, 'batchLitres'>): FeedRequest =>
  request.header.batchLitres === null ? { ...request, header: { ...request.header, batchLitres } } : request;

/** How the limits of every can vary, those of a diluted one under its name; with the can that each belongs to. */
export const spreadsOf = ({ judged }: JudgedCans, group: readonly Sharing[]): (LimitSpread & { place: number })[] =>
  judged.flatMap((can, place) =>
    limitSpreads(can).map((spread) => ({
      ...spread,
      place,
      ...(place === 0 ? {} : { of: group[place]!.request.header.name }),
    })),
  );

/** The feeds with their limits moved in, each by its own spreads and the room that there is for them. */
export const movedInEach = (
  group: readonly Sharing[],
  limits: readonly FeedRequest[],
  spreads: readonly (LimitSpread & { place: number })[],
  room: readonly number[],
): FeedRequest[] =>
  group.map((_, place) => {
    const own = spreads.flatMap((spread, i) => (spread.place === place ? [{ spread, k: room[i]! }] : []));
    return tightened(
      limits[place]!,
      own.map(({ spread }) => spread),
      own.map(({ k }) => k),
    );
  });
