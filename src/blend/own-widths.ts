import type { Nutrient } from '../chemistry/nutrients.js';
import { aimsOf, factorOf, type NearAsked } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { cheapest } from '../formulation/index.js';
import { heldOf, type NearestWidth, nearRequest } from './near-width.js';
import { allowance } from './thrifty.js';

/** As near as this to the width of the plan an element is one that holds it there. */
const AT_WIDTH = 0.98;
const STEPS = 6;

/**
 * Where one element keeps the shelf from the widths that were asked for, the others need not be as far off: they are held as near as can be for
 * what fewer items might cost, and only those that are to blame keep the width they need.
 * @param mostCost what a mix so near may cost a litre
 * @returns the widths of the plan, the same where they did not have to grow
 */
export async function ownWidths(
  request: FeedRequest,
  { asked, found, stoppedBy }: NearestWidth,
  { factor: wanted }: { factor: number },
  mostCost = allowance(found.optimal.objective, request),
): Promise<NearAsked> {
  if (!(asked.factor > wanted * 1.001)) return asked;
  const named = new Set(stoppedBy.flatMap((limit) => (limit.kind === 'near' ? [limit.nutrient] : [])));
  const far = aimsOf(request.programme).filter(
    ([nutrient, aim]) =>
      nutrient !== 'N' &&
      named.has(nutrient) &&
      factorOf(nutrient, heldOf(nutrient, found.amounts, request), aim) >= AT_WIDTH * asked.factor,
  );
  if (far.length === 0) return asked;
  const own: Partial<Record<Nutrient, number>> = Object.fromEntries(far.map(([nutrient]) => [nutrient, asked.factor]));
  const at = (factor: number): NearAsked => ({ ...asked, factor, own });
  const does = async (factor: number): Promise<boolean> => {
    const answer = await cheapest(nearRequest(request, at(factor)));
    return answer.answer === 'found' && answer.optimal.objective <= mostCost;
  };
  if (await does(wanted)) return at(wanted);
  let [low, high] = [wanted, asked.factor];
  for (let step = 0; step < STEPS; step += 1) {
    const middle = Math.sqrt(low * high);
    if (await does(middle)) high = middle;
    else low = middle;
  }
  return at(high);
}
