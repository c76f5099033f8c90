import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated } from './formulate.js';
import type { FeedRequest } from './request.js';
import type { Absent } from './results.js';

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
const NAMED = 3;

/**
 * Elements with a floor that nothing on the shelf is known to hold and that the water alone does not reach, with the kinds of
 * product on the market that would bring each: first those that bring most of the others too, then those that hold most
 * of it beside their other nutrients.
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
    min: row.lower!,
    broughtBy: kindsWith(elements[i]!, elements, request),
  }));
}

function kindsWith(nutrient: Nutrient, absent: readonly Nutrient[], request: FeedRequest): string[] {
  const found = (request.market ?? [])
    .map((product) => {
      const { content } = product.composition;
      const level = (n: Nutrient): number => content[n].low / need(n, request);
      const rest = Object.keys(request.programme.bands).reduce((sum, n) => sum + level(n as Nutrient), 0);
      const brings = absent.filter((n) => content[n].low > 0).length;
      return { product, brings, share: rest > 0 ? level(nutrient) / rest : 0 };
    })
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.brings - a.brings || b.share - a.share)
    .map(({ product }) => KINDS.get(product.kind ?? '') ?? product.name);
  return [...new Set(found)].slice(0, NAMED);
}

/** mg/L wanted of an element; 1 where it has no floor. */
function need(nutrient: Nutrient, request: FeedRequest): number {
  const band = request.programme.bands[nutrient];
  return band?.aim || band?.min || band?.max || 1;
}
