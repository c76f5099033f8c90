import { NITROGEN_FORMS, NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import type { Amounts } from '../can/mix-amounts.js';
import { productColumn, waterColumn } from '../feed/terms.js';
import type { Formulated } from './formulate.js';

/** Less of a product than changes every element by this part of what is wanted of it: no tool, label or plant could tell it from nothing. */
const DUST = 1e-5;

/** A limit that is missed by less than this part of its size is kept: a tenth of what the certificate grants. */
const KEPT = 1e-7;

/**
 * The same amounts without an engine's rounding: what no tool could measure and no limit needs. Where a limit would be missed without it,
 * it stays.
 */
export function withoutDust(amounts: Amounts, formulated: Formulated): Amounts {
  const dust = amounts.products.flatMap((x, i) => (x > 0 && shareOf(x, i, formulated) < DUST ? [i] : []));
  if (dust.length === 0) return amounts;
  const without = (places: ReadonlySet<number>): Amounts => ({
    ...amounts,
    products: amounts.products.map((x, i) => (places.has(i) ? 0 : x)),
  });
  const all = without(new Set(dust));
  if (asWellKept(amounts, all, formulated)) return all;
  const gone = new Set<number>();
  for (const i of dust) {
    if (asWellKept(amounts, without(new Set([...gone, i])), formulated)) gone.add(i);
  }
  return without(gone);
}

/** The largest part of what is wanted of an element that so much of a product brings; a form of nitrogen counts as nitrogen, and 1 mg/L where nothing is wanted. */
function shareOf(x: number, index: number, { request }: Formulated): number {
  const { content } = request.shelf[index]!.composition;
  const { bands } = request.programme;
  return NUTRIENTS.reduce((most, nutrient) => {
    const isForm = (NITROGEN_FORMS as readonly Nutrient[]).includes(nutrient);
    const band = bands[nutrient] ?? (isForm ? bands.N : undefined);
    const wanted = (band && (band.max ?? band.aim ?? band.min)) || 1;
    return Math.max(most, (x * content[nutrient].high) / wanted);
  }, 0);
}

/** Whether no limit is missed by more than before. */
function asWellKept(before: Amounts, after: Amounts, { limited }: Formulated): boolean {
  return limited.every(({ row }) => {
    const { lower = Number.NEGATIVE_INFINITY, upper = Number.POSITIVE_INFINITY, terms } = row;
    const of = ({ products, waters }: Amounts): { value: number; size: number } => {
      const parts = [
        ...products.map((x, i) => x * (terms[productColumn(i)] ?? 0)),
        ...waters.map((x, i) => x * (terms[waterColumn(i)] ?? 0)),
      ];
      return {
        value: parts.reduce((sum, part) => sum + part, 0),
        size: parts.reduce((sum, part) => sum + Math.abs(part), 0),
      };
    };
    const violation = (value: number): number => Math.max(0, lower - value, value - upper);
    const [was, is] = [of(before), of(after)];
    const size = Math.max(was.size, ...[lower, upper].filter(Number.isFinite).map(Math.abs));
    return violation(is.value) <= Math.max(violation(was.value), KEPT * size);
  });
}
