import { assess, assessHabit } from '../advice/assess.js';
import { parseAdvice } from '../advice/parse.js';
import type { AdviceResult } from '../advice/types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { AssessResult } from '../advice/types.js';
import type { PenScale } from '../report/mix.js';
import { adviceHeld } from './advice.js';
import type { Answer } from './answer.js';
import type { Collected } from './collected.js';
import type { BenchFiles } from './bench-files.js';
import { dosedRecipe } from './dosed-recipe.js';
import { feedRequests, unjudged, warmthOf } from './feed-requests.js';
import type { OpenBench } from './opened.js';
import { productsKnown } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';
import { areAdvice, type WordsRead, wordsRead } from './words-read.js';

/** What a recipe delivers, or what advice in words comes to. */
export type Assessed = { pen: PenScale | null } & (
  | ({ about: 'recipe' } & Answer<AssessResult>)
  | ({ about: 'advice' } & Answer<AdviceResult>)
);

/**
 * What the words of `recipe` come to: a recipe ("1.2 g base + 3 mL kelp in 4 L") in mg/L of every element, EC and cost, judged by the one
 * feed that is meant; or other people's advice ("125 ppm N", "half strength 20-10-20 at 1 tsp/US gal"), as ranges, and with one's own feed
 * at the same strength. `met` is false where the feed's limits are not kept.
 * @throws Refusal with every problem of bench, shelf, wishes and words
 */
export async function assessWords(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Assessed> {
  const asked = await wordsRead(files, wishes, catalog);
  return areAdvice(asked)
    ? adviceRead(asked.words ?? '', asked.open, wishes, asked.collected)
    : recipeRead(asked, wishes);
}

/** The same, where the words have to be a recipe. */
export async function assessRecipe(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<AssessResult>> {
  return recipeRead(await wordsRead(files, wishes, catalog), wishes);
}

/** The same, where the words have to be advice. */
export async function translateOthersAdvice(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Answer<AdviceResult>> {
  const { open, collected, words } = await wordsRead(files, wishes, catalog);
  return adviceRead(words ?? '', open, wishes, collected);
}

async function recipeRead(
  { read, open, collected, scale }: Pick<WordsRead, 'read' | 'open' | 'collected' | 'scale'>,
  wishes: Wishes,
): Promise<{ about: 'recipe'; pen: PenScale | null } & Answer<AssessResult>> {
  const warmth = warmthOf(wishes, collected);
  const waterMSPerCm = collected.wish(wishes, 'readingOfWater', { scale });
  const pen = waterMSPerCm === undefined ? {} : { waterMSPerCm };
  const recipe = await dosedRecipe(read && collected.take(read), open, collected, pen);
  const judged = open.feeds.length === 1;
  const [request] = judged ? feedRequests(open, collected) : [unjudged(open)];
  const warnings = collected.settle();
  const shelf = [...new Set(recipe!.lines.map((line) => line.product))];
  const asked = { ...request!, ...warmth, shelf };
  const by = { shelf: open.shelf.products, kit: open.kit, known: productsKnown(open.catalog) };
  const result = judged ? await assessHabit(recipe!, asked, by) : await assess(recipe!, asked, false);
  return { about: 'recipe', met: result.status !== 'outside', result, pen: open.pen, warnings };
}

async function adviceRead(
  words: string,
  open: OpenBench,
  wishes: Wishes,
  collected: Collected,
): Promise<{ about: 'advice'; pen: PenScale | null } & Answer<AdviceResult>> {
  warmthOf(wishes, collected);
  const advice = collected.take(parseAdvice(words, { field: 'advice' }));
  return { about: 'advice', pen: open.pen, ...(await adviceHeld(advice, open, collected)) };
}
