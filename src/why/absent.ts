import { mgPerLitre } from '../units/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated } from '../formulation/formulate.js';
import type { FeedRequest } from '../feed/request.js';
import type { Absent } from '../feed/results.js';

/** Kinds of product in words that a shop would understand. */
const KINDS: ReadonlyMap<string, string> = new Map([
  ['nitrate', 'a nitrate feed'],
  ['ammonium', 'an ammonium feed'],
  ['balanced', 'a balanced feed'],
  ['bloom', 'a phosphate and potash feed'],
  ['rest', 'a winter feed'],
  ['calcium', 'a calcium feed'],
  ['calmag', 'a calcium and magnesium liquid'],
  ['micro', 'a trace-element mix'],
  ['silicate', 'a soluble silicate'],
  ['kelp', 'a kelp extract'],
  ['humic', 'a humic extract'],
  ['organic', 'an organic feed'],
]);

/** Kinds named for one element. */
const NAMED = 2;

/**
 * Elements with a floor that nothing on the shelf is known to hold and that the water alone does not reach, with the kinds of
 * product on the market that would bring each: first those that bring many of the missing ones and
 * little else.
 */
export function absentFrom(formulated: Formulated, request: FeedRequest): Absent[] {
  const missing = formulated.program.rows.filter((row) => {
    if (formulated.limits.get(row.id)!.kind !== 'min') return false;
    if ([...formulated.products.keys()].some((id) => (row.terms[id] ?? 0) > 0)) return false;
    return [...formulated.waters.keys()].every((id) => (row.terms[id] ?? 0) < row.lower!);
  });
  const elements = missing.map((row) => formulated.limits.get(row.id)!.nutrient!);
  return missing.map((row, i) => ({
    element: elements[i]!,
    min: mgPerLitre(row.lower!),
    broughtBy: kindsWith(elements[i]!, elements, request),
  }));
}

function kindsWith(nutrient: Nutrient, absent: readonly Nutrient[], request: FeedRequest): string[] {
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
    .map(({ product }) => KINDS.get(product.kind ?? '') ?? product.name);
  return [...new Set(found)].slice(0, NAMED);
}

/** mg/L wanted of an element; 1 where it has no floor. */
function need(nutrient: Nutrient, request: FeedRequest): number {
  const band = request.programme.bands[nutrient];
  return band?.aim || band?.min || band?.max || 1;
}
