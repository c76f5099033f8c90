import type { Column, LinearProgram, Row } from '../../solver/index.js';
import type { Product, Water } from '../catalog/product.js';
import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { firstPlane, planeOfProduct, planeOfWater } from './ec-row.js';
import { costing } from './price.js';
import { allRules, ecCap, type FeedRequest } from './request.js';

/** A row of the program in the grower's words. */
export interface Limit {
  id: string;
  kind: 'min' | 'max' | 'rule' | 'ec' | 'stock' | 'rate' | 'water';
  /** `Ca ≥ 40 mg/L`, `NH4 <= 0.1 * N`, … */
  text: string;
  from: string;
  nutrient?: Nutrient;
  /** Index into the shelf, for stock and rate. */
  product?: number;
}

/** A linear program with the legend that turns its ids back into a feed. */
export interface Formulated {
  program: LinearProgram;
  /** Column id → index into shelf. */
  products: Map<string, number>;
  /** Column id → index into waters. */
  waters: Map<string, number>;
  limits: Map<string, Limit>;
}

/** Which limits to keep, and whether stock and label ceilings are rows (so that a conflict can name them). */
export interface FormulateOptions {
  /** Band minima: kept unless false. */
  minima?: boolean;
  /** Band maxima: kept unless false. */
  maxima?: boolean;
  /** A nutrient whose own band is left out. */
  without?: Nutrient;
  ceilingsAsRows?: boolean;
}

/** Id of the column of a shelf product or a water: opaque, so that no name can clash. */
export const productColumn = (index: number): string => `p${index}`;
export const waterColumn = (index: number): string => `w${index}`;

/**
 * Turns a request into a program: columns in g/L, mL/L and litres of water per litre; rows in mg/L (EC in mS/cm).
 * A minimum counts what labels guarantee; a cap counts the worst case of what they leave open.
 */
export function formulate(request: FeedRequest, options: FormulateOptions = {}): Formulated {
  const { shelf, waters } = request;
  const cost = costing(shelf);
  const limits = new Map<string, Limit>();
  const rows: Row[] = [];
  const add = (limit: Limit, row: Omit<Row, 'id'>): void => {
    limits.set(limit.id, limit);
    rows.push({ id: limit.id, ...row });
  };

  const columns: Column[] = shelf.map((_, i) => ({ id: productColumn(i), cost: cost.perUnit[i]! }));
  shelf.forEach((product, i) => {
    for (const ceiling of ceilings(product, request.header.batchLitres)) {
      const limit: Limit = {
        id: `${ceiling.kind}:${i}`,
        kind: ceiling.kind,
        text: ceiling.text,
        from: 'shelf',
        product: i,
      };
      if (options.ceilingsAsRows) add(limit, { upper: ceiling.upper, terms: { [productColumn(i)]: 1 } });
      else columns[i]!.upper = Math.min(columns[i]!.upper ?? Number.POSITIVE_INFINITY, ceiling.upper);
    }
  });
  waters.forEach((water, i) => {
    columns.push({ id: waterColumn(i), cost: water.pricePerLitre, upper: 1 });
  });
  add(
    { id: 'water', kind: 'water', text: 'the waters fill the can', from: 'water' },
    { lower: 1, upper: 1, terms: Object.fromEntries(waters.map((_, i) => [waterColumn(i), 1])) },
  );

  for (const nutrient of NUTRIENTS) {
    const band = request.programme.bands[nutrient];
    if (!band || nutrient === options.without) continue;
    if (band.min !== undefined && band.min > 0 && options.minima !== false) {
      add(
        {
          id: `min:${nutrient}`,
          kind: 'min',
          text: `${nutrient} ≥ ${shortNumber(band.min)} mg/L`,
          from: 'programme',
          nutrient,
        },
        { lower: band.min, terms: termsOf(shelf, waters, new Map([[nutrient, 1]]), 'floor') },
      );
    }
    if (band.max !== undefined && options.maxima !== false) {
      add(
        {
          id: `max:${nutrient}`,
          kind: 'max',
          text: `${nutrient} ≤ ${shortNumber(band.max)} mg/L`,
          from: 'programme',
          nutrient,
        },
        { upper: band.max, terms: termsOf(shelf, waters, new Map([[nutrient, 1]]), 'cap') },
      );
    }
  }
  allRules(request).forEach((rule, i) => {
    const weights = new Map(Object.entries(rule.terms) as [Nutrient, number][]);
    const limit = { kind: 'rule' as const, text: rule.text, from: rule.from };
    if (rule.upper !== undefined) {
      add({ ...limit, id: `rule:${i}:upper` }, { upper: rule.upper, terms: termsOf(shelf, waters, weights, 'cap') });
    }
    if (rule.lower !== undefined) {
      add({ ...limit, id: `rule:${i}:lower` }, { lower: rule.lower, terms: termsOf(shelf, waters, weights, 'floor') });
    }
  });
  const cap = ecCap(request);
  if (cap !== null) {
    const plane = request.ecPlane ?? firstPlane(request);
    const terms: Record<string, number> = {};
    shelf.forEach((p, i) => {
      terms[productColumn(i)] = planeOfProduct(plane, p);
    });
    waters.forEach((w, i) => {
      terms[waterColumn(i)] = planeOfWater(plane, w);
    });
    add({ id: 'ec', kind: 'ec', text: `EC ≤ ${shortNumber(cap)} mS/cm`, from: 'programme' }, { upper: cap, terms });
  }
  return {
    program: { columns, rows },
    products: new Map(shelf.map((_, i) => [productColumn(i), i])),
    waters: new Map(waters.map((_, i) => [waterColumn(i), i])),
    limits,
  };
}

/**
 * Σ weight · content of each column. For a cap, positive weights take the most a label allows and negative weights the
 * least; for a floor the other way round.
 */
export function termsOf(
  shelf: readonly Product[],
  waters: readonly Water[],
  weights: ReadonlyMap<Nutrient, number>,
  side: 'cap' | 'floor' | 'stated',
): Record<string, number> {
  const terms: Record<string, number> = {};
  const put = (column: string, part: (nutrient: Nutrient, weight: number) => number): void => {
    let sum = 0;
    let size = 0;
    for (const [nutrient, weight] of weights) {
      const term = weight * part(nutrient, weight);
      sum += term;
      size += Math.abs(term);
    }
    if (Math.abs(sum) > CANCELLED * size) terms[column] = sum;
  };
  shelf.forEach((product, i) => {
    put(productColumn(i), (nutrient, weight) => {
      const content = product.composition.content[nutrient];
      if (side === 'stated') return content.stated ?? content.low;
      return (side === 'cap') === weight > 0 ? content.high : content.low;
    });
  });
  waters.forEach((water, i) => {
    put(waterColumn(i), (nutrient) => waterContent(water, nutrient));
  });
  return terms;
}

/** A coefficient a − q·b this small beside its parts is rounding dust (a product that keeps the ratio exactly). */
const CANCELLED = 1e-9;

/** mg/L of a nutrient in a water; total N is the sum of its forms where not given. */
export function waterContent(water: Water, nutrient: Nutrient): number {
  const given = water.mgPerLitre[nutrient];
  if (given !== undefined || nutrient !== 'N') return given ?? 0;
  return (water.mgPerLitre['NO3-N'] ?? 0) + (water.mgPerLitre['NH4-N'] ?? 0);
}

function ceilings(
  product: Product,
  batchLitres: number | null,
): { kind: 'stock' | 'rate'; upper: number; text: string }[] {
  const unit = product.composition.per;
  const found: { kind: 'stock' | 'rate'; upper: number; text: string }[] = [];
  if (product.onHand !== undefined && (product.onHand === 0 || batchLitres !== null)) {
    found.push({
      kind: 'stock',
      upper: product.onHand === 0 ? 0 : product.onHand / batchLitres!,
      text: `${product.id}: ${shortNumber(product.onHand)} ${unit} on hand`,
    });
  }
  if (product.maxRate !== undefined) {
    found.push({
      kind: 'rate',
      upper: product.maxRate,
      text: `${product.id}: at most ${shortNumber(product.maxRate)} ${unit}/L by its label`,
    });
  }
  return found;
}

/** Four significant digits without trailing zeros or exponents. */
export function shortNumber(x: number): string {
  if (x === 0) return '0';
  const digits = Math.max(0, 3 - Math.floor(Math.log10(Math.abs(x))));
  const text = x.toFixed(Math.min(digits, 12));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
