import { conductingIons, ionsOfMix } from '../formulation/ec.js';
import { fullEc } from '../formulation/ec-cap.js';
import { planeAt } from '../formulation/ec-row.js';
import { formulate, productColumn, waterColumn } from '../formulation/formulate.js';
import type { Amounts } from '../formulation/mix-amounts.js';
import { ecCap, type FeedRequest } from '../formulation/request.js';
import type { UpperRow } from './search.js';

/** The limits of a feed as they bear on doses for a batch; the waters stay as the blend has them. */
export interface DoseLimits {
  /** Bands and rules, exact. */
  rows: UpperRow[];
  /** The EC cap as a plane that touches the model at the blend: near it to well under a tenth, the model itself has the last word. */
  ecRow: UpperRow | null;
  /** g or mL for the batch of each item that stock and label allow. */
  ceilings: number[];
  /** mS/cm of a choice of doses by the full model. */
  ecOf: (doses: readonly number[]) => number;
  cap: number | null;
}

/** @param items indices into the shelf */
export function doseLimits(
  request: FeedRequest,
  amounts: Amounts,
  items: readonly number[],
  batchLitres: number,
): DoseLimits {
  const cap = ecCap(request);
  const at = ionsOfMix(amounts, request.shelf, request.waters, 'value', conductingIons);
  const { program } = formulate(cap === null ? request : { ...request, ecPlane: planeAt(at, 'the blend') });
  const columns = new Map(program.columns.map((column) => [column.id, column]));
  const rows: UpperRow[] = [];
  let ecRow: UpperRow | null = null;
  for (const { id, lower, upper, terms } of program.rows) {
    if (id === 'water') continue;
    const water = amounts.waters.reduce((sum, share, i) => sum + share * (terms[waterColumn(i)] ?? 0), 0);
    const own = items.map((i) => (terms[productColumn(i)] ?? 0) / batchLitres);
    const whole = items.reduce((sum, i) => sum + Math.abs(terms[productColumn(i)] ?? 0) * amounts.products[i]!, 0);
    const put = (bound: number, sign: 1 | -1): UpperRow => ({
      terms: own.map((term) => sign * term),
      upper: sign * (bound - water),
      size: Math.abs(bound) > 0 ? Math.abs(bound) : Math.max(whole + Math.abs(water), TINY),
    });
    if (id === 'ec') ecRow = put(upper!, 1);
    else {
      if (upper !== undefined) rows.push(put(upper, 1));
      if (lower !== undefined) rows.push(put(lower, -1));
    }
  }
  return {
    rows,
    ecRow,
    cap,
    ceilings: items.map((i) => (columns.get(productColumn(i))?.upper ?? Number.POSITIVE_INFINITY) * batchLitres),
    ecOf: (doses) => fullEc(delivered(doses, amounts, items, batchLitres), request),
  };
}

/** Doses of a batch as amounts per litre in shelf order. */
export function delivered(
  doses: readonly number[],
  { products, waters }: Amounts,
  items: readonly number[],
  batchLitres: number,
): Amounts {
  const perLitre = products.map(() => 0);
  items.forEach((i, k) => {
    perLitre[i] = doses[k]! / batchLitres;
  });
  return { products: perLitre, waters };
}

/** mg/L: a row of nothing is measured in something. */
const TINY = 1e-6;
