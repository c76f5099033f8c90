import { conflict, type LinearProgram, leastRelaxation, type Relaxation as Loosened } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { type Formulated, formulate, type Limit, shortNumber, waterContent } from './formulate.js';
import { bestRatio, ratioOfRule } from './ratio.js';
import { allRules, type FeedRequest } from './request.js';
import type { ConflictLine, Relaxation } from './results.js';

/**
 * Why no mix exists: an irreducible set of limits that cannot hold together, each with the products behind it, and for each of
 * them how far it alone would have to give way.
 */
export async function conflictOf(
  request: FeedRequest,
): Promise<{ conflict: ConflictLine[]; relaxations: Relaxation[] }> {
  const formulated = formulate(request, { ceilingsAsRows: request.shelf.length <= 200 });
  const found = await conflict(formulated.program);
  if (found.verdict !== 'conflict') return { conflict: [], relaxations: [] };
  const involved = found.rows.map(({ id }) => formulated.limits.get(id)!);
  const wanted = involved.flatMap((l) => (l.kind === 'min' ? [l.nutrient!] : []));
  return {
    conflict: involved
      .filter((limit) => limit.kind !== 'water')
      .map((limit) => ({
        limit: limit.text,
        from: limit.from,
        because: becauseOf(limit, wanted, formulated, request),
      })),
    relaxations: await waysOut(formulated, involved, request),
  };
}

/** Which products make a limit bite, in words. */
function becauseOf(limit: Limit, wanted: readonly Nutrient[], formulated: Formulated, request: FeedRequest): string[] {
  const row = formulated.program.rows.find((r) => r.id === limit.id)!;
  const bringers = [...formulated.products]
    .map(([id, index]) => ({ product: request.shelf[index]!, brings: row.terms[id] ?? 0 }))
    .filter(({ brings }) => brings > 0);
  if (limit.kind === 'min') {
    if (bringers.length > 0)
      return [`${limit.nutrient} can only come from ${names(bringers.map((b) => b.product.id))}`];
    return [`nothing on the shelf is known to hold ${limit.nutrient}`];
  }
  if (limit.kind === 'stock' || limit.kind === 'rate') return [];
  const sources = wanted.flatMap((nutrient) =>
    bringers.flatMap(({ product, brings }) => {
      const holds = product.composition.content[nutrient].low;
      if (!(holds > 0)) return [];
      const what =
        limit.kind === 'ec' ? `${shortNumber(brings)} mS/cm per g/L` : `${shortNumber(brings)} mg towards this limit`;
      return [`${product.id} brings ${what} with every ${shortNumber(holds)} mg of ${nutrient}`];
    }),
  );
  const water = request.waters.flatMap((w) => {
    const brings = limit.nutrient ? waterContent(w, limit.nutrient) : 0;
    return brings > 0 ? [`${w.name} holds ${shortNumber(brings)} mg/L of ${limit.nutrient}`] : [];
  });
  return [...new Set([...water, ...sources])].slice(0, 6);
}

async function waysOut(
  formulated: Formulated,
  involved: readonly Limit[],
  request: FeedRequest,
): Promise<Relaxation[]> {
  const ways: Relaxation[] = [];
  for (const limit of involved) {
    if (limit.kind === 'water') continue;
    const way = await wayOut(formulated.program, limit, request);
    if (way) ways.push(way);
  }
  return ways;
}

async function wayOut(program: LinearProgram, limit: Limit, request: FeedRequest): Promise<Relaxation | null> {
  const row = program.rows.find((r) => r.id === limit.id)!;
  const loosened: Loosened = await leastRelaxation(program, new Map([[limit.id, 1]]));
  if (loosened.verdict !== 'relaxed' || loosened.moves.length === 0) return null;
  const { to, end } = loosened.moves[0]!;
  const from = (end === 'lower' ? row.lower : row.upper)!;
  const share = limit.kind === 'rule' ? await shareInstead(program, limit, request) : null;
  if (share) return { limit: limit.text, ...share };
  const unit =
    limit.kind === 'ec' ? 'mS/cm' : limit.kind === 'stock' || limit.kind === 'rate' ? 'g or mL per litre' : 'mg/L';
  return { limit: limit.text, change: `${shortNumber(to)} instead of ${shortNumber(from)} ${unit}`, from, to };
}

async function shareInstead(
  program: LinearProgram,
  limit: Limit,
  request: FeedRequest,
): Promise<Omit<Relaxation, 'limit'> | null> {
  const [, index, side] = limit.id.split(':');
  const ratio = ratioOfRule(allRules(request)[Number(index)]!, side === 'upper' ? 'cap' : 'floor');
  if (!ratio) return null;
  const best = await bestRatio(program, limit.id, ratio, request);
  if (best === null) return null;
  const show = (x: number): string => (ratio.isShare ? `${shortNumber(100 * x)} %` : shortNumber(x));
  return { change: `${ratio.name} ${show(best)} instead of ${show(ratio.bound)}`, from: ratio.bound, to: best };
}

function names(ids: readonly string[]): string {
  const shown = ids.slice(0, 6);
  const rest = ids.length - shown.length;
  if (rest > 0) return `${shown.join(', ')} and ${rest} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} or ${shown.at(-1)}`;
}
