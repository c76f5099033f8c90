import type { Amounts } from '../../can/mix-amounts.js';
import { plannerByPen } from '../../dose/plan-by-pen.js';
import { planOnce } from '../../dose/plan-once.js';
import type { TrialPlan } from '../../dose/plan-types.js';
import { ecCap, type FeedRequest } from '../../feed/request.js';
import { productColumn, waterColumn } from '../../feed/terms.js';
import { linearisationOfMix, programOn } from '../../formulation/index.js';
import type { Hands } from '../handed.js';
import { keepsEc, type Looser, sharedRequest, type Sharing } from './shared-request.js';

/** A mix may lie this far outside the widths of the plan: hands work in steps. The last has no widths left. */
const LOOSER: readonly Looser[] = [
  { nitrogenWithin: 0.05, widths: 1.08 },
  { nitrogenWithin: 0.08, widths: 1.25 },
  { nitrogenWithin: 1, widths: Number.POSITIVE_INFINITY },
];

/** Doses within the first of ever looser limits that the kit can keep in every can. */
export async function measured(
  group: readonly Sharing[],
  limits: readonly FeedRequest[],
  tight: readonly FeedRequest[],
  stretch: number,
  amounts: Amounts,
  { kit, known, pen, bottles }: Hands,
): Promise<TrialPlan> {
  const [rounded, ...coarser] = LOOSER;
  const within = [
    sharedRequest(group, stretch, tight, rounded),
    ...[rounded!, ...coarser].map((by) => sharedRequest(group, stretch, limits, by)),
  ];
  const options = { known, steered: bottles };
  const byPen = pen && plannerByPen(within[0]!, amounts, kit, pen, options);
  for (const request of byPen ? within : []) {
    const plan = await byPen!(request);
    if (plan && keeps(plan.amounts, request)) return plan;
  }
  let plan: TrialPlan | null = null;
  for (const request of within) {
    plan = await planOnce(request, amounts, kit, options);
    if (keeps(plan.amounts, request)) break;
  }
  return plan!;
}

/** The program of a mix with the widths that doses may reach. */
export const roundedWithin = (
  group: readonly Sharing[],
  stretch: number,
  limits: readonly FeedRequest[],
): FeedRequest => sharedRequest(group, stretch, limits, LOOSER[0]);

/** Whether doses keep every row of a program, the EC caps by the full model. */
function keeps(amounts: Amounts, request: FeedRequest): boolean {
  const { limited } = programOn(request, ecCap(request) === null ? null : linearisationOfMix(amounts, request));
  const within = limited.every(({ limit, row }) => {
    if (limit.kind === 'water' || limit.kind === 'ec') return true;
    const parts = [
      ...amounts.products.map((x, i) => x * (row.terms[productColumn(i)] ?? 0)),
      ...amounts.waters.map((x, i) => x * (row.terms[waterColumn(i)] ?? 0)),
    ];
    const value = parts.reduce((sum, part) => sum + part, 0);
    const size = 1e-6 * Math.max(1e-9, ...parts.map(Math.abs), Math.abs(row.lower ?? row.upper ?? 0));
    return (
      value >= (row.lower ?? Number.NEGATIVE_INFINITY) - size && value <= (row.upper ?? Number.POSITIVE_INFINITY) + size
    );
  });
  return within && keepsEc(amounts, request);
}
