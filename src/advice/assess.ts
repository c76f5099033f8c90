import { graded } from '../blend/nearest-doses.js';
import type { Kit } from '../catalog/bench-types.js';
import type { Measure } from '../dose/measure.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import { oneChange } from './one-change.js';
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
  const status = misses.length === 0 ? 'within' : 'outside';
  return { status, ...told, feed: request.header, misses, graded: graded(misses, request), change: null, mostShare };
}

/**
 * The same with the change of one dose that helps most, of a product of the recipe or of the bench, made again with the full model.
 * @param shelf what could be added besides
 */
export async function assessHabit(
  recipe: Recipe,
  request: FeedRequest,
  { shelf, kit, known }: { shelf: readonly ClosedProduct[]; kit: Kit; known: readonly PowderKnown[] },
): Promise<AssessResult> {
  const result = await assess(recipe, request);
  if (result.status !== 'outside') return result;
  const more = shelf.filter(({ id, onHand }) => onHand !== 0 && request.shelf.every((own) => own.id !== id));
  const wide = { ...request, shelf: [...request.shelf, ...more] };
  const amounts = wide.shelf.map(({ id }) =>
    recipe.lines.reduce((sum, line) => (line.product.id === id ? sum + line.amount : sum), 0),
  );
  const change = oneChange({ amounts, litres: recipe.volumeLitres }, wide, kit, known);
  if (change === null) return result;
  const { product, from, to, measure } = change;
  const changed = await assess(withDose(recipe, product, to, measure), wide);
  if (changed.status === 'no programme') return result;
  const { id, name, composition } = product;
  const words = measure?.words ?? null;
  const told = { id, name: name || id, unit: composition.per, from, to, words, graded: changed.graded, ec: changed.ec };
  return { ...result, change: told };
}

/** The recipe with another dose of one product. */
function withDose(recipe: Recipe, product: ClosedProduct, amount: number, measure: Measure | null): Recipe {
  const others = recipe.lines.filter((line) => line.product.id !== product.id);
  if (measure === null) return { ...recipe, lines: others };
  const { words } = measure;
  const line = { product, words: `${words} ${product.id}`, amountWords: words, amount, spoonful: null, byPen: null };
  return { ...recipe, lines: [...others, { ...line, bySpoon: measure.tool === 'spoon' }] };
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
