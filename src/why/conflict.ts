import { type Conflict, conflict } from '../../solver/index.js';
import { absentFrom } from './absent.js';
import { becauseOf } from './because.js';
import { farkasOf } from './farkas.js';
import { type Formulated, programOn, solveFeed } from '../formulation/index.js';
import type { FeedRequest } from '../feed/request.js';
import type { Absent, WhyNot } from '../feed/why-not.js';
import { waysOut } from './ways-out.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';

/** Up to this many products, stock and label ceilings can be named in a conflict. */
const NAMED_CEILINGS = 200;

/**
 * Why no mix exists: what nothing on the shelf holds; an irreducible set of limits that cannot hold together, each with the products
 * behind it; the sum that proves it; and the ways out.
 * @param linearisation what the limits contradict each other on, of the answer that says so
 */
export async function conflictOf(request: FeedRequest, linearisation: EcLinearisation | null): Promise<WhyNot> {
  const ceilingsAsRows = request.shelf.length <= NAMED_CEILINGS;
  const formulated = programOn(request, linearisation, { ceilingsAsRows });
  const absent = absentFrom(formulated, request);
  const found = await mostTelling(formulated, absent);
  if (found.verdict !== 'conflict') return { absent, conflict: [], irreducible: false, farkas: null, relaxations: [] };
  const limits = found.rows.map(({ id }) => formulated.limited.find(({ row }) => row.id === id)!);
  const clash = { formulated, request, limits };
  return {
    absent,
    conflict: limits
      .filter(({ limit }) => limit.kind !== 'water')
      .map((limited) => ({ limit: limited.limit, because: becauseOf(limited, clash) })),
    irreducible: found.irreducible,
    farkas: farkasOf(formulated, found.ray),
    relaxations: await waysOut(formulated, limits),
  };
}

/** The same, asked first whether there is a feed at all; null where there is one, or where that could not be settled. */
export async function whyNot(request: FeedRequest): Promise<WhyNot | null> {
  const { atMost: _, ...any } = request;
  const answer = await solveFeed(any);
  return answer.answer === 'none' ? conflictOf(any, answer.linearisation) : null;
}

/** A conflict besides what is missing altogether, where there is one: it would be left when that has been bought. */
async function mostTelling(formulated: Formulated, absent: readonly Absent[]): Promise<Conflict> {
  const missing = new Set(absent.map(({ element }) => element));
  const rows = formulated.limited.flatMap(({ limit, row }) =>
    limit.kind === 'nutrient' && limit.end === 'least' && missing.has(limit.nutrient) ? [] : [row],
  );
  const besides = absent.length === 0 ? null : await conflict({ ...formulated.program, rows });
  return besides?.verdict === 'conflict' ? besides : conflict(formulated.program);
}
