import { assess } from '../advice/assess.js';
import { isAdvice, parseAdvice } from '../advice/parse.js';
import { parseRecipe, type WrittenRecipe } from '../advice/recipe.js';
import { penWordsOf } from '../advice/pen-words.js';
import { isToldByPen } from '../advice/recipe-lines.js';
import { partsOfRecipe } from '../advice/recipe-parts.js';
import type { AdviceResult } from '../advice/types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { AssessResult } from '../advice/types.js';
import type { Product } from '../label/product.js';
import { type Checked, problem, warning } from '../problem.js';
import type { PenScale } from '../report/mix.js';
import { adviceHeld } from './advice.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { dosedRecipe, recipeReadBy } from './dosed-recipe.js';
import { feedRequests, unjudged, warmthOf } from './feed-requests.js';
import { type OpenBench, opened } from './opened.js';
import { scaleOf } from './options/pen.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

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
  const { among, ...asked } = await wordsRead(files, wishes, catalog);
  const { open, collected, read, words } = asked;
  return words !== undefined && !read?.ok && isAdvice(words, among) && !isByPen(words, among)
    ? adviceRead(words, open, wishes, collected)
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

async function wordsRead(files: BenchFiles, wishes: Wishes, catalog: Catalog) {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected, { feed: false, shelf: false });
  if (open.feeds.length > 1) {
    const names = open.feeds.map((spec) => spec.name).join(', ');
    collected.add(
      warning(
        'not-judged',
        { field: '--feed' },
        `${open.feeds.length} feeds`,
        'one feed to judge the recipe by',
        `Name one with --feed: ${names}.`,
      ),
    );
  }
  const words = wishes.recipe;
  if (words === undefined)
    collected.add(
      problem('no-recipe', {}, 'no recipe', 'a recipe in quotes', 'For example "1.2 g base + 3 mL kelp in 4 L".'),
    );
  const said = wishes.scale === undefined ? scaleOf(open.bench?.pen) : collected.wish(wishes, 'scale');
  const scale = said ?? null;
  const { among, ...by } = recipeReadBy(open, catalog, scale);
  // a scale that was refused is no missing one
  const read = words === undefined || said === undefined ? undefined : parseRecipe(words, among, by, RECIPE);
  return { open, collected, read, words, among, scale };
}

const RECIPE = { field: 'recipe' };

/** Whether words tell by the pen how much of a product goes in; of one that is misspelt where they cannot be advice either. */
function isByPen(words: string, among: readonly Product[]): boolean {
  const { parts, volume } = partsOfRecipe(words, among);
  return (
    isToldByPen(parts, among) ||
    (volume !== null && parts.some((part) => penWordsOf(part)?.element === false) && !parseAdvice(words).ok)
  );
}

interface WordsRead {
  read: Checked<WrittenRecipe<Product>> | undefined;
  open: OpenBench;
  collected: Collected;
  scale: number | null;
}

async function recipeRead(
  { read, open, collected, scale }: WordsRead,
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
  const result = await assess(recipe!, { ...request!, ...warmth, shelf }, judged);
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
