import { solve } from '../../solver/index.js';
import type { Product } from '../catalog/product.js';
import { NUTRIENTS, perNutrient } from '../chemistry/nutrients.js';
import type { Content } from '../label/composition.js';
import { formulate, shortNumber } from './formulate.js';
import type { FeedRequest } from './request.js';

/** Most labels tried one by one; more than this are only tried together. */
const ONE_BY_ONE = 12;

/**
 * What the labels' silence costs: the program is solved again as if every open figure were as kind as it can be, for all
 * labels together and then label by label. `found` is the proved cost per litre, or null when no mix was possible.
 */
export async function costOfSilence(request: FeedRequest, found: number | null): Promise<string[]> {
  const open = request.shelf.filter(isOpen);
  if (open.length === 0) return [];
  const kindest = await costWith(request, new Set(open.map((p) => p.id)));
  if (kindest === null) return [];
  if (found !== null && kindest > found * (1 - 1e-4)) return [];
  const sentences = [sentence(open.length === 1 ? open[0]!.id : 'all labels', kindest, found, request.header.currency)];
  if (open.length === 1 || open.length > ONE_BY_ONE) return sentences;
  for (const product of open) {
    const alone = await costWith(request, new Set([product.id]));
    if (alone !== null && (found === null || alone < found * (1 - 1e-4))) {
      sentences.push(sentence(product.id, alone, found, request.header.currency));
    }
  }
  return sentences;
}

/** True where the label leaves a figure open. */
export function isOpen(product: Product): boolean {
  return NUTRIENTS.some((n) => product.composition.content[n].low !== product.composition.content[n].high);
}

async function costWith(request: FeedRequest, kind: ReadonlySet<string>): Promise<number | null> {
  const verdict = await solve(
    formulate({ ...request, shelf: request.shelf.map((p) => (kind.has(p.id) ? kindest(p) : p)) }).program,
  );
  return verdict.verdict === 'optimal' ? verdict.objective : null;
}

/** Floors count the most and caps the least: the label read as favourably as it allows. */
function kindest(product: Product): Product {
  const content = perNutrient((n): Content => {
    const c = product.composition.content[n];
    return { low: c.high, stated: c.stated, high: c.low };
  });
  return { ...product, composition: { ...product.composition, content } };
}

function sentence(who: string, kind: number, found: number | null, currency: string): string {
  const subject =
    who === 'all labels'
      ? 'If every label stated what it now leaves open'
      : `If the label of ${who} stated what it now leaves open`;
  return found === null
    ? `${subject}, a mix might be possible (at best ${shortNumber(kind)} ${currency}/L).`
    : `${subject}, the feed might cost as little as ${shortNumber(kind)} instead of ${shortNumber(found)} ${currency}/L.`;
}
