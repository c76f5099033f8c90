import { leastRelaxation, type Move } from '../../solver/index.js';
import type { Limit } from '../feed/limits.js';
import { type Ratio, ratioOfRule } from '../feed/ratio.js';
import type { FeedRequest } from '../feed/request.js';
import { termsOf } from '../feed/terms.js';
import type { LimitMove, Relaxation } from '../feed/why-not.js';
import { bestRatio, type Formulated, type Limited, limitOf } from '../formulation/index.js';
import { otherStrength } from './other-strength.js';
import { otherWaters } from './other-waters.js';

/**
 * The ways out of a conflict: each limit of it alone as far as it must give way (where that is enough), the least total over
 * all limits, the nearest strength that would work, and the least share of another water that would.
 */
export async function waysOut(formulated: Formulated, involved: readonly Limited[]): Promise<Relaxation[]> {
  const ways: Relaxation[] = [];
  for (const limited of involved) {
    const move = limited.limit.kind === 'water' ? null : await alone(formulated, limited);
    if (move) ways.push({ kind: 'single', move });
  }
  const total = await together(formulated);
  const strength = await otherStrength(formulated);
  return [...ways, ...(total ? [total] : []), ...(strength ? [strength] : []), ...(await otherWaters(formulated))];
}

async function alone(formulated: Formulated, { limit, row }: Limited): Promise<LimitMove | null> {
  const { program, request } = formulated;
  const loosened = await leastRelaxation(program, new Map([[row.id, 1]]));
  if (loosened.verdict !== 'relaxed' || loosened.moves.length === 0) return null;
  const ratio = ratioOf(limit);
  const best = ratio && (await bestRatio(formulated, row.id, ratio));
  return ratio && best !== null ? ratioMove(limit, ratio, best) : boundMove(loosened.moves[0]!, limit, request);
}

/** Every limit may move, each counted in parts of itself. */
async function together(formulated: Formulated): Promise<Relaxation | null> {
  const { program, limited, request } = formulated;
  const weights = new Map(
    limited.flatMap(({ limit, row }): [string, number][] =>
      limit.kind === 'water' ? [] : [[row.id, 1 / sizeOf(limit, row.lower ?? row.upper ?? 0, request)]],
    ),
  );
  const loosened = await leastRelaxation(program, weights);
  if (loosened.verdict !== 'relaxed') return null;
  // a move too small to print is the engine's rounding
  const told = loosened.moves.filter((move) => move.by * weights.get(move.row)! > 1e-9);
  if (told.length === 0) return null;
  const moves = told.map((move): LimitMove => {
    const limit = limitOf(formulated, move.row);
    const ratio = ratioOf(limit);
    const at = ratio && ratioAt(ratio, loosened.x, request);
    return ratio && at !== null ? ratioMove(limit, ratio, at) : boundMove(move, limit, request);
  });
  return { kind: 'together', moves, total: loosened.total };
}

/** What a limit is counted in parts of: its own number, or the level of its elements where that is zero. */
export function sizeOf(limit: Limit, end: number, request: FeedRequest): number {
  if (end !== 0) return Math.abs(end);
  if (limit.kind !== 'rule') return 1;
  const { bands } = request.programme;
  let size = 0;
  for (const [nutrient, weight] of Object.entries(limit.rule.terms)) {
    const band = bands[nutrient as keyof typeof bands] ?? (nutrient.endsWith('-N') ? bands.N : undefined);
    size += Math.abs(weight) * (band?.aim ?? band?.max ?? band?.min ?? 1);
  }
  return size > 0 ? size : 1;
}

function boundMove(move: Move, limit: Limit, { header }: FeedRequest): LimitMove {
  const from = limit.kind === 'water' ? 1 : limit.bound;
  const to = Math.abs(move.to) <= 1e-9 * Math.abs(from) ? 0 : move.to;
  const wanted = limit.kind === 'stock' && header.batchLitres !== null ? to * header.batchLitres : null;
  return { limit, from, to, ratio: null, wanted };
}

const ratioMove = (limit: Limit, ratio: Ratio, to: number): LimitMove => ({
  limit,
  from: ratio.bound,
  to,
  ratio,
  wanted: null,
});

function ratioOf(limit: Limit): Ratio | null {
  return limit.kind === 'rule' ? ratioOfRule(limit.rule, limit.end) : null;
}

/** A ratio as a mix has it, judged as its rule judges it; null where the lower part is nothing. */
function ratioAt(ratio: Ratio, x: Readonly<Record<string, number>>, request: FeedRequest): number | null {
  const sum = (nutrient: Ratio['over'], side: 'cap' | 'floor'): number =>
    Object.entries(termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), side)).reduce(
      (total, [id, a]) => total + a * (x[id] ?? 0),
      0,
    );
  const isCap = ratio.end === 'most';
  const under = sum(ratio.under, isCap ? 'floor' : 'cap');
  return under > 0 ? sum(ratio.over, isCap ? 'cap' : 'floor') / under : null;
}
