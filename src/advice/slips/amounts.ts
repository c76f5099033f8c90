import { atDoor } from '../../door.js';
import { formatNumber, parseAmount } from '../../units/index.js';
import { MEASURE, QUALITY } from '../spoken/spelled.js';
import type { AskedBack, BatchSpokenOf, ItemSpokenOf, ReadClause, Way } from './types.js';

export const N = String.raw`(?:\d+\s+\d+\/\d+|\d+\/\d+|\d+(?:[.,]\d+)?|[.,]\d+)`;
/** An amount of a product as it is said, once numbers are figures. */
export const AMOUNT = String.raw`(?:about\s+|around\s+|roughly\s+|approximately\s+)?(?:(?:${QUALITY}\s+)*(?:${N})\s*(?:(?:${QUALITY})\s+)*(?:${MEASURE})|an?\s+(?:${QUALITY}\s+)*(?:${MEASURE})|(?:${QUALITY}\s+)*(?:(?:tea|table)?spoon|gramm?e?|drop|scoop|pinch))(?![\p{L}\d])`;

/** Amounts that one wording may mean, g or mL; several of a heap. */
type Told = { amounts: readonly number[] } | { ask: AskedBack };

/** A heaped spoon in level ones: heaps differ by half (common practice, no source). */
export const HEAPED = [1.25, 1.5, 1.75];

/** So much of an item, in the unit its label counts by. */
export function amountOf(words: string, { product }: ItemSpokenOf, batch: BatchSpokenOf): Told {
  const plain = words.replace(/^(?:about|around|roughly|approximately)\s+/, '').replace(/^an?\s+/, '1 ');
  const heaped = /\b(?:heaped|heaping)\b/.test(plain);
  const level = plain
    .replace(/\b(?:heaped|heaping|level)\b\s*/g, '')
    .replace(/^(?=[a-z])/, '1 ')
    .trim();
  const { dropsPerMillilitre } = batch;
  const read = parseAmount(level, dropsPerMillilitre === undefined ? {} : { dropsPerMillilitre });
  if (!read.ok) {
    const { found, expected, fix } = read.problems[0]!;
    return { ask: { found, expected, fix } };
  }
  const amount = inUnitOf(product, read.value);
  if (amount === null)
    return {
      ask: {
        found: `"${words}" of ${product.id}`,
        expected: product.form === 'powder' ? `grams of ${product.id}` : `millilitres of ${product.id}`,
        fix:
          product.form === 'powder'
            ? atDoor({
                typed: 'Write grams, or put its bulk_density on the shelf (ten level spoons weighed: meter --weigh).',
                page: 'Write grams, or weigh ten level spoons of it: Shelf, beside the jar.',
              })
            : 'Write millilitres, or put its density on the shelf.',
      },
    };
  return { amounts: (heaped ? HEAPED : [1]).map((times) => times * amount) };
}

type Parsed = Extract<ReturnType<typeof parseAmount>, { ok: true }>['value'];

function inUnitOf({ composition, bulkDensity, density }: ItemSpokenOf['product'], amount: Parsed): number | null {
  const [mass, volume] = [
    amount.kind === 'mass' ? amount.grams : null,
    amount.kind === 'volume' ? amount.millilitres : null,
  ];
  if (composition.per === 'g') return mass ?? (volume !== null && bulkDensity ? volume * bulkDensity : null);
  return volume ?? (mass !== null && density ? mass / density : null);
}

/** An item of which so much went in, in place of what it was meant to be where that is told. */
export function amountsOfItem(
  place: number,
  words: string,
  insteadOf: string | undefined,
  batch: BatchSpokenOf,
): Exclude<ReadClause, null> {
  const item = batch.items[place]!;
  const told = amountOf(words, item, batch);
  if ('ask' in told) return told;
  if (insteadOf !== undefined) {
    const meant = amountOf(withUnitOf(words, insteadOf), item, batch);
    if ('ask' in meant) return meant;
    if (!meant.amounts.some((x) => Math.abs(x / item.planned - 1) <= SAME)) return { ask: otherPlan(item, insteadOf) };
  }
  if (told.amounts.length > 1 && told.amounts[0]! < item.planned * (1 - SAME))
    return { ask: oneOfSeveral(item, words) };
  return { ways: waysOf(told.amounts.map((x) => [place, x / item.planned])) };
}

/** `2 g instead of 1.2`: the unit is told once. */
export const withUnitOf = (words: string, bare: string): string =>
  new RegExp(`^${N}$`).test(bare) ? words.replace(new RegExp(`^(?:.*?)${N}`), bare) : bare;

/** Spoons differ from what is planned by their steps; five in a hundred is no other plan. */
export const SAME = 0.05;

export const waysOf = (factors: readonly (readonly [item: number, factor: number])[]): Way[] =>
  factors.map(([item, factor]) => ({ share: 1 / factors.length, slips: [{ kind: 'item', item, factor }] }));

const otherPlan = ({ product, planned }: ItemSpokenOf, insteadOf: string): AskedBack => ({
  found: `"instead of ${insteadOf}", though this batch has planned ${plannedText(planned, product)}`,
  expected: 'what was to go in as this batch has it',
  fix: atDoor({
    typed: `Write how much of ${product.id} went in, without "instead"; or name the sheet that it was mixed by (--sheet, --mix, --recipe).`,
    page: `Write how much of ${product.id} went in, without "instead".`,
  }),
});

const oneOfSeveral = ({ product, planned }: ItemSpokenOf, words: string): AskedBack => ({
  found: `"${words}", less than the ${plannedText(planned, product)} of this batch`,
  expected: 'all of it that went in',
  fix: 'One spoon of several, or all there was? Write how many went in, and which were heaped, in grams or level spoons.',
});

const plannedText = (planned: number, { id, composition }: ItemSpokenOf['product']): string =>
  `${formatNumber(planned, 3)} ${composition.per} of ${id}`;

/** So much more or less of an item than planned. */
export function moreOfItem(
  place: number,
  words: string,
  sign: 1 | -1,
  batch: BatchSpokenOf,
): Exclude<ReadClause, null> {
  const item = batch.items[place]!;
  const told = amountOf(words, item, batch);
  if ('ask' in told) return told;
  const factors = told.amounts.map((x): [number, number] => [place, 1 + (sign * x) / item.planned]);
  if (factors.some(([, factor]) => factor < -SAME))
    return {
      ask: {
        found: `"${words}" less, though only ${plannedText(item.planned, item.product)} was planned`,
        expected: 'no more than was planned',
        fix: `Write how much of ${item.product.id} went in.`,
      },
    };
  return { ways: waysOf(factors.map(([at, factor]) => [at, Math.max(0, factor)])) };
}

/** `1 tsp instead of 1/2 tsp`, of no item told: the one of which so much is planned. */
export function itemPlanned(words: string, insteadOf: string, batch: BatchSpokenOf): number | { ask: AskedBack } {
  const fitting = batch.items.flatMap((item, i) => {
    const meant = amountOf(withUnitOf(words, insteadOf), item, batch);
    return 'amounts' in meant && meant.amounts.some((x) => Math.abs(x / item.planned - 1) <= SAME) ? [i] : [];
  });
  if (fitting.length === 1) return fitting[0]!;
  const ids = (fitting.length > 0 ? fitting : batch.items.map((_, i) => i)).map((i) => batch.items[i]!.product.id);
  return {
    ask: { found: `"${words}"`, expected: 'of which item', fix: `Write it behind the amount: ${ids.join(' or ')}.` },
  };
}
