import type { Column, LinearProgram, Row } from '../../solver/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { firstLinearisation, linearisationOfProduct, linearisationOfWater } from './ec-row.js';
import { costing } from '../feed/price.js';
import { allRules, ecCap, type FeedRequest } from '../feed/request.js';
import { productColumn, termsOf, waterColumn } from '../feed/terms.js';
import { formatNumber } from '../units/index.js';

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

/**
 * Turns a request into a program: columns in g/L, mL/L and litres of water per litre; rows in mg/L (EC in mS/cm).
 * A minimum counts what labels guarantee; a cap counts the worst case of what they leave open.
 */
export function formulate(request: FeedRequest, options: FormulateOptions = {}): Formulated {
  const { shelf, waters } = request;
  const limited: Limited[] = [
    ...(options.ceilingsAsRows ? ceilingRows(request) : []),
    waterRow(request),
    ...bandRows(request, options),
    ...ruleRows(request),
    ...ecRows(request),
  ];
  return {
    program: {
      columns: [...productColumns(request, options), ...waterColumns(request)],
      rows: limited.map(({ limit, row }) => ({ id: limit.id, ...row })),
    },
    products: new Map(shelf.map((_, i) => [productColumn(i), i])),
    waters: new Map(waters.map((_, i) => [waterColumn(i), i])),
    limits: new Map(limited.map(({ limit }) => [limit.id, limit])),
  };
}

interface Limited {
  limit: Limit;
  row: Omit<Row, 'id'>;
}

function productColumns({ shelf, header }: FeedRequest, { ceilingsAsRows }: FormulateOptions): Column[] {
  const cost = costing(shelf);
  return shelf.map((product, i) => {
    const uppers = ceilingsAsRows ? [] : ceilings(product, header.batchLitres).map(({ upper }) => upper);
    return {
      id: productColumn(i),
      cost: cost.perUnit[i]!,
      ...(uppers.length === 0 ? {} : { upper: Math.min(...uppers) }),
    };
  });
}

function waterColumns({ waters }: FeedRequest): Column[] {
  return waters.map((water, i) => ({ id: waterColumn(i), cost: water.pricePerLitre, upper: 1 }));
}

function ceilingRows({ shelf, header }: FeedRequest): Limited[] {
  return shelf.flatMap((product, i) =>
    ceilings(product, header.batchLitres).map(
      ({ kind, text, upper }): Limited => ({
        limit: { id: `${kind}:${i}`, kind, text, from: 'shelf', product: i },
        row: { upper, terms: { [productColumn(i)]: 1 } },
      }),
    ),
  );
}

function waterRow({ waters }: FeedRequest): Limited {
  return {
    limit: { id: 'water', kind: 'water', text: 'the waters fill the can', from: 'water' },
    row: { lower: 1, upper: 1, terms: Object.fromEntries(waters.map((_, i) => [waterColumn(i), 1])) },
  };
}

function bandRows({ shelf, waters, programme }: FeedRequest, options: FormulateOptions): Limited[] {
  return NUTRIENTS.flatMap((nutrient): Limited[] => {
    const band = programme.bands[nutrient];
    if (!band || nutrient === options.without) return [];
    const found: Limited[] = [];
    const limitOf = (kind: 'min' | 'max', sign: string, bound: number): Limit => ({
      id: `${kind}:${nutrient}`,
      kind,
      text: `${nutrient} ${sign} ${formatNumber(bound)} mg/L`,
      from: 'programme',
      nutrient,
    });
    const alone = new Map([[nutrient, 1]]);
    if (band.min !== undefined && band.min > 0 && options.minima !== false)
      found.push({
        limit: limitOf('min', '≥', band.min),
        row: { lower: band.min, terms: termsOf(shelf, waters, alone, 'floor') },
      });
    if (band.max !== undefined && options.maxima !== false)
      found.push({
        limit: limitOf('max', '≤', band.max),
        row: { upper: band.max, terms: termsOf(shelf, waters, alone, 'cap') },
      });
    return found;
  });
}

function ruleRows(request: FeedRequest): Limited[] {
  const { shelf, waters } = request;
  return allRules(request).flatMap(({ terms, text, from, upper, lower }, i): Limited[] => {
    const weights = new Map(Object.entries(terms) as [Nutrient, number][]);
    const limitOf = (end: string): Limit => ({ id: `rule:${i}:${end}`, kind: 'rule', text, from });
    return [
      ...(upper === undefined
        ? []
        : [{ limit: limitOf('upper'), row: { upper, terms: termsOf(shelf, waters, weights, 'cap') } }]),
      ...(lower === undefined
        ? []
        : [{ limit: limitOf('lower'), row: { lower, terms: termsOf(shelf, waters, weights, 'floor') } }]),
    ];
  });
}

function ecRows(request: FeedRequest): Limited[] {
  const cap = ecCap(request);
  if (cap === null) return [];
  const linearisation = request.ecLinearisation ?? firstLinearisation(request);
  const terms = Object.fromEntries([
    ...request.shelf.map((product, i) => [productColumn(i), linearisationOfProduct(linearisation, product)]),
    ...request.waters.map((water, i) => [waterColumn(i), linearisationOfWater(linearisation, water)]),
  ]);
  return [
    {
      limit: { id: 'ec', kind: 'ec', text: `EC ≤ ${formatNumber(cap)} mS/cm`, from: 'programme' },
      row: { upper: cap, terms },
    },
  ];
}

function ceilings(
  product: ClosedProduct,
  batchLitres: number | null,
): { kind: 'stock' | 'rate'; upper: number; text: string }[] {
  const unit = product.composition.per;
  const found: { kind: 'stock' | 'rate'; upper: number; text: string }[] = [];
  if (product.onHand !== undefined && (product.onHand === 0 || batchLitres !== null)) {
    found.push({
      kind: 'stock',
      upper: product.onHand === 0 ? 0 : product.onHand / batchLitres!,
      text: `${product.id}: ${formatNumber(product.onHand)} ${unit} on hand`,
    });
  }
  if (product.maxRate !== undefined) {
    found.push({
      kind: 'rate',
      upper: product.maxRate,
      text: `${product.id}: at most ${formatNumber(product.maxRate)} ${unit}/L by its label`,
    });
  }
  return found;
}
