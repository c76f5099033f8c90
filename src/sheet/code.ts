import { atDoor } from '../door.js';
import { type Checked, problem, type Where } from '../problem.js';
import { powerOfTen } from '../units/elementary.js';
import { identityOf, roundDigits } from '../units/index.js';
import { readLetters, spelledOut } from './letters.js';

/** A batch as a mixing sheet tells it: what `meter --sheet` and a journal need to know of it, whatever has changed on the bench since. */
export interface CodedBatch {
  feed: string;
  /** Share of the programme's full strength; null where it is more than a code holds: that of the bench then. */
  strength: number | null;
  litres: number;
  /** In mixing order. */
  items: readonly CodedItem[];
  /** How many of the first items go in before the can is filled to the mark. */
  beforeFull: number;
  /** Ids of the waters with their shares, where the bench has several; empty where it has one. */
  waters: readonly { id: string; share: number }[];
}

export interface CodedItem {
  id: string;
  /** g or mL for the batch, as printed. */
  amount: number;
  /** What it is measured with. */
  tool: CodedTool;
}

const TOOLS = ['spoon', 'scale', 'syringe', 'dropper', 'pen'] as const;
export type CodedTool = (typeof TOOLS)[number];

/** A code as read: names are marks still, which `onBench` resolves. */
export interface SheetCode extends Pick<CodedBatch, 'strength' | 'litres' | 'beforeFull'> {
  feedMark: number;
  items: readonly (Omit<CodedItem, 'id'> & { mark: number })[];
  waters: readonly { mark: number; share: number }[];
  /** Of all names together. */
  allMark: number;
}

/** As many values as each part of a code may have. */
const MARKS = { feed: 256, item: 1024, water: 64, all: 32_768 } as const;
const VERSIONS = 8;
const MOST_ITEMS = 31;
const MOST_WATERS = 8;
const SHARES = 1001;
/** Strengths stand in steps of 0.2 %, up to 204 %. */
const STRENGTHS = 1024;
const STRENGTH_STEP = 500;
/** Figures have three digits, four or five where the amount needs them to come back. */
const DIGITS = [3, 4, 5] as const;
const LEAST_EXPONENT = -5;
const EXPONENTS = 12;
const EXPONENTS_HELD = Array.from({ length: EXPONENTS }, (_, i) => i + LEAST_EXPONENT);

/** The code of a batch: groups of four letters and figures, see `letters.ts`. */
export function sheetCode(batch: CodedBatch): string {
  const parts: [value: number, radix: number][] = [];
  const put = (value: number, radix: number): void => void parts.push([value, radix]);
  const amount = (x: number, usual: number): void => {
    const { digits, figure, exponent } = figureOf(x, usual);
    put(DIGITS.indexOf(digits), DIGITS.length);
    put(figure - powerOfTen(digits - 1), 9 * powerOfTen(digits - 1));
    put(exponent - LEAST_EXPONENT, EXPONENTS);
  };
  put(0, VERSIONS);
  put(markOf(batch.feed, MARKS.feed), MARKS.feed);
  put(strengthStep(batch.strength), STRENGTHS);
  amount(batch.litres, 5);
  put(batch.items.length, MOST_ITEMS + 1);
  put(batch.beforeFull, batch.items.length + 1);
  put(batch.waters.length, MOST_WATERS + 1);
  for (const { id, tool, amount: x } of batch.items) {
    put(markOf(id, MARKS.item), MARKS.item);
    put(TOOLS.indexOf(tool), TOOLS.length);
    amount(x, tool === 'spoon' || tool === 'pen' ? 3 : 4);
  }
  for (const { id, share } of batch.waters) {
    put(markOf(id, MARKS.water), MARKS.water);
    put(Math.round(share * (SHARES - 1)), SHARES);
  }
  put(allMark(batch), MARKS.all);
  // the last one outermost, so that the first is read first
  return spelledOut(parts.reduceRight((sum, [value, radix]) => sum * BigInt(radix) + BigInt(value), 0n));
}

/** Whether a batch can be coded: of so many items, waters and litres. */
export const isCodable = ({ items, waters, litres }: Omit<CodedBatch, 'strength'>): boolean =>
  items.length <= MOST_ITEMS &&
  waters.length <= MOST_WATERS &&
  [litres, ...items.map(({ amount }) => amount)].every((x) => x >= 1e-4 && x < 1e6);

/** What a code says, or why it is none. */
export function readSheetCode(text: string, where: Where): Checked<SheetCode> {
  const read = readLetters(text);
  if (!read.ok) {
    const fix = {
      letter: `“${read.found}” is no letter of a code: they are figures, and letters without I, L, O and U.`,
      length: 'Its letters stand in groups of four: see whether one is missing.',
      check: 'A letter is wrong, or two are exchanged: compare it with the sheet, group by group.',
    }[read.why];
    return { ok: false, problems: [problem('sheet-code', where, `"${text.trim()}"`, 'the code of a sheet', fix)] };
  }
  const code = unpacked(read.number);
  if (code !== null) return { ok: true, value: code, warnings: [] };
  const fix = atDoor({
    typed: 'It was made by another version: say what was mixed with --recipe.',
    page: 'It was made by another version.',
  });
  return { ok: false, problems: [problem('sheet-code', where, `"${text.trim()}"`, 'the code of a sheet', fix)] };
}

function unpacked(number: bigint): SheetCode | null {
  let rest = number;
  const get = (radix: number): number => {
    const value = Number(rest % BigInt(radix));
    rest /= BigInt(radix);
    return value;
  };
  const amount = (): number => {
    const digits = DIGITS[get(DIGITS.length)]!;
    const figure = get(9 * powerOfTen(digits - 1)) + powerOfTen(digits - 1);
    // read as it would be written, so that 0.62 is 0.62
    return Number(`${figure}e${get(EXPONENTS) + LEAST_EXPONENT - (digits - 1)}`);
  };
  if (get(VERSIONS) !== 0) return null;
  const feedMark = get(MARKS.feed);
  const step = get(STRENGTHS);
  const litres = amount();
  const count = get(MOST_ITEMS + 1);
  const beforeFull = get(count + 1);
  const waterCount = get(MOST_WATERS + 1);
  const items = Array.from({ length: count }, () => ({
    mark: get(MARKS.item),
    tool: TOOLS[get(TOOLS.length)]!,
    amount: amount(),
  }));
  const waters = Array.from({ length: waterCount }, () => ({
    mark: get(MARKS.water),
    share: get(SHARES) / (SHARES - 1),
  }));
  const all = get(MARKS.all);
  if (rest !== 0n || count === 0) return null;
  const strength = step === 0 ? null : step / STRENGTH_STEP;
  return { feedMark, strength, litres, items, beforeFull, waters, allMark: all };
}

/** Which feed, products and waters of a bench a code means; several of each where their marks are alike and all together do not tell. */
export type OnBench =
  | { kind: 'found'; batch: CodedBatch }
  /** No feed of the bench; a product (by its place in the code) that the shelf does not hold; no water. */
  | { kind: 'no feed' | 'no water' }
  | { kind: 'no product'; items: number[] }
  /** Each name could be one of the bench, yet all together they are not. */
  | { kind: 'other bench' }
  | { kind: 'unclear'; batches: CodedBatch[] };

/** Names a code's feed, products and waters by those of a bench, compared as `identityOf` does. */
export function onBench(
  code: SheetCode,
  known: { feeds: readonly string[]; products: readonly string[]; waters: readonly string[] },
): OnBench {
  const marked = (names: readonly string[], mark: number, of: number): string[] =>
    names.filter((name) => markOf(name, of) === mark);
  const feeds = marked(known.feeds, code.feedMark, MARKS.feed);
  if (feeds.length === 0) return { kind: 'no feed' };
  const items = code.items.map(({ mark }) => marked(known.products, mark, MARKS.item));
  const missing = items.flatMap((ids, i) => (ids.length === 0 ? [i] : []));
  if (missing.length > 0) return { kind: 'no product', items: missing };
  const waters = code.waters.map(({ mark }) => marked(known.waters, mark, MARKS.water));
  if (waters.some((ids) => ids.length === 0)) return { kind: 'no water' };
  const { strength, litres, beforeFull } = code;
  const ways = [feeds, ...items, ...waters].reduce<string[][]>(
    (sofar, names) => sofar.flatMap((way) => names.map((name) => [...way, name])).slice(0, MOST_WAYS),
    [[]],
  );
  const batches = ways
    .map(
      ([feed, ...names]): CodedBatch => ({
        ...{ feed: feed!, strength, litres, beforeFull },
        items: code.items.map(({ amount, tool }, i) => ({ id: names[i]!, amount, tool })),
        waters: code.waters.map(({ share }, i) => ({ id: names[code.items.length + i]!, share })),
      }),
    )
    .filter((batch) => allMark(batch) === code.allMark);
  const [batch, ...others] = batches;
  if (batch === undefined) return { kind: 'other bench' };
  return others.length === 0 ? { kind: 'found', batch } : { kind: 'unclear', batches };
}

/** Ways to read the names of a code that are looked at. */
const MOST_WAYS = 20_000;

const allMark = ({ feed, items, waters }: Pick<CodedBatch, 'feed' | 'items' | 'waters'>): number =>
  markOf([feed, ...items.map(({ id }) => id), ...waters.map(({ id }) => id)].join('\n'), MARKS.all);

/** A name as one of so many marks (FNV-1a with a last mixing, from memory): the same for names that are one. */
function markOf(name: string, marks: number): number {
  let hash = 0x811c9dc5;
  for (const letter of identityOf(name)) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x45d9f3b);
  return ((hash ^ (hash >>> 15)) >>> 0) % marks;
}

function strengthStep(strength: number | null): number {
  const step = strength === null ? 0 : Math.round(strength * STRENGTH_STEP);
  return step < STRENGTHS ? step : 0;
}

/** An amount in as few digits as bring it back; in the usual number of them where none do. */
function figureOf(x: number, usual: number): { digits: (typeof DIGITS)[number]; figure: number; exponent: number } {
  const rounded = (digits: (typeof DIGITS)[number]) => {
    const near = roundDigits(x, digits);
    const exponent = EXPONENTS_HELD.find((e) => near < powerOfTen(e + 1) * (1 - 1e-12))!;
    const figure = Math.round(near * powerOfTen(digits - 1 - exponent));
    return { digits, figure, exponent, near };
  };
  const all = DIGITS.map(rounded);
  return all.find(({ near }) => Math.abs(near / x - 1) < 1e-9) ?? all.find(({ digits }) => digits === usual)!;
}
