import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated } from '../formulation/index.js';
import type { FeedRequest } from '../feed/request.js';
import type { Absent, Source } from '../feed/why-not.js';

/** Kinds of product that say to a shop what to look for; any other goes by its name. */
const TELLING = new Set([
  'nitrate',
  'ammonium',
  'balanced',
  'bloom',
  'rest',
  'calcium',
  'calcium-magnesium',
  'micro',
  'silicate',
  'kelp',
  'humic',
  'organic',
]);

/** Kinds named for one element. */
const NAMED = 2;

/**
 * Elements with a floor that nothing on the shelf is known to hold and that the water alone does not reach, with the kinds of
 * product on the market that would bring each: first those that bring many of the missing ones and
 * little else.
 */
export function absentFrom(formulated: Formulated, request: FeedRequest): Absent[] {
  const missing = formulated.limited.flatMap(({ limit, row }) => {
    if (limit.kind !== 'nutrient' || limit.end !== 'least') return [];
    if ([...formulated.products.keys()].some((id) => (row.terms[id] ?? 0) > 0)) return [];
    return [...formulated.waters.keys()].every((id) => (row.terms[id] ?? 0) < limit.bound) ? [limit] : [];
  });
  const elements = missing.map(({ nutrient }) => nutrient);
  return missing.map(({ nutrient, bound }) => ({
    element: nutrient,
    min: bound,
    broughtBy: sourcesOf(nutrient, elements, request),
  }));
}

function sourcesOf(nutrient: Nutrient, absent: readonly Nutrient[], request: FeedRequest): Source[] {
  const found = (request.market ?? [])
    .map((product) => {
      const { content } = product.composition;
      const level = (n: Nutrient): number => content[n].low / need(n, request);
      const rest = Object.keys(request.programme.bands).reduce((sum, n) => sum + level(n as Nutrient), 0);
      const brings = absent.filter((n) => content[n].low > 0);
      const useful = brings.reduce((sum, n) => sum + level(n), 0);
      return { product, score: rest > 0 ? (brings.length * useful) / rest : 0 };
    })
    .filter(({ product, score }) => score > 0 && product.composition.content[nutrient].low > 0)
    .sort((x, y) => y.score - x.score)
    .map(({ product: { kind, name } }): Source => (kind !== undefined && TELLING.has(kind) ? { kind } : { name }));
  const keys = found.map((source) => JSON.stringify(source));
  return found.filter((_, i) => keys.indexOf(keys[i]!) === i).slice(0, NAMED);
}

/** mg/L wanted of an element; 1 where it has no floor. */
function need(nutrient: Nutrient, request: FeedRequest): number {
  const band = request.programme.bands[nutrient];
  return band?.aim || band?.min || band?.max || 1;
}
