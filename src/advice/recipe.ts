import { formatNumber, type Litres, litres, litresOf, parseAmount } from '../units/index.js';
import type { Product } from '../label/product.js';
import { type Checked, checked, type Problem, problem, type Where } from '../problem.js';
import { scaleInWords } from './pen-words.js';
import { isToldByPen, readLines } from './recipe-lines.js';
import { partsOfRecipe } from './recipe-parts.js';
import type { ReadRecipeBy, WrittenRecipe } from './recipe-types.js';

export type * from './recipe-types.js';

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
