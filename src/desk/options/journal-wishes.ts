import { readRecipe } from '../../advice/read-recipe.js';
import type { ReadRecipeBy, RecipeLine } from '../../advice/recipe.js';
import { readCan } from '../../catalog/feed-values.js';
import type { Product } from '../../label/product.js';
import type { Checked, Where } from '../../problem.js';
import { isWithin, MOST, readPlainNumber } from '../../units/index.js';
import { parseDate } from './day.js';
import type { Option } from './option.js';
import { parsePenValue, type Scale } from './pen.js';
import { refused, refusedText, taken } from './refused.js';

/** What amounts of products are read by. */
type Amounts = { among: readonly Product[] } & ReadRecipeBy;

/** Options of the journal: rows of the table of wishes. */
export const JOURNAL_WISHES = {
  on: { value: 'DATE', says: 'the day it was done, as 2026-11-28', usual: 'today', read: parseDate },
  used: {
    value: 'AMOUNT',
    says: 'what really went in of a product, where it is not as the sheet said: "1.5 g sample-base"',
    repeatable: true,
    read: readAmounts,
  },
  bought: {
    value: 'AMOUNT',
    says: 'a pack that came in, or several: "500 g sample-base"',
    repeatable: true,
    read: readAmounts,
  },
  counted: {
    value: 'AMOUNT',
    says: 'how much of a product is there, weighed or measured: "312 g sample-base"; "0 g sample-base" where it is used up',
    repeatable: true,
    read: readAmounts,
  },
  paid: {
    value: 'MONEY',
    says: 'what was paid for what was bought',
    read: (text: string, where: Where) => parseCost(text, where),
  },
  pot: {
    value: 'NAME',
    says: 'a pot by your own name for it; the reading is that of what runs out below',
    read: shortText,
  },
  holds: { value: 'AMOUNT', says: 'what the empty pot holds: "0.5 L"', usual: 'as told last', read: readCan },
  fed: {
    value: 'READING',
    says: 'what the pen shows of what the pot is fed',
    usual: 'the last batch of its feed in the journal',
    unit: 'mS/cm',
    read: (text: string, where: Where, { scale }: { scale: Scale }) => parsePenValue(text, scale, where),
  },
  ph: { value: 'PH', says: 'the pH of the can, as measured', read: parsePh },
  note: { value: 'TEXT', says: 'whatever is to be remembered', read: shortText },
  last: {
    value: 'N',
    says: 'how many entries to show, the newest; or all',
    usual: '20',
    read: parseLast,
    choices: ['all'],
  },
} as const satisfies Record<string, Option>;

/** Amounts of products, as a recipe tells them but for its water; g of powders, mL of liquids. */
function readAmounts(text: string, where: Where, { among, ...by }: Amounts): Checked<RecipeLine<Product>[]> {
  // so much water that no amount which a shelf can hold is too much for a recipe
  const read = readRecipe(`${text.trim()} in 10000 L`, among, by, where);
  if (!read.ok) return read;
  const lines = read.value.lines.filter((line): line is RecipeLine<Product> => line.amount !== null);
  if (
    lines.length === read.value.lines.length &&
    lines.every(({ amount }) => amount === 0 || isWithin('onHand', amount))
  )
    return { ...read, value: lines };
  return refused(
    'journal-amount',
    where,
    `"${text}"`,
    'an amount of a product',
    'Write for example "312 g sample-base".',
  );
}

function parseCost(text: string, where: Where): Checked<number> {
  const read = readPlainNumber(text.replace(/[\p{Sc}]|\b[A-Z]{3}\b/gu, ' ').trim());
  if (read.ok && isWithin('price', read.value)) return taken(read.value, read, where);
  return refusedText(text, read, 'number-option', where, 'money, 0 or more', 'Write for example 12.90.');
}

/** A pH from 0 to 14. */
function parsePh(text: string, where: Where): Checked<number> {
  const read = readPlainNumber(text.replace(/^\s*pH\s*/i, ''));
  if (read.ok && read.value <= 14) return taken(read.value, read, where);
  return refusedText(text, read, 'ph', where, 'a pH from 0 to 14', 'Write for example 6.2.');
}

function shortText(text: string, where: Where): Checked<string> {
  if (text.length <= MOST.cell) return { ok: true, value: text, warnings: [] };
  const fix = 'Write less; a longer story belongs in a file of its own.';
  return refused('text-too-long', where, `${text.length} characters`, `at most ${MOST.cell}`, fix);
}

/** How many entries: a whole number, or all. */
function parseLast(text: string, where: Where): Checked<number> {
  if (/^\s*all\s*$/i.test(text)) return { ok: true, value: Infinity, warnings: [] };
  if (/^\s*[1-9]\d{0,5}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  return refused('last', where, `"${text}"`, 'a whole number, 1 or more, or all', 'Write for example 20.');
}
