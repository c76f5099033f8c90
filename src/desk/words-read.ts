import { atDoor } from '../door.js';
import { isAdvice, parseAdvice } from '../advice/parse.js';
import { withGallon } from '../advice/named-gallon.js';
import { penWordsOf } from '../advice/pen-words.js';
import { readRecipe } from '../advice/read-recipe.js';
import { isToldByPen } from '../advice/recipe-lines.js';
import { partsOfRecipe } from '../advice/recipe-parts.js';
import type { WrittenRecipe } from '../advice/recipe.js';
import { hasSeveralParts } from '../advice/spoken/read-spoken.js';
import { sharesAsked } from '../advice/spoken/shares.js';
import { translate } from '../advice/translate.js';
import type { AdviceReading } from '../advice/types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import { type Checked, type Problem, problem, warning } from '../problem.js';
import type { BenchFiles } from './bench-files.js';
import type { Collected } from './collected.js';
import { collecting } from './collecting.js';
import { recipeReadBy } from './dosed-recipe.js';
import { type OpenBench, opened } from './opened.js';
import { scaleOf } from './options/pen.js';
import { ownOfGrade } from './own-of-grade.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

/** Words that a bench was asked about, read as a recipe as far as they go. */
export interface WordsRead {
  read: Checked<WrittenRecipe<Product>> | undefined;
  open: OpenBench;
  collected: Collected;
  words: string | undefined;
  among: Product[];
  scale: number | null;
}

export async function wordsRead(files: BenchFiles, wishes: Wishes, catalog: Catalog): Promise<WordsRead> {
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
        atDoor({ typed: `Name one with --feed: ${names}.`, page: `Choose one: ${names}.` }),
      ),
    );
  }
  if (wishes.recipe === undefined)
    collected.add(
      problem('no-recipe', {}, 'no recipe', 'a recipe in quotes', 'For example "1.2 g base + 3 mL kelp in 4 L".'),
    );
  const said = wishes.scale === undefined ? scaleOf(open.bench?.pen) : collected.wish(wishes, 'scale');
  const scale = said ?? null;
  const { among, ...by } = recipeReadBy(open, catalog, scale);
  const words = wishes.recipe === undefined ? undefined : withGallon(wishes.recipe, by.gallon);
  // a scale that was refused is no missing one
  const read = words === undefined || said === undefined ? undefined : readRecipe(words, among, by, RECIPE);
  return { open, collected, read, words, among, scale };
}

const RECIPE = { field: 'recipe' };

/** Whether the words are advice and no recipe. */
export const areAdvice = ({ words, read, among }: WordsRead): boolean =>
  words !== undefined &&
  !read?.ok &&
  isAdvice(words, among) &&
  !isByPen(words, among) &&
  !hasSeveralParts(words, among) &&
  sharesAsked(words, among) === null;

/** Whether words tell by the pen how much of a product goes in; of one that is misspelt where they cannot be advice either. */
function isByPen(words: string, among: readonly Product[]): boolean {
  const { parts, volume } = partsOfRecipe(words, among);
  return (
    isToldByPen(parts, among) ||
    (volume !== null && parts.some((part) => penWordsOf(part)?.element === false) && !parseAdvice(words).ok)
  );
}

/** What words were read as, before anything is mixed by them. */
export type Meant =
  | { kind: 'recipe'; recipe: WrittenRecipe<Product> }
  | { kind: 'advice'; readings: AdviceReading[]; atMost: boolean }
  | { kind: 'asked'; problems: readonly Problem[] };

/** What the words of `recipe` were read as: a recipe, advice, or a question back. */
export async function wordsMeant(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Promise<Meant> {
  const asked = await wordsRead(files, wishes, catalog);
  const { read, words } = asked;
  if (read?.ok) return { kind: 'recipe', recipe: read.value };
  if (words === undefined || !areAdvice(asked)) return { kind: 'asked', problems: read?.problems ?? [] };
  const advice = parseAdvice(words);
  if (!advice.ok) return { kind: 'asked', problems: advice.problems };
  const told = translate(advice.value, {}, ownOfGrade(advice.value, asked.open));
  if (!told.ok) return { kind: 'asked', problems: told.problems };
  return { kind: 'advice', readings: told.value.readings, atMost: advice.value.around.atMost };
}
