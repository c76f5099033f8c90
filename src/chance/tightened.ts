import { mgPerLitre, milliSiemensPerCm } from '../units/index.js';
import { type Row, solve } from '../../solver/index.js';
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
}

/** The spread of every limit at the doses of a plan. */
export const limitSpreads = ({ can, limits }: JudgedCan): LimitSpread[] =>
  limits.map((limit) => ({ limit, moments: momentsOf(can, limit.figure) }));

/**
 * The feed with every limit tightened by `k` of its own standard deviations, and by what jars hold over their labels where that presses;
 * never relaxed, so what keeps it keeps the feed.
 */
export function tightened(request: FeedRequest, spreads: readonly LimitSpread[], k: number): FeedRequest {
  const bands = { ...request.programme.bands };
  const rules = new Map<Rule, Rule>();
  let cap: EcRule[] = [];
  for (const { limit: judged, moments } of spreads) {
    const { limit } = judged;
    const bound = tighter(limit, moments, k);
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

/** More standard deviations than any share asks for. */
const MOST = 6;

/**
 * The most standard deviations by which all limits can be tightened at once, by a linear program with that number as a column; the EC cap
 * by the linearisation at the plan. Null where no feed keeps the limits at all.
 */
export async function mostTightened(
  request: FeedRequest,
  spreads: readonly LimitSpread[],
  plan: Pick<DosePlan, 'amounts'>,
): Promise<number | null> {
  const linearisation = ecCap(request) === null ? null : linearisationOfMix(plan.amounts, request);
  const formulated = programOn(request, linearisation);
  const { program } = formulated;
  const robust = spreads.flatMap((spread) => robustRow(spread, formulated));
  const verdict = await solve({
    columns: [...program.columns.map((c) => ({ ...c, cost: 0 })), { id: 'sure', cost: -1, upper: MOST }],
    rows: [...program.rows, ...robust],
  });
  return verdict.verdict === 'optimal' ? (verdict.x.sure ?? 0) : null;
}

function robustRow({ limit: { limit }, moments }: LimitSpread, { limited }: Formulated): Row[] {
  const row = limited.find((one) => isSame(one.limit, limit))?.row;
  if (!row || moments.sd === 0) return [];
  const shift = moments.mean - moments.nominal;
  return limit.end === 'least'
    ? [{ id: `sure ${row.id}`, lower: limit.bound - shift, terms: { ...row.terms, sure: -moments.sd } }]
    : [{ id: `sure ${row.id}`, upper: limit.bound - shift, terms: { ...row.terms, sure: moments.sd } }];
}

/** Whether a row of the program stands for a limit. */
function isSame(row: Limit, limit: MissableLimit): boolean {
  if (row.kind === 'water' || row.end !== limit.end) return false;
  if (limit.kind === 'nutrient') return row.kind === 'nutrient' && row.nutrient === limit.nutrient;
  return limit.kind === 'ec' ? row.kind === 'ec' : row.kind === 'rule' && row.rule === limit.rule;
}
