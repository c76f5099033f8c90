import { type Conflict, conflict } from '../../solver/index.js';
import { absentFrom } from './absent.js';
import { becauseOf } from './because.js';
import { farkasOf } from './farkas.js';
import { type Formulated, formulate } from '../formulation/formulate.js';
import type { FeedRequest } from '../feed/request.js';
import type { Absent, WhyNot } from '../feed/results.js';
import { waysOut } from './ways-out.js';

/** Up to this many products, stock and label ceilings can be named in a conflict. */
const NAMED_CEILINGS = 200;

/**
 * Why no mix exists: what nothing on the shelf holds; an irreducible set of limits that cannot hold together, each with the products
 * behind it; the sum that proves it; and the ways out.
 */
export async function conflictOf(request: FeedRequest): Promise<WhyNot> {
  const formulated = formulate(request, { ceilingsAsRows: request.shelf.length <= NAMED_CEILINGS });
  const absent = absentFrom(formulated, request);
  const found = await mostTelling(formulated, absent);
  if (found.verdict !== 'conflict') return { absent, conflict: [], irreducible: false, farkas: null, relaxations: [] };
  const limits = found.rows.map(({ id }) => formulated.limits.get(id)!);
  const clash = { formulated, request, limits };
  return {
    absent,
    conflict: limits
      .filter((limit) => limit.kind !== 'water')
      .map((limit) => ({ limit: limit.text, from: limit.from, because: becauseOf(limit, clash) })),
    irreducible: found.irreducible,
    farkas: farkasOf(formulated, found.ray),
    relaxations: await waysOut(formulated, limits, request),
  };
}

/** A conflict besides what is missing altogether, where there is one: it would be left when that has been bought. */
async function mostTelling(formulated: Formulated, absent: readonly Absent[]): Promise<Conflict> {
  const missing = new Set(absent.map(({ element }) => element));
  const rows = formulated.program.rows.filter((row) => {
    const limit = formulated.limits.get(row.id)!;
    return limit.kind !== 'min' || !missing.has(limit.nutrient!);
  });
  const besides = absent.length === 0 ? null : await conflict({ ...formulated.program, rows });
  return besides?.verdict === 'conflict' ? besides : conflict(formulated.program);
}
