import { formatNumber, type Litres, litres, litresOf, type MilliSiemensPerCm, parseAmount } from '../units/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import { type Checked, checked, type Problem, problem, type Where } from '../problem.js';
import type { Spoonful } from './findings.js';
import { scaleInWords } from './pen-words.js';
import { isToldByPen, readLines } from './recipe-lines.js';
import { partsOfRecipe } from './recipe-parts.js';

/** Words of a recipe about one product. */
interface LineWords<P> {
  product: P;
  /** The grower's own words, and the amount alone: `1/4 tsp` of `1/4 tsp of base`. */
  words: string;
  amountWords: string;
}

/** One part of a recipe: grams of a powder or millilitres of a liquid, as the product's own composition counts. */
export interface RecipeLine<P = ClosedProduct> extends LineWords<P> {
  amount: number;
  /** True where it is measured by a spoon or a cup. */
  bySpoon: boolean;
  /** How a spoonful was turned into grams; null where that was not needed. */
  spoonful: Spoonful | null;
  /** How a reading was turned into the amount; null where the amount itself was told. */
  byPen: DoseByPen | null;
}

/** A part of which the pen tells how much: what it is stands only once the ions of all that is in the can before it are known. */
export interface PenLine<P = ClosedProduct> extends LineWords<P> {
  amount: null;
  told: ToldByPen;
}

/** What the pen is to show: so much more than before, or in all. */
export interface ToldByPen {
  by: 'more' | 'until';
  mSPerCm: MilliSiemensPerCm;
  /** ppm as told and the scale they are on, ppm per mS/cm; null where a conductivity was told. */
  ppm: number | null;
  scale: number | null;
}

/** An amount that a reading came to. */
export interface DoseByPen {
  told: ToldByPen;
  /** g or mL for the whole volume, between which it lies by what labels leave open and the error of the conductivity model. */
  low: number;
  high: number;
  /** What the pen shows before and after it, mS/cm at 25 °C. */
  before: MilliSiemensPerCm;
  after: MilliSiemensPerCm;
  /** Standard deviation of the amount by the pen alone, g or mL. */
  sd: number;
}

/** A recipe read from words, for a volume in litres. Lines stand in the order told. */
export interface Recipe<P = ClosedProduct> {
  text: string;
  lines: RecipeLine<P>[];
  volumeLitres: Litres;
}

/** A recipe as written: what the pen tells is not worked out yet (`dosedByPen` does). */
export type WrittenRecipe<P = Product> = Omit<Recipe<P>, 'lines'> & { lines: (RecipeLine<P> | PenLine<P>)[] };

/** What words of a recipe are read by. */
export interface ReadRecipeBy {
  kit?: Partial<Kit>;
  /** ppm per mS/cm of the pen; null or absent where it shows EC or nobody knows. */
  scale?: number | null;
  /** Ids of the products that stand on the grower's own shelf, which are meant first where a name is not told in full. */
  onShelf?: ReadonlySet<string>;
}

/** g or mL per litre; a strong stock solution stays below it. */
const MOST_PER_LITRE = 1000;

/**
 * Reads `1/4 tsp cal-part + 1.2 g base + 3 mL kelp in 1 US gal`, or as the pen tells it: `30 ppm kelp, then base until it shows 160 in 3 L`
 * (ppm on the scale of the pen; the whole water is in the can from the start). Products are named by id, name or a part of it; spoonfuls of
 * a powder need its bulk density, grams of a liquid its density, drops the kit's dropper, ppm the scale. Every problem at once.
 * @param products whose labels may still be open: only those that a recipe names are to be closed
 */
export function parseRecipe<P extends Product>(
  written: string,
  products: readonly P[],
  by: ReadRecipeBy = {},
  where: Where = {},
): Checked<WrittenRecipe<P>> {
  const problems: Problem[] = [];
  const { text, scale } = scaleInWords(written);
  const { parts, volume } = partsOfRecipe(text, products);
  if (volume === null) {
    return {
      ok: false,
      problems: [
        problem(
          'recipe',
          where,
          `"${written}"`,
          'parts joined by + and a volume after "in"',
          isToldByPen(parts, products)
            ? `Write how much water it is in: ${written.trim()} in 4 L`
            : 'Write for example: 1/4 tsp cal-part + 1.2 g base in 4 L',
        ),
      ],
    };
  }
  const volumeLitres = volumeOf(volume, where, problems);
  const lines = readLines(parts, products, { ...by, scale: scale ?? by.scale ?? null }, where, problems);
  for (const { amount, words } of lines) {
    // a salt shaker emptied into a can: beyond this it is a slip of the pen, not a feed
    if (amount !== null && amount / volumeLitres > MOST_PER_LITRE) {
      problems.push(
        problem(
          'recipe-amount',
          where,
          `"${words}" in ${formatNumber(volumeLitres)} L`,
          `at most ${MOST_PER_LITRE} g or mL in a litre`,
          'Check the number and its unit.',
        ),
      );
    }
  }
  if (lines.length === 0 && problems.length === 0) {
    problems.push(
      problem('recipe', where, `"${written}"`, 'at least one product', 'Write for example: 1.2 g base in 4 L'),
    );
  }
  return checked({ text: written.trim(), lines, volumeLitres }, problems);
}

function volumeOf(text: string, where: Where, problems: Problem[]): Litres {
  const read = parseAmount(text.replace(/\s+of(?:\s+[a-z]+)?\s+water\s*$/i, '').trim(), { where });
  problems.push(...(read.ok ? read.warnings : read.problems));
  if (!read.ok) return litres(1);
  if (read.value.kind === 'volume' && read.value.millilitres > 0) return litresOf(read.value.millilitres);
  problems.push(
    problem(
      'recipe-volume',
      where,
      `"${text.trim()}"`,
      'a volume of water above zero',
      'Write for example 4 L or 1 US gal after "in".',
    ),
  );
  return litres(1);
}
