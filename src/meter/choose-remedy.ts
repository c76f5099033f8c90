import { type Optimal, solve } from '../../solver/index.js';
import type { EcPlane } from '../formulation/ec-plane.js';
import type { Amounts } from '../formulation/mix-amounts.js';
import type { FeedRequest } from '../formulation/request.js';
import type { Batch } from './batch.js';
import type { Judged } from './judge.js';
import { weigh } from './likelihood.js';
import { type PossibleCan, possibleCans, quantiles } from './posterior.js';
import { actionOf, after, byHand, nothing, overCap, planeFor, tooLittle } from './remedy-action.js';
import { canTable, kept, margins, type CanLimit, type Action, canLimits, keepsAll } from './can-limits.js';
import { rescueProgram } from './rescue-program.js';
import type { Kit } from '../catalog/bench-types.js';

export interface RescueOptions {
  /** Litres that the can holds to the brim. */
  capacityLitres: number;
  kit: Kit;
}

/**
 * Several remedies are worked out, each proved the least wasteful for its own degree of caution (how unlikely a can it still allows for;
 * all causes, or the likeliest alone); taken is the one that keeps the limits in the most cans, waste counted against it.
 */
export async function chooseRemedy(judged: Judged, asked: FeedRequest, options: RescueOptions): Promise<Chosen> {
  const set = setUp(judged, asked);
  const { aside, plane } = set;
  let request: FeedRequest = { ...asked, ecPlane: plane };
  let best = await choose(judged, request, options, set);
  // the plane must hold where the remedied can stands: touch there and try again where it does not
  for (let round = 0; round < ROUNDS && overCap(best.final, request); round += 1) {
    request = { ...request, ecPlane: planeFor(best.final, request) };
    best = await choose(judged, request, options, set);
  }
  return { ...best, request, aside };
}

/** A remedy as chosen, with what it was chosen under. */
export interface Chosen extends Candidate {
  request: FeedRequest;
  aside: ReadonlySet<string>;
}

/** Limits that the plan itself misses, and the EC plane at the plan; the same for every reading of a batch. */
function setUp({ weighed }: Judged, asked: FeedRequest): SetUp {
  const { batch } = weighed;
  const known = SET_UPS.get(batch);
  if (known?.asked === asked) return known;
  const planned = plannedAmounts(batch, asked);
  const plane = planeFor(planned, asked);
  const request = { ...asked, ecPlane: plane };
  const aside = new Set(missedRows(batch, request));
  const right = possibleCans(weigh(batch, [], weighed.pen), RIGHT_CANS, (point) => point.hypothesis.kind === 'none');
  const limits = canLimits(request, batch, aside);
  const inside = margins(limits, nothing(asked), canTable(limits, right));
  const allowances = limits.map((_, l) => {
    const [worst] = quantiles(
      inside.map((of) => of[l]!),
      [1 - NINE_OF_TEN],
    );
    return Math.max(0, -worst!);
  });
  const toTheLetter = inside.filter((of) => kept(of)).length / inside.length;
  const found = { asked, plane, aside, allowances, toTheLetter };
  SET_UPS.set(batch, found);
  return found;
}

interface SetUp {
  asked: FeedRequest;
  aside: ReadonlySet<string>;
  plane: EcPlane;
  /** Per limit: how far outside it one right batch in ten may be, so that none is condemned for what every batch may do. */
  allowances: number[];
  /** Share of right batches that keep every limit to the letter. */
  toTheLetter: number;
}

const SET_UPS = new WeakMap<Batch, SetUp>();
const RIGHT_CANS = 200;
const NINE_OF_TEN = 0.9;
const ROUNDS = 2;
/** How unlikely a can each candidate still allows for, and how many of those that can be met are compared. */
const DEGREES = [0.985, 0.96, 0.92, 0.86, 0.78, 0.7, 0.62, 0.55, 0.5];
const COMPARED = 2;
/**
 * What doing anything at all weighs against a share of cans saved, and what keeping every limit to the letter (as far as right batches do) adds
 * to keeping it as well as they do: a can that seems right is left alone, unless a remedy would save 15 more of 100 that read like it.
 */
const RIGHT = {
  within: { trouble: 0.15, strict: 0 },
  /** Within tolerance, but a mistake is likelier than none. */
  doubtful: { trouble: 0.1, strict: 0 },
  off: { trouble: 0.05, strict: 1 },
  unexplained: { trouble: 0.05, strict: 1 },
} as const;
const DOUBTFUL = 0.5;
/** What throwing the whole can away weighs. */
const WASTE = 0.25;
/** Less kept than this is no rescue: mixing anew is simpler. */
const LEAST_KEPT = 0.25;

export interface Candidate {
  action: Action;
  /** Share of the cans that keep every limit as well as a right batch does, and to the letter. */
  sure: number;
  strictly: number;
  worth: number;
  verdict: Optimal | null;
  limits: CanLimit[];
  allowances: readonly number[];
  /** Per litre, of the likeliest can after it. */
  final: Amounts;
  can: PossibleCan;
}

async function choose(
  judged: Judged,
  request: FeedRequest,
  { capacityLitres, kit }: RescueOptions,
  { aside, allowances, toTheLetter }: SetUp,
): Promise<Candidate> {
  const { batch } = judged.weighed;
  const limits = canLimits(request, batch, aside);
  const likeliest = likeliestCause(judged.cans);
  const own = judged.cans.filter((can) => can.cause === likeliest);
  const can = middle(own);
  const table = canTable(limits, judged.cans);
  const { verdict: said, asPlanned } = judged.judgement;
  const standing = said === 'within' && asPlanned < DOUBTFUL ? 'doubtful' : said;
  const weighed = (action: Action, verdict: Optimal | null): Candidate => {
    const inside = margins(limits, action, table);
    const share = (allowed?: readonly number[]): number =>
      inside.filter((of) => kept(of, allowed)).length / table.length;
    const sure = share(allowances);
    const strictly = share();
    const { trouble, strict } = RIGHT[standing];
    const effort = verdict === null ? 0 : trouble + (WASTE * verdict.objective) / batch.litres;
    const worth = sure + strict * toTheLetter * strictly - effort;
    return {
      action,
      sure,
      strictly,
      worth,
      verdict,
      limits,
      allowances,
      can,
      final: after(can, action, batch, request),
    };
  };
  // where the doses stand so near a limit that right batches are often outside, a remedy cannot be asked for more
  const slack = toTheLetter >= ASKED_TO_THE_LETTER ? limits.map(() => 0) : allowances;
  let best = weighed(nothing(request), null);
  const sets = own.length > ALONE * judged.cans.length ? [judged.cans] : [judged.cans, own];
  for (const cans of sets) {
    let met = 0;
    for (const degree of DEGREES) {
      if (met === COMPARED || (toTheLetter >= ASKED_TO_THE_LETTER ? best.strictly : best.sure) >= GOOD) break;
      const asked = { request, batch, limits, slack, cans, sure: degree, capacityLitres };
      let barred: ReadonlySet<number> = new Set();
      for (let round = 0; round < BARRINGS; round += 1) {
        const verdict = await solve(rescueProgram({ ...asked, barred }));
        if (verdict.verdict !== 'optimal') break;
        if (round === 0) met += 1;
        const exact = actionOf(verdict, request);
        for (const action of byHand(exact, request, kit)) {
          const candidate = weighed(action, verdict);
          if (action.keep >= LEAST_KEPT && candidate.worth > best.worth) best = candidate;
        }
        // what is too little to measure is left out, and the rest is worked out anew
        const tiny = tooLittle(exact, request, kit);
        if (tiny.length === 0) break;
        barred = new Set([...barred, ...tiny]);
      }
    }
  }
  return best;
}

const ASKED_TO_THE_LETTER = 0.8;
/** A remedy that keeps every limit in so many of the cans needs no better one. */
const GOOD = 0.97;
const BARRINGS = 3;
/** A cause with this share of the cans needs no remedy of its own. */
const ALONE = 0.97;

function plannedAmounts(batch: Batch, request: FeedRequest): Amounts {
  const can: PossibleCan = { amounts: batch.items.map((item) => item.planned), litres: batch.litres, cause: 'none' };
  return after(can, nothing(request), batch, request);
}

/** Ids of the rows that the plan itself misses. */
function missedRows(batch: Batch, request: FeedRequest): string[] {
  const limits = canLimits(request, batch, new Set());
  const planned = { amounts: batch.items.map((item) => item.planned), litres: batch.litres, cause: 'none' };
  return limits.filter((limit) => !keepsAll([limit], planned, nothing(request))).map((limit) => limit.id);
}

function likeliestCause(cans: readonly PossibleCan[]): string {
  const counts = new Map<string, number>();
  for (const { cause } of cans) counts.set(cause, (counts.get(cause) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]![0];
}

/** The can in the middle of several: the median of each amount. */
function middle(cans: readonly PossibleCan[]): PossibleCan {
  const of = (values: number[]): number => quantiles(values, [0.5])[0]!;
  return {
    amounts: cans[0]!.amounts.map((_, i) => of(cans.map((can) => can.amounts[i]!))),
    litres: of(cans.map((can) => can.litres)),
    cause: cans[0]!.cause,
  };
}
