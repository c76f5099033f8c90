import type { Product } from '../label/product.js';

/** A recipe taken apart: what goes in, in the order told, and the words for the volume. */
export interface RecipeParts {
  /** Empty where nothing stood beside a plus or a semicolon. */
  parts: string[];
  /** null where none is told. */
  volume: string | null;
}

/**
 * `a + b, then c in 3 L`, or `in 3 L: a, then b`, as its parts. Plus and semicolon always part; a comma, a new line, "and", "then" and the
 * like do where a figure stands on both sides of them, and nothing does within the whole name of a product.
 */
export function partsOfRecipe(text: string, products: readonly Product[]): RecipeParts {
  const { masked, unmasked } = masking(text.trim(), products);
  const before = /^(?:in|into)\s+([^+:]+):\s*(.+)$/is.exec(masked);
  const behind = /^(.*)\s+(?:in|into|per)\s+([^+]+)$/is.exec(masked);
  const [told, volume] = before ? [before[2]!, before[1]!] : behind ? [behind[1]!, behind[2]!] : [masked, null];
  return {
    parts: told
      .split(/\s*(?:\+|;)\s*/)
      .flatMap(parted)
      .map(unmasked),
    volume: volume === null ? null : unmasked(volume),
  };
}

const WEAK =
  /\s*(?:(?<!\d),|,(?!\d))\s*(?:and\s+)?(?:(?:then|next|finally|lastly|plus)\s+)?|\s+(?:and\s+then|then|and|plus|followed\s+by)\s+|\s*\n\s*/gi;
/** What an amount or a reading can't be told without; `a pinch` is one. */
const FIGURE = /[\d¼½¾⅐-⅞]|^\s*(?:an?|one)\s/i;

function parted(text: string): string[] {
  const parts: string[] = [];
  let [start, end] = [0, 0];
  for (const { 0: between, index } of text.matchAll(WEAK)) {
    const next = text.slice(index + between.length).split(WEAK)[0]!;
    if (!FIGURE.test(text.slice(start, index)) || !FIGURE.test(next)) continue;
    parts.push(text.slice(start, index));
    [start, end] = [index + between.length, index];
  }
  return [...parts, text.slice(start)].map((part) => part.trim()).filter((part) => part !== '' || end === 0);
}

/** The text with each whole name that holds a word or a mark which parts recipes as one character, and the way back. */
export function masking(
  text: string,
  products: readonly Product[],
): { masked: string; unmasked: (text: string) => string } {
  const names = [...new Set(products.flatMap(({ id, name }) => [id, name]))]
    .filter((name) => PARTING.test(name))
    .sort((a, b) => b.length - a.length);
  const seen: string[] = [];
  let masked = text;
  for (const name of names) {
    const escaped = name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
    masked = masked.replace(new RegExp(`(?<![\\p{L}\\d])${escaped}(?![\\p{L}\\d])`, 'giu'), (written) => {
      seen.push(written);
      return String.fromCharCode(PRIVATE + seen.length - 1);
    });
  }
  return {
    masked,
    unmasked: (part) => part.replace(/[\uE000-\uF8FF]/g, (mark) => seen[mark.charCodeAt(0) - PRIVATE] ?? mark),
  };
}

/** Characters that no text uses. */
const PRIVATE = 0xe000;
const PARTING = /[+;,:]|\s(?:and|then|plus|in|into|per|next|finally)\s/i;
