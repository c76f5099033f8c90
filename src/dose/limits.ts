import { fullEc, linearisationOfMix, programOn } from '../formulation/index.js';
import type { Amounts } from '../can/mix-amounts.js';
import { ecCap, type FeedRequest } from '../feed/request.js';
import { rulesOf } from '../feed/readout.js';
import { productColumn, waterColumn } from '../feed/terms.js';
import type { UpperRow } from '../../solver/small/index.js';

/** The limits of a feed as they bear on doses for a batch; the waters stay as the blend has them. */
export interface DoseLimits {
  /** Bands and rules, exact. */
  rows: UpperRow[];
  /** The EC cap as a linearisation that touches the model at the blend: near it to well under a tenth, the model itself has the last word. */
  ecRow: UpperRow | null;
  /** g or mL for the batch of each item that stock and label allow. */
  ceilings: number[];
  /** mS/cm of a choice of doses by the full model. */
  ecOf: (doses: readonly number[]) => number;
  cap: number | null;
  /** The same as far as the blend itself keeps it; null where the blend keeps every limit. */
  likeBlend: LikeBlend | null;
}

/** What the nearest mix of an infeasible feed leaves to its doses: what it keeps is firm, what it violates is to be violated no more. */
export interface LikeBlend {
  rows: UpperRow[];
  ecRow: UpperRow | null;
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
  const { program, limited } = programOn(request, cap === null ? null : linearisationOfMix(amounts, request));
  const columns = new Map(program.columns.map((column) => [column.id, column]));
  const held = new Set(rulesOf(amounts, request).flatMap(({ rule, holds }) => (holds ? [rule] : [])));
  const rows: UpperRow[] = [];
  /** Rules that the blend keeps as it is read out: within a share of all their terms, of which little may be left over. */
  const keptRules = new Set<UpperRow>();
  let ecRow: UpperRow | null = null;
  for (const { limit, row, of } of limited) {
    if (limit.kind === 'water') continue;
    const { lower, upper, terms } = row;
    const water = amounts.waters.reduce((sum, share, i) => sum + share * (terms[waterColumn(i)] ?? 0), 0);
    const own = items.map((i) => (terms[productColumn(i)] ?? 0) / batchLitres);
    const whole = items.reduce((sum, i) => sum + Math.abs(terms[productColumn(i)] ?? 0) * amounts.products[i]!, 0);
    const put = (bound: number, sign: 1 | -1): UpperRow => ({
      terms: own.map((term) => sign * term),
      upper: sign * (bound - water),
      size: Math.abs(bound) > 0 ? Math.abs(bound) : Math.max(whole + Math.abs(water), TINY),
    });
    if (limit.kind === 'ec' && of === undefined) ecRow = put(limit.bound, 1);
    else {
      const bounds = [
        ...(upper === undefined ? [] : [put(upper, 1)]),
        ...(lower === undefined ? [] : [put(lower, -1)]),
      ];
      rows.push(...bounds);
      if (limit.kind === 'rule' && of === undefined && held.has(limit.rule))
        for (const one of bounds) keptRules.add(one);
    }
  }
  const blend = items.map((i) => amounts.products[i]! * batchLitres);
  const ecOf = (doses: readonly number[]): number => fullEc(delivered(doses, amounts, items, batchLitres), request);
  return {
    rows,
    ecRow,
    cap,
    likeBlend: likeBlend({ rows, ecRow, cap, keptRules }, blend, ecOf),
    ceilings: items.map((i) => (columns.get(productColumn(i))?.upper ?? Number.POSITIVE_INFINITY) * batchLitres),
    ecOf,
  };
}

function likeBlend(
  { rows, ecRow, cap, keptRules }: Pick<DoseLimits, 'rows' | 'ecRow' | 'cap'> & { keptRules: ReadonlySet<UpperRow> },
  blend: readonly number[],
  ecOf: DoseLimits['ecOf'],
): LikeBlend | null {
  const own = rows.map((row): UpperRow => {
    const value = row.terms.reduce((sum, term, i) => sum + term * blend[i]!, 0);
    const kept = keptRules.has(row) || value <= row.upper + JUDGED * row.size;
    return kept ? { ...row, firm: true } : { ...row, upper: value };
  });
  const ec = cap === null ? 0 : ecOf(blend);
  const over = cap !== null && ec > cap * (1 + JUDGED);
  if (!over && own.every((row) => row.firm)) return null;
  const linearisation = ecRow && over ? { ...ecRow, upper: ecRow.upper + ec - cap } : ecRow && { ...ecRow, firm: true };
  return { rows: own, ecRow: linearisation, cap: over ? ec : cap };
}

/** All rows, the EC linearisation with its trust among them. */
export const withEc = ({ rows, ecRow }: Pick<DoseLimits, 'rows' | 'ecRow'>): UpperRow[] =>
  ecRow === null ? [...rows] : [...rows, { ...ecRow, upper: ecRow.upper + PLANE_TRUST * ecRow.size }];

/** The linearisation of the EC cap is trusted to a tenth of the cap for passing over a choice; the model decides on whole ones. */
const PLANE_TRUST = 0.1;

/** What a mix is judged by: a share of a limit's size. */
const JUDGED = 1e-6;

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

/** Of a limit that is violated anyway, a hundredth more: below what tools, labels and plants could tell. */
export const NOTICED = 0.01;
