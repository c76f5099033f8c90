import type { Product } from '../label/product.js';
import { type Problem, problem, type Where } from '../problem.js';
import { type Amount, parseAmount } from '../units/index.js';
import type { Spoonful } from './findings.js';
import { isElement, productNamed } from './named-product.js';
import { readPenLine } from './pen-line.js';
import { penWordsOf } from './pen-words.js';
import type { PenLine, ReadRecipeBy, RecipeLine } from './recipe-types.js';
import { productOf, type Reading, unknownProduct } from './recipe-product.js';

/** The parts of a recipe as lines: amounts, and what the pen is to show. Problems are added to those told already. */
export function readLines<P extends Product>(
  parts: readonly string[],
  products: readonly P[],
  by: ReadRecipeBy,
  where: Where,
  problems: Problem[],
): (RecipeLine<P> | PenLine<P>)[] {
  const reading: Reading<P> = { ...by, products, where, problems };
  const lines: (RecipeLine<P> | PenLine<P>)[] = [];
  for (const written of parts) {
    const part = written.trim();
    if (part === '') {
      problems.push(
        problem(
          'recipe',
          where,
          'nothing beside a +',
          'an amount and a product on each side of it',
          'Write for example: 1.2 g base + 3 mL kelp in 4 L',
        ),
      );
      continue;
    }
    const pen = penWordsOf(part);
    const isPen = pen !== null && !(pen.element && productNamed(pen.name, products).found.length === 0);
    lines.push(...(isPen ? readPenLine(pen, part, lines.at(-1)?.product, reading) : lineOf(part, reading)));
  }
  return lines;
}

/** True where a recipe tells by the pen how much of a product goes in, whether or not it can be read to the end. */
export const isToldByPen = (parts: readonly string[], products: readonly Product[]): boolean =>
  parts.some((part) => {
    const pen = penWordsOf(part.trim());
    return pen !== null && pen.name !== '' && productNamed(pen.name, products).found.length > 0;
  });

/** The longest tail of the part that names a product leaves the amount in front of it. */
function lineOf<P extends Product>(part: string, reading: Reading<P>): RecipeLine<P>[] {
  const words = amountFirst(part, reading.products).split(/\s+/);
  for (let start = 1; start < words.length; start += 1) {
    const name = words
      .slice(start)
      .join(' ')
      .replace(/^of\s+/i, '');
    if (isElement(name) && productNamed(name, reading.products).found.length === 0) continue;
    const product = productOf(name, reading);
    if (product === null) continue;
    if (product === undefined) return [];
    return amountOf(words.slice(0, start).join(' '), product, part, reading);
  }
  const unitWords = /^[\d\s./,½¼¾⅓⅔⅛]*\s*(?:level\s+)?(?:US\s+|metric\s+)?\S+\s+/i;
  const guessed = part.replace(unitWords, '').replace(/^of\s+/i, '');
  reading.problems.push(unknownProduct(part, guessed, reading));
  return [];
}

/** `calcium-powder: a level 1/4 tsp` and `then a pinch of calcium-powder` as amount and name: one, of which the words tell no number. */
function amountFirst(part: string, products: readonly Product[]): string {
  const plain = part.replace(/^(?:(?:and|then|next|finally|first|add)\s+)*/i, '');
  const [, name = '', rest = ''] = /^([^:=]+?)\s*[:=]\s*(.+)$/.exec(plain) ?? [];
  const turned = rest !== '' && productNamed(name, products).found.length > 0 ? `${rest} ${name}` : plain;
  return turned.replace(/^an?\s+(?=level\s+[\d¼½¾⅓⅔⅛]|[\d¼½¾⅓⅔⅛])/i, '').replace(/^an?\s+/i, '1 ');
}

function amountOf<P extends Product>(
  text: string,
  product: P,
  part: string,
  { kit = {}, where, problems }: Reading<P>,
): RecipeLine<P>[] {
  const read = parseAmount(text, {
    where,
    ...(kit.dropsPerMillilitre ? { dropsPerMillilitre: kit.dropsPerMillilitre } : {}),
  });
  problems.push(...(read.ok ? read.warnings : read.problems));
  if (!read.ok) return [];
  const converted = inProductUnit(read.value, product);
  if ('refused' in converted) {
    problems.push(problem('recipe-amount', where, `"${part}"`, converted.refused, converted.fix));
    return [];
  }
  return [{ product, words: part, amountWords: text, bySpoon: SPOONS.test(text), ...converted, byPen: null }];
}

const SPOONS = /tsp|tbsp|spoon|cup|tad|dash|pinch|smidgen/i;

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
