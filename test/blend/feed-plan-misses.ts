import { dosesOfFeed } from '../../src/desk/doses.js';
import { aims, cansThatHold, heldIn, leastCost, leastWidth, missing, widthOf } from './feed-plan-judge.js';
import { goodShelf } from './good-shelves.js';

/** What a feed of a seeded shelf falls short of, as words with figures: `grave` is never to be, `poor` is less than could be had. */
export async function missesOn(seed: number): Promise<{ grave: string[]; poor: string[] }> {
  const { open, request } = await goodShelf(seed);
  const { result, plan } = await dosesOfFeed(request, open, { bare: false }, { offers: false });
  const skip = missing(request);
  const strict = await leastWidth(request, true, skip);
  const least = strict ?? (await leastWidth(request, false, skip));
  if (result.status !== 'made' || plan === null || !('given' in result))
    return { grave: least === null ? [] : [`no feed, and the referee has ${least}`], poor: [] };
  if (least === null) return { grave: ['a feed, and the referee has none'], poor: [] };
  const amounts = request.shelf.map(({ id }) => (plan.items.find((i) => i.product.id === id)?.chosen.amount ?? 0) / 4);
  const width = widthOf(request, amounts, skip);
  const nitrogen = heldIn(request, amounts, 'N') / aims(request).find(([n]) => n === 'N')![1];
  const told = new Set(result.given.custom.flatMap(({ limit }) => (limit.kind === 'nutrient' ? [limit.nutrient] : [])));
  const cans = cansThatHold(request, plan, told);
  const cheap = await leastCost(request, { width: Math.max(width, 1.35), custom: strict !== null, skip });
  const cost = plan.mix.costPerLitre!;
  const nitrate = heldIn(request, amounts, 'NO3-N') / heldIn(request, amounts, 'N');
  const isNear = width <= allowed(least) || width <= allowed(await byHand(request, skip));
  return {
    grave: [
      ...(plan.status === 'kept' ? [] : ['limits violated']),
      ...(request.header.medium !== 'sphagnum' || nitrate >= 0.5 ? [] : [`nitrate ${nitrate}`]),
    ],
    poor: [
      ...(Math.abs(nitrogen - 1) <= 0.08 ? [] : [`nitrogen ${nitrogen}`]),
      ...(isNear ? [] : [`width ${width}, the least is ${least}`]),
      ...(cans >= 85 ? [] : [`cans ${cans}`]),
      ...(cost <= 1.35 * cheap + 0.004 ? [] : [`cost ${cost}, the least is ${cheap}`]),
    ],
  };
}

/** Hands work in steps, and sure cans and money have a say. */
const allowed = (least: number): number => 1.15 * least + 0.15;

/** The least width of a mix that this kit measures and whose every band holds in 85 of 100 cans. */
async function byHand(request: Parameters<typeof leastWidth>[0], skip: ReadonlySet<string>): Promise<number> {
  return (
    (await leastWidth(request, true, skip, true)) ??
    (await leastWidth(request, false, skip, true)) ??
    Number.POSITIVE_INFINITY
  );
}
