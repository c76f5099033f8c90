import { cautionsFor } from '../can/cautions.js';
import { closeShelf, sourcesDisagree } from '../label/close.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { Recipe } from './recipe.js';
import type { FeedRequest } from '../feed/request.js';
import type { AssessResult } from '../feed/results.js';

/**
 * What a given recipe delivers, read against the programme of the request (or against nothing). Rules and the EC cap are the same
 * as `blend` keeps; several waters are taken in equal shares.
 */
export async function assess(recipe: Recipe, asked: FeedRequest, hasProgramme = true): Promise<AssessResult> {
  const request = { ...asked, shelf: await closeShelf(asked.shelf) };
  const amounts = request.shelf.map(() => 0);
  for (const line of recipe.lines) {
    const index = asked.shelf.indexOf(line.product);
    amounts[index] = amounts[index]! + line.amount / recipe.volumeLitres;
  }
  const mix = readOut({ products: amounts, waters: request.waters.map(() => 1 / request.waters.length) }, request);
  const misses = missesOf(mix);
  const disagree = await Promise.all(recipe.lines.map(({ product }) => sourcesDisagree(product)));
  return {
    schema: 'velamen.assess/1',
    status: !hasProgramme ? 'no programme' : misses.length === 0 ? 'within' : 'outside',
    ...mix,
    feed: hasProgramme ? request.header : null,
    recipe: recipe.text,
    volumeLitres: recipe.volumeLitres,
    misses,
    notes: [
      ...recipe.lines.flatMap((line) => (line.note ? [line.note] : [])),
      ...recipe.lines.flatMap(({ product }, i) => (disagree[i] ? [`${product.id}: ${disagree[i]}.`] : [])),
      ...(request.waters.length > 1 ? ['Several waters are given: taken in equal shares.'] : []),
    ],
    cautions: cautionsFor(
      recipe.lines.map((line) => line.product),
      request.header.plants,
    ),
  };
}
