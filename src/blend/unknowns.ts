import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import { solveFeed } from '../formulation/index.js';
import type { Silence } from '../feed/results.js';

/** Most labels tried one by one; more than this are only tried together. */
const ONE_BY_ONE = 12;

/**
 * What the labels' silence costs: the request is solved again as if every open figure were as kind as it can be, for all
 * labels together and then label by label. `found` is what the proved answer came to (cost per litre; for the closest feed its
 * largest relative miss), or null when no mix was possible.
 */
export async function costOfSilence(request: FeedRequest, found: number | null): Promise<Silence[]> {
  const open = request.shelf.filter(isOpen);
  if (open.length === 0) return [];
  const kindest = await figureWith(request, new Set(open.map((p) => p.id)));
  if (kindest === null) return [];
  if (found !== null && kindest > found * (1 - 1e-4)) return [];
  const told: Silence[] = [{ label: open.length === 1 ? open[0]!.id : null, kindest, found }];
  if (open.length === 1 || open.length > ONE_BY_ONE) return told;
  for (const product of open) {
    const alone = await figureWith(request, new Set([product.id]));
    if (alone !== null && (found === null || alone < found * (1 - 1e-4))) {
      told.push({ label: product.id, kindest: alone, found });
    }
  }
  return told;
}

/** True where the label leaves a figure open. */
function isOpen(product: ClosedProduct): boolean {
  return NUTRIENTS.some((n) => product.composition.content[n].low !== product.composition.content[n].high);
}

async function figureWith(request: FeedRequest, kind: ReadonlySet<string>): Promise<number | null> {
  const at = { ...request, shelf: request.shelf.map((p) => (kind.has(p.id) ? p.asKindAsCanBe() : p)) };
  const answer = await solveFeed(at);
  return answer.answer === 'found' ? answer.figure : null;
}
