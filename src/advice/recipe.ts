import { type Litres, litres, litresOf } from '../units/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import type { Spoonful } from './findings.js';
import { type Checked, checked, nearest, type Problem, problem, type Where } from '../problem.js';
import { type Amount, formatNumber, parseAmount } from '../units/index.js';

/** One part of a recipe: grams of a powder or millilitres of a liquid, as the product's own composition counts. */
export interface RecipeLine<P = ClosedProduct> {
  product: P;
  amount: number;
  /** The grower's own words, and the amount alone: `1/4 tsp` of `1/4 tsp of base`. */
  words: string;
  amountWords: string;
  /** True where it is measured by a spoon or a cup. */
  bySpoon: boolean;
  /** How a spoonful was turned into grams; null where that was not needed. */
  spoonful: Spoonful | null;
}

/** A recipe read from words, for a volume in litres. */
export interface Recipe<P = ClosedProduct> {
  text: string;
  lines: RecipeLine<P>[];
  volumeLitres: Litres;
}

/** g or mL per litre; a strong stock solution stays below it. */
const MOST_PER_LITRE = 1000;

/**
 * Reads `1/4 tsp cal-part + 1.2 g base + 3 mL kelp in 1 US gal`. Products are named by id or name; spoonfuls of a powder need its
 * bulk density, grams of a liquid its density, drops the kit's dropper. Every problem at once.
 * @param products whose labels may still be open: only those that a recipe names are to be closed
 */
export function parseRecipe<P extends Product>(
  text: string,
  products: readonly P[],
  kit: Partial<Kit> = {},
  where: Where = {},
): Checked<Recipe<P>> {
  const problems: Problem[] = [];
  const parts = /^(.*?)\s+(?:in|into|per)\s+([^+]+)$/is.exec(text.trim());
  if (!parts) {
    return {
      ok: false,
      problems: [
        problem(
          'recipe',
          where,
          `"${text}"`,
          'parts joined by + and a volume after "in"',
          'Write for example: 1/4 tsp cal-part + 1.2 g base in 4 L',
        ),
      ],
    };
  }
  const volumeLitres = volumeOf(parts[2]!, where, problems);
  const lines = parts[1]!.split(/\s*(?:\+|;)\s*/).flatMap((part) => {
    if (part !== '') return lineOf(part, products, kit, where, problems);
    problems.push(
      problem(
        'recipe',
        where,
        'nothing beside a +',
        'an amount and a product on each side of it',
        'Write for example: 1.2 g base + 3 mL kelp in 4 L',
      ),
    );
    return [];
  });
  for (const line of lines) {
    // a salt shaker emptied into a can: beyond this it is a slip of the pen, not a feed
    if (line.amount / volumeLitres > MOST_PER_LITRE) {
      problems.push(
        problem(
          'recipe-amount',
          where,
          `"${line.words}" in ${formatNumber(volumeLitres)} L`,
          `at most ${MOST_PER_LITRE} g or mL in a litre`,
          'Check the number and its unit.',
        ),
      );
    }
  }
  if (lines.length === 0 && problems.length === 0) {
    problems.push(
      problem('recipe', where, `"${text}"`, 'at least one product', 'Write for example: 1.2 g base in 4 L'),
    );
  }
  return checked({ text: text.trim(), lines, volumeLitres }, problems);
}

function volumeOf(text: string, where: Where, problems: Problem[]): Litres {
  const read = parseAmount(text.trim(), { where });
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

/** The longest tail of the part that names a product leaves the amount in front of it. */
function lineOf<P extends Product>(
  part: string,
  products: readonly P[],
  kit: Partial<Kit>,
  where: Where,
  problems: Problem[],
): RecipeLine<P>[] {
  const words = part.trim().split(/\s+/);
  for (let start = 1; start < words.length; start += 1) {
    const name = words
      .slice(start)
      .join(' ')
      .replace(/^of\s+/i, '');
    const found = named(name, products);
    if (found.length === 0) continue;
    if (found.length > 1) {
      problems.push(
        problem(
          'recipe-product',
          where,
          `"${name}"`,
          'one product',
          `It may be ${found.map((p) => p.id).join(' or ')}: write the id.`,
        ),
      );
      return [];
    }
    return amountOf(words.slice(0, start).join(' '), found[0]!, part, kit, where, problems);
  }
  const unitWords = /^[\d\s./,½¼¾⅓⅔⅛]*\s*(?:level\s+)?(?:US\s+|metric\s+)?\S+\s+/i;
  const guessed = part.replace(unitWords, '').replace(/^of\s+/i, '');
  const guesses = nearest(
    guessed,
    products.map((p) => p.id),
  );
  problems.push(
    problem(
      'recipe-product',
      where,
      `"${part.trim()}"`,
      'an amount and a product of the shelf',
      guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Known: ${listed(products)}.`,
    ),
  );
  return [];
}

function named<P extends Product>(name: string, products: readonly P[]): P[] {
  const wanted = tidy(name);
  const exact = products.filter((p) => p.id === name || tidy(p.id) === wanted);
  if (exact.length > 0) return exact.slice(0, 1);
  return products.filter((p) => tidy(p.name) === wanted);
}

const tidy = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

function listed(products: readonly Product[]): string {
  const ids = products.slice(0, 12).map((p) => p.id);
  return ids.join(', ') + (products.length > 12 ? ` and ${products.length - 12} more` : '');
}

function amountOf<P extends Product>(
  text: string,
  product: P,
  part: string,
  kit: Partial<Kit>,
  where: Where,
  problems: Problem[],
): RecipeLine<P>[] {
  const read = parseAmount(text, {
    where,
    ...(kit.dropsPerMillilitre ? { dropsPerMillilitre: kit.dropsPerMillilitre } : {}),
  });
  problems.push(...(read.ok ? read.warnings : read.problems));
  if (!read.ok) return [];
  const converted = inProductUnit(read.value, product);
  if ('refused' in converted) {
    problems.push(problem('recipe-amount', where, `"${part.trim()}"`, converted.refused, converted.fix));
    return [];
  }
  return [{ product, words: part.trim(), amountWords: text, bySpoon: SPOONS.test(text), ...converted }];
}

const SPOONS = /tsp|tbsp|spoon|cup/i;

/** Grams of a powder, millilitres of a liquid. */
function inProductUnit(
  amount: Amount,
  product: Product,
): { amount: number; spoonful: Spoonful | null } | { refused: string; fix: string } {
  const wanted = product.composition.per;
  if (amount.kind === 'mass') {
    if (wanted === 'g') return { amount: amount.grams, spoonful: null };
    return product.density
      ? { amount: amount.grams / product.density, spoonful: null }
      : { refused: `millilitres of ${product.id}`, fix: 'Give mL, or the density of the liquid in the shelf.' };
  }
  if (amount.kind === 'volume') {
    if (wanted === 'mL') return { amount: amount.millilitres, spoonful: null };
    return product.bulkDensity
      ? spooned(product, product.bulkDensity, amount.millilitres)
      : {
          refused: `grams of ${product.id}, whose bulk density is unknown`,
          fix: 'Weigh ten level spoonfuls and give grams, or put bulk_density on the shelf.',
        };
  }
  return { refused: 'a mass or a volume', fix: 'Write for example 1.2 g, 3 mL or 1/4 tsp before the name.' };
}

function spooned({ id, bulkDensityOff }: Product, bulkDensity: number, millilitres: number) {
  const grams = millilitres * bulkDensity;
  return { amount: grams, spoonful: { id, millilitres, grams, bulkDensity, off: bulkDensityOff ?? null } };
}
