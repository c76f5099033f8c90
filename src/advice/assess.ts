import { cautionsFor } from '../can/cautions.js';
import { disagreementText } from '../label/disagreement.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { Recipe } from './recipe.js';
import type { FeedRequest } from '../feed/request.js';
import type { AssessResult } from '../feed/results.js';

/**
 * What a given recipe delivers, read against the programme of the request (or against nothing). Rules and the EC cap are the same
 * as `blend` keeps; several waters are taken in equal shares.
 */
export async function assess(recipe: Recipe, request: FeedRequest, hasProgramme = true): Promise<AssessResult> {
  const amounts = request.shelf.map(() => 0);
  for (const line of recipe.lines) {
    const index = request.shelf.findIndex((product) => product.id === line.product.id);
    amounts[index] = amounts[index]! + line.amount / recipe.volumeLitres;
  }
  const mix = readOut({ products: amounts, waters: request.waters.map(() => 1 / request.waters.length) }, request);
  const told = {
    ...mix,
    recipe: recipe.text,
    volumeLitres: recipe.volumeLitres,
    notes: [
      ...recipe.lines.flatMap((line) => (line.note ? [line.note] : [])),
      ...recipe.lines.flatMap(({ product: { id, disagreement } }) =>
        disagreement ? [`${id}: ${disagreementText(disagreement)}.`] : [],
      ),
      ...(request.waters.length > 1 ? ['Several waters are given: taken in equal shares.'] : []),
    ],
    cautions: cautionsFor(
      recipe.lines.map((line) => line.product),
      request.header.plants,
    ),
  };
  if (!hasProgramme) return { status: 'no programme', ...told };
  const misses = missesOf(mix);
  return { status: misses.length === 0 ? 'within' : 'outside', ...told, feed: request.header, misses };
}
