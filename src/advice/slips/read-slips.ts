import { atDoor } from '../../door.js';
import { type Checked, problem, type Where } from '../../problem.js';
import { formatNumber } from '../../units/index.js';
import { inFigures } from '../spoken/spelled.js';
import { readClause } from './clause.js';
import type { AskedBack, BatchSpokenOf, ReadClause, Slip, ToldSlips, Way } from './types.js';
import { isNoCan } from './water.js';

/**
 * What was done otherwise than planned, in plain words: `1 tsp part-c instead of 1/2 tsp`, `calcium part forgotten`, `no idea whether base
 * went in`, `filled to 5 L`. Every clause is understood to its last word or the whole is refused; what can mean two things is asked back with
 * what it may mean, and two clauses about one thing contradict each other.
 */
export function readSlips(text: string, batch: BatchSpokenOf, where: Where = {}): Checked<ToldSlips> {
  const plain = plainOf(text);
  const read = plain === '' || plain.length > 300 ? null : readWhole(plain, batch);
  if (read !== null && 'ways' in read) {
    const impossible = read.ways.flatMap(({ slips }) => slips).find((slip) => isBeyond(slip, batch));
    if (impossible === undefined)
      return { ok: true, value: { text: text.trim(), ways: read.ways.map(tidied(batch)) }, warnings: [] };
    return refused(beyond(text, impossible), where);
  }
  return refused(read?.ask ?? notUnderstood(text, batch), where);
}

/** Without what is as planned, items in mixing order. */
const tidied =
  (batch: BatchSpokenOf) =>
  ({ share, slips }: Way): Way => ({
    share,
    slips: slips.filter((slip) => !isAsPlanned(slip, batch)).sort((a, b) => placeOf(a) - placeOf(b)),
  });

function isAsPlanned(slip: Slip, batch: BatchSpokenOf): boolean {
  const factor = slip.kind === 'item' ? slip.factor : slip.kind === 'litres' ? slip.litres / batch.litres : 0;
  return Math.abs(factor - 1) <= AS_PLANNED;
}

const placeOf = (slip: Slip): number => (slip.kind === 'item' ? slip.item : Number.MAX_SAFE_INTEGER);
/** What no tool tells from the plan. */
const AS_PLANNED = 0.005;

const refused = ({ found, expected, fix }: AskedBack, where: Where): Checked<ToldSlips> => ({
  ok: false,
  problems: [problem('did', where, found, expected, fix)],
});

/** The whole as one clause, else as two of which each is understood; joints from the left. */
function readWhole(text: string, batch: BatchSpokenOf): ReadClause {
  const whole = readClause(text, batch);
  if (whole !== null && 'ways' in whole) return whole;
  let asked: ReadClause = whole;
  for (const { 0: joint, index } of text.matchAll(JOINT)) {
    const [left, right] = [text.slice(0, index), text.slice(index + joint.length)].map((part) => bare(part));
    const first = readClause(left!, batch);
    if (first === null) continue;
    const rest = readWhole(right!, batch);
    if (rest === null) continue;
    if ('ask' in first || 'ask' in rest) {
      asked ??= 'ask' in first ? first : rest;
      continue;
    }
    return together(first.ways, rest.ways, text, batch);
  }
  return asked;
}

const JOINT =
  /\s*(?:;|\.(?=\s)|\n|,(?:\s*(?:and|but|then|also|plus))?(?=\s)|(?<=\s)(?:and then|and also|and|but|then|also|plus)(?=\s))\s*/g;

/** Both at once, in every way; refused where both speak of one thing. */
function together(first: readonly Way[], second: readonly Way[], text: string, batch: BatchSpokenOf): ReadClause {
  const about = (ways: readonly Way[]): Set<string> => new Set(ways.flatMap(({ slips }) => slips.map(keyOf)));
  const [one, other] = [about(first), about(second)];
  const twice = [...one].find((key) => other.has(key));
  if (twice !== undefined)
    return {
      ask: {
        found: `"${text}", which tells ${nameOf(twice, batch)} twice (${nameOf(twice, batch)} and ${nameOf(twice, batch)})`,
        expected: 'one thing of each',
        fix: 'Write what is in the can now, once for each item.',
      },
    };
  return {
    ways: first.flatMap((a) => second.map((b): Way => ({ share: a.share * b.share, slips: [...a.slips, ...b.slips] }))),
  };
}

const keyOf = (slip: Slip): string =>
  slip.kind === 'item' ? `item:${slip.item}` : slip.kind === 'water' ? 'water' : 'volume';

const nameOf = (key: string, { items }: BatchSpokenOf): string =>
  key.startsWith('item:')
    ? items[Number(key.slice(5))]!.product.id
    : key === 'water'
      ? 'the water'
      : 'how full the can is';

/** More than this many times the plan is no slip of the hand: the tsp for the smallest spoon that is sold, 1/64 tsp (common practice, no source). */
const MOST_TIMES = 64;

const isBeyond = (slip: Slip, batch: BatchSpokenOf): boolean =>
  (slip.kind === 'item' && slip.factor > MOST_TIMES * (1 + AS_PLANNED)) ||
  (slip.kind === 'litres' && isNoCan(slip.litres, batch.litres));

const beyond = (text: string, slip: Slip): AskedBack => ({
  found: `"${text.trim()}", many times the plan`,
  expected: slip.kind === 'litres' ? 'the water of this batch' : `up to ${MOST_TIMES} times what was planned`,
  fix: atDoor({
    typed: 'See whether the unit is right, or say what was mixed with --recipe.',
    page: 'See whether the unit is right.',
  }),
});

function notUnderstood(text: string, { items }: BatchSpokenOf): AskedBack {
  const ids = items.map(({ product }) => product.id);
  const [one = 'part-c', other = one] = ids;
  const { planned, product } = items[1] ?? items[0]!;
  const [twice, once] = [2 * planned, planned].map((x) => `${formatNumber(x, 3)} ${product.composition.per}`);
  return {
    found: `"${text.trim()}"`,
    expected: `what went otherwise than planned, of ${ids.join(', ')} or of the water`,
    fix: `Write for example "${one} forgotten", "no idea whether ${other} went in", "${one} twice", "${twice} ${other} instead of ${once}" or "filled to 5 L"; several with and between.`,
  };
}

/** Small letters, short forms written out, numbers as figures; without what says nothing of the batch. */
function plainOf(text: string): string {
  const small = text
    .normalize('NFKC')
    .replace(/[’‘`´]/g, "'")
    .replace(/[“”"]/g, '')
    .toLowerCase()
    .replace(/[–—]/g, '-')
    .replace(/\bcan't\b|\bcannot\b/g, 'can not')
    .replace(/\bwon't\b/g, 'will not')
    .replace(/n't\b/g, ' not')
    .replace(/\bdidnt\b/g, 'did not')
    .replace(/\bdont\b/g, 'do not')
    .replace(/\bcant\b/g, 'can not')
    .replace(/'ve\b/g, ' have')
    .replace(/\b(i|we|it|that)'d\b/g, '$1 had')
    .replace(/'m\b/g, ' am')
    .replace(/\bit's\b/g, 'it is')
    .replace(/\bthere's\b/g, 'there is')
    .replace(/\s+/g, ' ')
    .trim();
  const spoons = small.replace(
    /\bthe (?=(?:(?:half|quarter|third|eighth|\d+\/\d+) )?(?:tea|table)?(?:spoon|tsp|tbsp)\b)/g,
    'a ',
  );
  const figures = inFigures(spoons).replace(/\ban? (?=\d+\/\d+ ?(?:(?:tea|table)spoon|tsp|tbsp))/g, '');
  return bare(figures.replace(/\bteaspoonfuls?\b/g, 'teaspoon'));
}

const LEAD =
  /^(?:oops|sorry|damn|oh no|oh|hm+|well|so|ok|okay|and|but|unfortunately|accidentally|mistakenly|by mistake|by accident|silly me|it seems(?: that)?|seems(?: that)?)(?:[,:!.]\s*|\s+)/;
const SUBJECT =
  /^(?:i|we|somebody|my wife|my husband|my partner)(?: have| had)?(?: also| then| just| accidentally| mistakenly| totally| completely| simply| clean)* (?!think|guess|believe|suspect|fear|am |not )/;
const TAIL =
  /(?:[\s,]+(?:by mistake|by accident|accidentally|in error|this time|today|sorry|oops|instead))$|\s*[.!,]+$/;

/** A clause without who says it and how sorry he is. */
function bare(text: string): string {
  let clause = text.trim();
  for (let before = ''; before !== clause; ) {
    before = clause;
    clause = clause.replace(LEAD, '').replace(TAIL, '').replace(SUBJECT, '').trim();
  }
  return clause;
}
