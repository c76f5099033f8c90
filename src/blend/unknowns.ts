import { NUTRIENTS } from '../chemistry/nutrients.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import { solveFeed } from '../formulation/solve-feed.js';
import { formatNumber } from '../units/index.js';

/** Most labels tried one by one; more than this are only tried together. */
const ONE_BY_ONE = 12;

/**
 * What the labels' silence costs: the request is solved again as if every open figure were as kind as it can be, for all
 * labels together and then label by label. `found` is what the proved answer came to (cost per litre; for the closest feed its
 * largest relative miss), or null when no mix was possible.
 */
export async function costOfSilence(request: FeedRequest, found: number | null): Promise<string[]> {
  const open = request.shelf.filter(isOpen);
  if (open.length === 0) return [];
  const kindest = await figureWith(request, new Set(open.map((p) => p.id)));
  if (kindest === null) return [];
  if (found !== null && kindest > found * (1 - 1e-4)) return [];
  const sentences = [sentence(open.length === 1 ? open[0]!.id : 'all labels', kindest, found, request)];
  if (open.length === 1 || open.length > ONE_BY_ONE) return sentences;
  for (const product of open) {
    const alone = await figureWith(request, new Set([product.id]));
    if (alone !== null && (found === null || alone < found * (1 - 1e-4))) {
      sentences.push(sentence(product.id, alone, found, request));
    }
  }
  return sentences;
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

function sentence(who: string, kind: number, found: number | null, request: FeedRequest): string {
  const subject =
    who === 'all labels'
      ? 'If every label stated what it now leaves open'
      : `If the label of ${who} stated what it now leaves open`;
  const show = (x: number): string =>
    request.goal === 'closest' ? `${formatNumber(100 * x)} %` : `${formatNumber(x)} ${request.header.currency}/L`;
  if (found === null)
    return `${subject}, a mix might be possible (at best ${show(kind)}${request.goal === 'closest' ? ' off its aims' : ''}).`;
  return request.goal === 'closest'
    ? `${subject}, the feed might come within ${show(kind)} of its aims instead of ${show(found)}.`
    : `${subject}, the feed might cost as little as ${show(kind)} instead of ${show(found)}.`;
}
