import { withCan } from '../can/can-cautions.js';
import { cautionsFor } from '../can/cautions.js';
import { watersOf } from '../can/part.js';
import { withReadingOf } from '../chance/reading.js';
import { ironMiss, missesOf, readOut } from '../feed/readout.js';
import { mergedLines } from './merged-lines.js';
import { otherWater } from './named-water.js';
import type { Recipe } from './recipe.js';
import type { FeedRequest } from '../feed/request.js';
import type { Miss, Mix } from '../feed/results.js';
import type { AssessNote } from './findings.js';
import type { AssessResult, PartByPen } from './types.js';

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
  // the batch is what the recipe is for, whatever the feed is mixed in
  const header = { ...request.header, batchLitres: recipe.volumeLitres };
  const shares = request.waters.map(() => 1 / request.waters.length);
  const dosed = mergedLines(recipe.lines).map(({ product, amount, sd }) => ({
    product,
    perLitre: amount / recipe.volumeLitres,
    spread: amount > 0 ? sd / amount : 0,
  }));
  const mixed = readOut({ products: amounts, waters: shares }, { ...request, header });
  const mix = withReadingOf(mixed, dosed, watersOf({ waters: shares }, request.waters));
  const told = {
    ...mix,
    recipe: recipe.text,
    volumeLitres: recipe.volumeLitres,
    byPen: partsByPen(recipe),
    notes: notesOf(recipe, request),
    cautions: withCan(
      cautionsFor(
        recipe.lines.map((line) => line.product),
        request.header,
      ),
      mix,
    ),
  };
  if (!hasProgramme) return { status: 'no programme', ...told };
  const misses = [...missesOf(mix), ...ironMiss(mix)];
  const mostShare = misses.some(isTooMuch)
    ? shareKept((share) => readOut({ products: amounts.map((x) => share * x), waters: shares }, { ...request, header }))
    : null;
  return { status: misses.length === 0 ? 'within' : 'outside', ...told, feed: request.header, misses, mostShare };
}

/** A nutrient or the EC over its most, which weaker amounts mend; a ratio is as wrong in any strength. */
const isTooMuch = ({ limit, value, bound }: Miss): boolean =>
  (limit.kind === 'nutrient' || limit.kind === 'ec') && value > bound;

/** The largest share of the amounts, in whole per cent, of which nothing is too much; 0 where the water alone has too much. */
function shareKept(at: (share: number) => Mix): number {
  let [kept, over] = [0, 100];
  while (over - kept > 1) {
    const middle = Math.floor((kept + over) / 2);
    if (missesOf(at(middle / 100)).some(isTooMuch)) over = middle;
    else kept = middle;
  }
  return kept / 100;
}

const partsByPen = ({ lines }: Recipe): PartByPen[] =>
  lines.flatMap(({ product, amount, byPen }) => {
    if (byPen === null) return [];
    const { told, low, high, before, after } = byPen;
    const { id, name, composition } = product;
    return [{ id, name, unit: composition.per, told, amount, low, high, before, after }];
  });

function notesOf({ lines, text }: Recipe, { waters }: FeedRequest): AssessNote[] {
  return [
    ...lines.flatMap(({ spoonful }): AssessNote[] => (spoonful === null ? [] : [{ kind: 'spoonful', spoonful }])),
    ...lines.flatMap(({ product: { id, disagreement } }): AssessNote[] =>
      disagreement === undefined ? [] : [{ kind: 'sources disagree', id, disagreement }],
    ),
    ...(waters.length > 1 ? [{ kind: 'equal waters' } as const] : []),
    ...[otherWater(text, waters) ?? []].flat(),
  ];
}
