import { mgPerLitre, milliSiemensPerCm } from '../units/index.js';
import { type LinearProgram, type Row, solve, type Verdict } from '../../solver/index.js';
import { type Formulated, linearisationOfMix, programOn } from '../formulation/index.js';
import type { Limit, MissableLimit } from '../feed/limits.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import type { EcRule, LinearRule, Rule } from '../programme/rule.js';
import { type Moments, momentsOf } from './batches.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { JudgedCan, JudgedLimit } from './sure-figures.js';

/** How each limit's figure varies around a plan. */
export interface LimitSpread {
  limit: JudgedLimit;
  moments: Moments;
  /** The feed that it is a limit of, where that is the mix with water added. */
  of?: string;
}

/** The spread of every limit at the doses of a plan. */
export const limitSpreads = ({ can, limits }: JudgedCan): LimitSpread[] =>
  limits.map((limit) => ({ limit, moments: momentsOf(can, limit.figure) }));

/**
 * The feed with every limit tightened by `k` of its own standard deviations, and by what jars hold over their labels where that presses;
 * never relaxed, so what keeps it keeps the feed.
 * @param k one for all limits, or one for each spread
 */
export function tightened(
  request: FeedRequest,
  spreads: readonly LimitSpread[],
  k: number | readonly number[],
): FeedRequest {
  const bands = { ...request.programme.bands };
  const rules = new Map<Rule, Rule>();
  let cap: EcRule[] = [];
  for (const [i, { limit: judged, moments }] of spreads.entries()) {
    const { limit } = judged;
    const bound = tighter(limit, moments, typeof k === 'number' ? k : k[i]!);
    switch (limit.kind) {
      case 'nutrient': {
        const { nutrient, end } = limit;
        bands[nutrient] = { ...bands[nutrient], [end === 'least' ? 'min' : 'max']: mgPerLitre(bound) };
        break;
      }
      case 'rule': {
        const rule = rules.get(limit.rule) ?? limit.rule;
        rules.set(limit.rule, { ...rule, [limit.end === 'least' ? 'lower' : 'upper']: bound } as LinearRule);
        break;
      }
      case 'ec':
        cap = [{ kind: 'ec', text: `EC <= ${bound}`, upper: milliSiemensPerCm(bound), from: { owner: 'you' } }];
    }
  }
  const moved = (own: readonly Rule[]): Rule[] => own.map((rule) => rules.get(rule) ?? rule);
  return {
    ...request,
    programme: { ...request.programme, bands, rules: moved(request.programme.rules) },
    rules: [...moved(request.rules), ...cap],
  };
}

function tighter({ end, bound }: MissableLimit, { nominal, mean, sd }: Moments, k: number): number {
  const shift = mean - nominal;
  return end === 'least' ? Math.max(bound, bound - shift + k * sd) : Math.min(bound, bound - shift - k * sd);
}

/**
 * For each spread the standard deviations, up to `k`, by which its limit can be moved in while all others keep theirs as far as they can:
 * the most in sum, so that one limit without room takes it from no other. Null where no mix keeps the limits at all.
 * @param mostCost per litre, of the mix that has this room; null: whatever it costs
 */
export async function roomFor(
  request: FeedRequest,
  spreads: readonly LimitSpread[],
  { amounts }: Pick<DosePlan, 'amounts'>,
  k: number,
  mostCost: number | null = null,
): Promise<number[] | null> {
  const linearisation = ecCap(request) === null ? null : linearisationOfMix(amounts, request);
  const formulated = programOn(request, linearisation);
  const { program } = formulated;
  const columns = spreads.flatMap((spread, i) =>
    WORTH.map(({ from, to, worth }, step) => ({
      id: `room ${i} ${step}`,
      cost: -worth,
      lower: 0,
      upper: Math.max(0, Math.min(to, k) - Math.max(from, -pressing(spread))),
    })),
  );
  const robust = spreads.flatMap((spread, i) => {
    return robustRow(spread, formulated, (step) => `room ${i} ${step}`);
  });
  const verdict = await roomiest({
    columns: [...program.columns.map((c) => ({ ...c, cost: 0 })), ...columns],
    rows: [...program.rows, ...robust, ...(mostCost === null ? [] : [costRow(program, mostCost)])],
  });
  if (verdict.verdict !== 'optimal') return null;
  return spreads.map((spread, i) => {
    const room = WORTH.reduce((sum, _, step) => sum + (verdict.x[`room ${i} ${step}`] ?? 0), 0);
    return room - pressing(spread) - GIVE_BACK;
  });
}

/**
 * The most standard deviations of room that a mix can leave to every limit at once; whatever the mix, one of its limits has no more. Null where
 * no mix keeps the limits at all.
 */
export async function mostRoom(
  request: FeedRequest,
  spreads: readonly LimitSpread[],
  { amounts }: Pick<DosePlan, 'amounts'>,
): Promise<number | null> {
  const linearisation = ecCap(request) === null ? null : linearisationOfMix(amounts, request);
  const formulated = programOn(request, linearisation);
  const { program } = formulated;
  const robust = spreads.flatMap((spread): Row[] => {
    const row = rowOf(spread, formulated);
    const { limit, moments } = spread;
    if (!row || moments.sd === 0) return [];
    const shifted = limit.limit.bound - (moments.mean - moments.nominal);
    return limit.limit.end === 'least'
      ? [{ id: `sure ${row.id}`, lower: shifted, terms: { ...row.terms, room: -moments.sd } }]
      : [{ id: `sure ${row.id}`, upper: shifted, terms: { ...row.terms, room: moments.sd } }];
  });
  const verdict = await roomiest({
    columns: [
      ...program.columns.map((c) => ({ ...c, cost: 0 })),
      { id: 'room', cost: -1, lower: -MOST_ROOM, upper: MOST_ROOM },
    ],
    rows: [...program.rows, ...robust],
  });
  return verdict.verdict === 'optimal' ? (verdict.x.room ?? 0) : null;
}

/** Only room is worth anything, and has both ends: an engine to which ceilings are no rows takes a tenth of the time. */
const roomiest = (program: LinearProgram): Promise<Verdict> => solve(program, { dualFirst: true });

/** Standard deviations: more leaves no can out. */
const MOST_ROOM = 8;

function costRow({ columns }: Formulated['program'], upper: number): Row {
  return {
    id: 'cost',
    upper,
    terms: Object.fromEntries(columns.filter((c) => c.cost !== 0).map((c) => [c.id, c.cost])),
  };
}

/** What a standard deviation of room is worth: the first ones save most cans. */
const WORTH = [
  { from: Number.NEGATIVE_INFINITY, to: 0, worth: 8 },
  { from: 0, to: 1, worth: 4 },
  { from: 1, to: 1.7, worth: 2 },
  { from: 1.7, to: Number.POSITIVE_INFINITY, worth: 1 },
];

/** Standard deviations by which what jars hold over their labels moves a figure against its limit. */
function pressing({ limit: { limit }, moments: { nominal, mean, sd } }: LimitSpread): number {
  const against = limit.end === 'least' ? nominal - mean : mean - nominal;
  return sd > 0 ? Math.max(0, against) / sd : 0;
}

/** So that rounding leaves a mix at the limits as moved in. */
const GIVE_BACK = 1e-3;

/** The limit with steps of room for what varies; the first takes back what jars hold over their labels, so that there always is a mix. */
function robustRow(
  { limit: { limit }, moments, of }: LimitSpread,
  { limited }: Formulated,
  stepped: (step: number) => string,
): Row[] {
  const row = rowOf({ limit: { limit }, of }, { limited });
  if (!row || moments.sd === 0) return [];
  const { sd } = moments;
  const shift = moments.mean - moments.nominal;
  const room = (sign: 1 | -1): Record<string, number> =>
    Object.fromEntries(WORTH.map((_, step) => [stepped(step), sign * sd]));
  if (limit.end === 'least') {
    const lower = limit.bound - Math.max(0, shift);
    return [{ id: `sure ${row.id}`, lower, terms: { ...row.terms, ...room(-1) } }];
  }
  const upper = limit.bound - Math.min(0, shift);
  return [{ id: `sure ${row.id}`, upper, terms: { ...row.terms, ...room(1) } }];
}

const rowOf = (
  { limit: { limit }, of }: { limit: Pick<JudgedLimit, 'limit'>; of?: string | undefined },
  { limited }: Pick<Formulated, 'limited'>,
): Row | undefined => limited.find((one) => one.of === of && isSame(one.limit, limit))?.row;

/** Whether a row of the program stands for a limit. */
function isSame(row: Limit, limit: MissableLimit): boolean {
  if (row.kind === 'water' || row.end !== limit.end) return false;
  if (limit.kind === 'nutrient') return row.kind === 'nutrient' && row.nutrient === limit.nutrient;
  return limit.kind === 'ec' ? row.kind === 'ec' : row.kind === 'rule' && row.rule === limit.rule;
}
