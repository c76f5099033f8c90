import type { Product } from '../../label/product.js';
import { type Problem, problem, type Where } from '../../problem.js';
import { formatNumber, parseAmount } from '../../units/index.js';
import { productNamed } from '../named-product.js';
import { masking } from '../recipe-parts.js';
import type { ReadRecipeBy } from '../recipe-types.js';
import { GRADE, NUMBER, SHARE, shareOfWord } from '../words.js';
import { type Portion, portionsOf } from './portions.js';
import { HOW_OFTEN, inFigures } from './spelled.js';
import { tokensOf } from './tokens.js';

/**
 * What is asked back of a product that is told by a share and by no amount alone: `5 mL cal-mag per litre, quarter strength` (already, or of
 * that?), `half strength kelp` (of what?), `0.05 % Epsom salt`, `kelp 1:200`, each with what it comes to. Null where no such product is named, or
 * where a bare grade is, of which other readers know more.
 */
export function sharesAsked<P extends Product>(
  written: string,
  products: readonly P[],
  by: ReadRecipeBy = {},
  where: Where = {},
): Problem[] | null {
  if (written.length > 400 || GRADE.test(written) || /\b(?:injector|stock|concentrate)/i.test(written)) return null;
  const told = toldIn(written.replace(HOW_OFTEN, ' '));
  if (told === null) return null;
  const { masked, unmasked } = masking(told.rest.replace(/[.!?\s,]+$/, ''), products);
  const portions = portionsOf(tokensOf(inFigures(masked)));
  const parts = portions.flatMap((portion) => {
    const { found } = productNamed(unmasked(portion.item), products, by.onShelf);
    return found.length === 1 ? [{ portion, product: found[0]! }] : [];
  });
  if (parts.length === 0 || parts.length < portions.length) return null;
  if (told.kind === 'strength') return parts.map(({ portion, product }) => ofStrength(told, portion, product, where));
  // a share of the water beside an amount, or of two products, is something else
  return parts.length > 1 || parts[0]!.portion.amounts.length > 0 ? null : [asSolution(told, parts[0]!.product, where)];
}

type Told =
  | { kind: 'strength'; words: string; share: number; rest: string }
  | { kind: 'solution'; words: string; perLitre: number; rest: string };

const RATIO =
  /(?<![\d:.,])(?:1|one)\s*(?::|to|in)\s*(?<parts>\d{2,5})(?![\d:.,]|\s*[a-z]*\d|\s*(?:ml|l|lit|gal|us|qt|g)\b)/i;
const PARTED =
  /(?<![\d.,])(?:1|one)\s+part\s+(?:of\s+)?(?<item>.+?)\s+(?:to|in|with|and|per)\s+(?<parts>\d{2,5})\s+(?:parts?\s*)?(?:of\s+)?(?:[a-z]+\s+)?water/i;
const PERCENT = new RegExp(String.raw`(?<percent>${NUMBER})\s*(?:%|per\s?cent)(?:ig)?\s*(?:solution\b)?`, 'i');

function toldIn(text: string): Told | null {
  const cut = (words: string): string => text.replace(words, ' ');
  const share = SHARE.exec(text);
  if (share) {
    const { word, number, percent } = share.groups!;
    const value = word === undefined ? numberOf(number!) / (percent ? 100 : 1) : shareOfWord(word);
    return value > 0 && value <= 4
      ? { kind: 'strength', words: share[0].trim(), share: value, rest: cut(share[0]) }
      : null;
  }
  const parted = PARTED.exec(text);
  if (parted) {
    const { parts, item } = parted.groups!;
    return { kind: 'solution', words: parted[0], perLitre: 1000 / Number(parts), rest: item! };
  }
  const ratio = RATIO.exec(text);
  if (ratio)
    return { kind: 'solution', words: ratio[0], perLitre: 1000 / Number(ratio.groups!.parts), rest: cut(ratio[0]) };
  const percent = PERCENT.exec(text);
  if (!percent) return null;
  return {
    kind: 'solution',
    words: percent[0].trim(),
    perLitre: 10 * numberOf(percent.groups!.percent!),
    rest: cut(percent[0]),
  };
}

/** A number as written, fractions included; NaN where it is none. */
function numberOf(text: string): number {
  const read = parseAmount(`${text} g`);
  return read.ok && read.value.kind === 'mass' ? read.value.grams : Number.NaN;
}

function ofStrength(
  { words, share }: Told & { kind: 'strength' },
  { amounts }: Portion,
  product: Product,
  where: Where,
): Problem {
  const { id, maxRate, composition } = product;
  const [amount] = amounts;
  if (amount !== undefined)
    return problem(
      'recipe-strength',
      where,
      `"${words}" beside "${amount}" of ${id}`,
      'an amount alone',
      `Leave "${words}" out if ${amount} is that already${partOf(amount, share)}.`,
    );
  const full =
    maxRate === undefined
      ? 'Write the amount that its label gives, times that, and the water it is for'
      : `The most on its label is ${formatNumber(maxRate, 3)} ${composition.per}/L; if that is full strength write ${formatNumber(share * maxRate, 3)} ${composition.per}/L of ${id}`;
  return problem('recipe-strength', where, `"${words}" of ${id}`, 'an amount in so much water', `${full}.`);
}

/** `, or write 1.25 mL if 5 mL is full strength`. */
function partOf(amount: string, share: number): string {
  const unit = amount.replace(new RegExp(String.raw`^(?:an?\s+)?(?:${NUMBER})?\s*`, 'i'), '');
  const [all, one] = [sizeOf(amount.replace(/^an?\s+(?=\D)/i, '1 ')), sizeOf(`1 ${unit}`)];
  return all === null || one === null
    ? ''
    : `, or write ${formatNumber((share * all) / one, 3)} ${unit} if ${amount} is full strength`;
}

function sizeOf(amount: string): number | null {
  const read = parseAmount(amount);
  if (!read.ok) return null;
  const { value } = read;
  return value.kind === 'mass' ? value.grams : value.kind === 'volume' ? value.millilitres : null;
}

function asSolution(
  { words, perLitre }: Told & { kind: 'solution' },
  { id, composition }: Product,
  where: Where,
): Problem {
  const amount = `${formatNumber(perLitre, 3)} ${composition.per}/L`;
  return problem(
    'recipe-share',
    where,
    `"${words}" of ${id}`,
    'an amount in so much water',
    `It is ${amount}: write ${amount} of ${id}.`,
  );
}
