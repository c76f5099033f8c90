import { mgPerLitre, milliSiemensPerCm } from '../units/index.js';
import { type LinearProgram, type Row, solve } from '../../solver/index.js';
import { linearisationOfMix } from '../formulation/ec-cap.js';
import { formulate } from '../formulation/formulate.js';
import { allRules, ecCap, type FeedRequest } from '../feed/request.js';
import type { Rule } from '../programme/rule.js';
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
  const rules: Rule[] = allRules(request);
  let maxEc = ecCap(request);
  for (const { limit, moments } of spreads) {
    const { kind, nutrient, rule } = limit;
    const bound = tighter(limit, moments, k);
    if (kind === 'min') bands[nutrient!] = { ...bands[nutrient!], min: mgPerLitre(bound) };
    if (kind === 'max') bands[nutrient!] = { ...bands[nutrient!], max: mgPerLitre(bound) };
    if (kind === 'rule')
      rules[rule!] = { ...rules[rule!]!, ...(limit.upper === undefined ? { lower: bound } : { upper: bound }) };
    if (kind === 'ec') maxEc = milliSiemensPerCm(bound);
  }
  const ofProgramme = request.programme.rules.length;
  return {
    ...request,
    programme: { ...request.programme, bands, rules: rules.slice(0, ofProgramme) },
    rules: rules.slice(ofProgramme),
    ...(maxEc === null ? {} : { maxEc }),
  };
}

function tighter({ lower, upper }: JudgedLimit, { nominal, mean, sd }: Moments, k: number): number {
  const shift = mean - nominal;
  return upper === undefined ? Math.max(lower!, lower! - shift + k * sd) : Math.min(upper, upper - shift - k * sd);
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
  plan: DosePlan,
): Promise<number | null> {
  const capped =
    ecCap(request) === null ? request : { ...request, ecLinearisation: linearisationOfMix(plan.amounts, request) };
  const { program } = formulate(capped);
  const robust = spreads.flatMap((spread) => robustRow(spread, program));
  const verdict = await solve({
    columns: [...program.columns.map((c) => ({ ...c, cost: 0 })), { id: 'sure', cost: -1, upper: MOST }],
    rows: [...program.rows, ...robust],
  });
  return verdict.verdict === 'optimal' ? (verdict.x.sure ?? 0) : null;
}

function robustRow({ limit, moments }: LimitSpread, program: LinearProgram): Row[] {
  const id = rowOf(limit);
  const row = program.rows.find((r) => r.id === id);
  if (!row || moments.sd === 0) return [];
  const shift = moments.mean - moments.nominal;
  return limit.upper === undefined
    ? [{ id: `sure ${id}`, lower: limit.lower! - shift, terms: { ...row.terms, sure: -moments.sd } }]
    : [{ id: `sure ${id}`, upper: limit.upper - shift, terms: { ...row.terms, sure: moments.sd } }];
}

/** The program's row for a limit. */
function rowOf({ kind, nutrient, rule, upper }: JudgedLimit): string {
  if (kind === 'ec') return 'ec';
  if (kind === 'rule') return `rule:${rule}:${upper === undefined ? 'lower' : 'upper'}`;
  return `${kind}:${nutrient}`;
}
