import { Proof } from '../feed/proof.js';
import { boughtColumn, type Joint, jointProgram } from './program.js';
import { answerOf, type Found, search } from './search.js';
import type { Comparison, PurchaseOptions, Unproved } from './types.js';

/** The joint purchase beside buying for each feed alone, and beside the fewest products that do. */
export async function compare(
  joint: Joint,
  best: Unproved & { chosen: { found: Found } },
  options: PurchaseOptions,
): Promise<Comparison> {
  const alone = joint.feeds.length < 2 ? [] : await eachAlone(joint, options);
  const sums = alone.map((line) => line.spend);
  return {
    alone,
    aloneSpend: alone.length > 0 && sums.every((s) => s !== null) ? sums.reduce((a, b) => a + b, 0) : null,
    jointSpend: best.option.total,
    fewest: await fewest(joint, best, options),
  };
}

/** Budget and the number of products are set for the whole purchase, so they do not bind a part of it. */
async function eachAlone(joint: Joint, options: PurchaseOptions): Promise<Comparison['alone']> {
  const { atMost, budget, ...request } = joint.request;
  const lines: Comparison['alone'] = [];
  for (const feed of request.feeds) {
    options.onStep?.({ kind: 'alone', feed: feed.request.header.name });
    const answer = await search(jointProgram({ ...request, feeds: [feed] }), { ...options, byCases: false });
    const found = answer.found && answer.found.boundBy !== null ? answer.found : null;
    lines.push({
      feed: feed.request.header.name,
      spend: found?.objective ?? null,
      products: found ? productsOf(joint, found) : [],
    });
  }
  return lines;
}

async function fewest(
  joint: Joint,
  { option, overCap, chosen: { found } }: Unproved & { chosen: { found: Found } },
  options: PurchaseOptions,
): Promise<Comparison['fewest']> {
  const { currency, feeds } = joint.request;
  const asked = { question: 'fewest products', currency, feeds: feeds.length } as const;
  // one product is bought because none is not enough, unless it is bought to spare water
  if (option.packs.length === 0 || (option.packs.length === 1 && !hasDearWater(joint))) {
    const products = option.packs.map((p) => p.id);
    const [spend, purchase] = [option.total, answerOf(found)];
    return { products, spend, proof: Proof.of({ ...asked, products, spend, number: null, purchase, overCap }) };
  }
  options.onStep?.({ kind: 'fewest' });
  const count = await search(joint, { ...options, count: 'products', byCases: false });
  if (!count.found) return null;
  const number = count.found.counts.filter((c) => c > 0).length;
  const terms = Object.fromEntries(
    joint.pool.flatMap((_, i) => (joint.most[i]! > 0 ? [[boughtColumn(joint, i), 1] as const] : [])),
  );
  const cheapest = await search(joint, {
    ...options,
    byCases: false,
    rows: [{ id: 'fewest', upper: number, terms }],
  });
  if (!cheapest.found) return null;
  const products = productsOf(joint, cheapest.found);
  const spend = cheapest.found.objective;
  const answers = { number: answerOf(count.found), purchase: answerOf(cheapest.found) };
  return { products, spend, proof: Proof.of({ ...asked, products, spend, ...answers, overCap: [] }) };
}

function hasDearWater(joint: Joint): boolean {
  return joint.request.feeds.some(({ request }) => request.waters.some((water) => water.pricePerLitre > 0));
}

function productsOf(joint: Joint, found: Found): string[] {
  return joint.pool.flatMap(({ product }, i) => (found.counts[i]! > 0 ? [product.id] : []));
}
