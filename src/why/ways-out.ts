import { leastRelaxation, type Move } from '../../solver/index.js';
import { otherStrength } from './other-strength.js';
import type { Formulated, Limit } from '../formulation/formulate.js';
import { otherWaters } from './other-waters.js';
import { bestRatio, type Ratio, ratioOfRule } from '../formulation/ratio.js';
import { allRules, type FeedRequest } from '../feed/request.js';
import type { Relaxation } from '../feed/results.js';
import { roundedTo } from '../feed/rounded.js';
import { termsOf } from '../feed/terms.js';
import { formatNumber } from '../units/index.js';

/**
 * The ways out of a conflict: each limit of it alone as far as it must give way (where that is enough), the least total over
 * all limits, the nearest strength that would work, and the least share of another water that would.
 */
export async function waysOut(
  formulated: Formulated,
  involved: readonly Limit[],
  request: FeedRequest,
): Promise<Relaxation[]> {
  const ways: Relaxation[] = [];
  for (const limit of involved) {
    const way = limit.kind === 'water' ? null : await alone(formulated, limit, request);
    if (way) ways.push(way);
  }
  const total = await together(formulated, request);
  const strength = await otherStrength(formulated, request);
  return [...ways, ...(total ? [total] : []), ...(strength ? [strength] : []), ...(await otherWaters(request))];
}

async function alone(formulated: Formulated, limit: Limit, request: FeedRequest): Promise<Relaxation | null> {
  const { program } = formulated;
  const loosened = await leastRelaxation(program, new Map([[limit.id, 1]]));
  if (loosened.verdict !== 'relaxed' || loosened.moves.length === 0) return null;
  const move = loosened.moves[0]!;
  const ratio = ratioOf(limit, request);
  const best = ratio && (await bestRatio(program, limit.id, ratio, request));
  if (ratio && best !== null) return { kind: 'single', limit: limit.text, ...ratioChange(ratio, best) };
  return { kind: 'single', limit: limit.text, ...moved(move, limit, formulated, request) };
}

/** Every limit may move, each counted in parts of itself. */
async function together(formulated: Formulated, request: FeedRequest): Promise<Relaxation | null> {
  const { program, limits } = formulated;
  const weights = new Map(
    program.rows.flatMap((row): [string, number][] => {
      const limit = limits.get(row.id)!;
      return limit.kind === 'water' ? [] : [[row.id, 1 / sizeOf(limit, row.lower ?? row.upper ?? 0, request)]];
    }),
  );
  const loosened = await leastRelaxation(program, weights);
  if (loosened.verdict !== 'relaxed') return null;
  // a move too small to print is the engine's rounding
  const told = loosened.moves.filter((move) => move.by * weights.get(move.row)! > 1e-9);
  if (told.length === 0) return null;
  const moves = told.map((move) => {
    const limit = limits.get(move.row)!;
    const ratio = ratioOf(limit, request);
    const at = ratio && ratioAt(ratio, loosened.x, request);
    return {
      limit: limit.text,
      ...(ratio && at !== null ? ratioChange(ratio, at) : moved(move, limit, formulated, request)),
    };
  });
  return {
    kind: 'together',
    limit: moves.length === 1 ? moves[0]!.limit : `${moves.length} limits together`,
    change: moves.length === 1 ? moves[0]!.change : moves.map((m) => `${m.limit}: ${m.change}`).join('; '),
    from: moves.length === 1 ? moves[0]!.from : 0,
    to: moves.length === 1 ? moves[0]!.to : loosened.total,
    moves,
  };
}

/** What a limit is counted in parts of: its own number, or the level of its elements where that is zero. */
function sizeOf(limit: Limit, end: number, request: FeedRequest): number {
  if (end !== 0) return Math.abs(end);
  if (limit.kind !== 'rule') return 1;
  const { bands } = request.programme;
  const rule = allRules(request)[Number(limit.id.split(':')[1])]!;
  let size = 0;
  for (const [nutrient, weight] of Object.entries(rule.terms)) {
    const band = bands[nutrient as keyof typeof bands] ?? (nutrient.endsWith('-N') ? bands.N : undefined);
    size += Math.abs(weight) * (band?.aim ?? band?.max ?? band?.min ?? 1);
  }
  return size > 0 ? size : 1;
}

function moved(
  move: Move,
  limit: Limit,
  { program }: Formulated,
  request: FeedRequest,
): Pick<Relaxation, 'change' | 'from' | 'to'> {
  const row = program.rows.find((r) => r.id === limit.id)!;
  const from = (move.end === 'lower' ? row.lower : row.upper)!;
  const to = Math.abs(move.to) <= 1e-9 * Math.abs(from) ? 0 : move.to;
  const shown = formatNumber(roundedTo(to, move.end === 'lower' ? 'down' : 'up'));
  if (limit.kind === 'stock') {
    const { batchLitres } = request.header;
    const { id, composition, onHand } = request.shelf[limit.product!]!;
    if (batchLitres !== null && onHand !== undefined) {
      const wanted = formatNumber(roundedTo(to * batchLitres, 'up'));
      return {
        change: `${wanted} ${composition.per} of ${id} instead of ${formatNumber(onHand)} ${composition.per} for the batch`,
        from,
        to,
      };
    }
  }
  const unit =
    limit.kind === 'ec'
      ? 'mS/cm'
      : limit.kind === 'stock' || limit.kind === 'rate'
        ? `${request.shelf[limit.product!]!.composition.per}/L`
        : 'mg/L';
  return { change: `${shown} instead of ${formatNumber(from)} ${unit}`, from, to };
}

function ratioOf(limit: Limit, request: FeedRequest): Ratio | null {
  if (limit.kind !== 'rule') return null;
  const [, index, side] = limit.id.split(':');
  return ratioOfRule(allRules(request)[Number(index)]!, side === 'upper' ? 'cap' : 'floor');
}

/** A ratio as a mix has it, judged as its rule judges it; null where the lower part is nothing. */
function ratioAt(ratio: Ratio, x: Readonly<Record<string, number>>, request: FeedRequest): number | null {
  const sum = (nutrient: Ratio['over'], side: 'cap' | 'floor'): number =>
    Object.entries(termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), side)).reduce(
      (total, [id, a]) => total + a * (x[id] ?? 0),
      0,
    );
  const under = sum(ratio.under, ratio.side === 'cap' ? 'floor' : 'cap');
  return under > 0 ? sum(ratio.over, ratio.side) / under : null;
}

function ratioChange(ratio: Ratio, to: number): Pick<Relaxation, 'change' | 'from' | 'to'> {
  const show = (x: number): string => (ratio.isShare ? `${formatNumber(100 * x)} %` : formatNumber(x));
  const shown = roundedTo(to, ratio.side === 'cap' ? 'up' : 'down');
  return { change: `${ratio.name} ${show(shown)} instead of ${show(ratio.bound)}`, from: ratio.bound, to };
}
