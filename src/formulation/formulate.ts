import type { Column, LinearProgram, Row } from '../../solver/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { type Measured, NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import type { EcRule } from '../programme/rule.js';
import { firstLinearisation, linearisationOfProduct, linearisationOfWater } from './ec-row.js';
import { costing } from '../feed/price.js';
import { ecLimit, type End, type Limit, type RateLimit, type StockLimit } from '../feed/limits.js';
import { type Diluted, ecRule, type FeedRequest, linearRules } from '../feed/request.js';
import { productColumn, termsOf, waterColumn } from '../feed/terms.js';
import type { MgPerLitre } from '../units/index.js';

/** A row of a program with the limit that it stands for. */
export interface Limited {
  limit: Limit;
  row: Row;
  /** The feed that it is a limit of, where that is the mix with water added. */
  of?: string;
}

/** A linear program with the legend that turns its ids back into a feed, and with what it stands on. */
export interface Formulated {
  request: FeedRequest;
  /** What its EC row is; null without a cap. */
  linearisation: EcLinearisation | null;
  program: LinearProgram;
  /** The rows of the program, each with its limit. */
  limited: readonly Limited[];
  /** Column id → index into shelf. */
  products: Map<string, number>;
  /** Column id → index into waters. */
  waters: Map<string, number>;
}

/** The limit that a row stands for. @throws where it is no row of the program */
export function limitOf({ limited }: Pick<Formulated, 'limited'>, rowId: string): Limit {
  const found = limited.find(({ row }) => row.id === rowId);
  if (!found) throw new Error(`no row ${rowId}`);
  return found.limit;
}

/** The row of the EC cap of the mix itself, where there is one. */
export const ecRowOf = ({ limited }: Pick<Formulated, 'limited'>): Row | undefined =>
  limited.find(({ limit, of }) => limit.kind === 'ec' && of === undefined)?.row;

/** Whether a proof that no mix exists leans on the EC row. */
export function leansOnEc(formulated: Pick<Formulated, 'limited'>, ray: Readonly<Record<string, number>>): boolean {
  return formulated.limited.some(({ limit, row }) => limit.kind === 'ec' && (ray[row.id] ?? 0) !== 0);
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
 * @param linearisation what stands for the model of EC; of no matter without a cap
 */
export function formulate(
  request: FeedRequest,
  linearisation: EcLinearisation | null,
  options: FormulateOptions = {},
): Formulated {
  const cap = ecRule(request);
  const { shelf, waters } = request;
  const limited = [
    ...(options.ceilingsAsRows ? ceilingRows(request) : []),
    waterRow(request),
    ...feedRows(request, linearisation, options),
  ].map(({ id, limit, row }): Limited => ({ limit, row: { id, ...row } }));
  for (const [i, diluted] of (request.diluted ?? []).entries()) limited.push(...dilutedRows(diluted, i, options));
  return {
    request,
    linearisation: cap === null ? null : linearisation,
    program: {
      columns: [...productColumns(request, options), ...waterColumns(request)],
      rows: limited.map(({ row }) => row),
    },
    limited,
    products: new Map(shelf.map((_, i) => [productColumn(i), i])),
    waters: new Map(waters.map((_, i) => [waterColumn(i), i])),
  };
}

/** What is asked of the can. */
function feedRows(request: FeedRequest, linearisation: EcLinearisation | null, options: FormulateOptions): Unnamed[] {
  const cap = ecRule(request);
  return [
    ...bandRows(request, options),
    ...nearRows(request),
    ...ruleRows(request),
    ...(cap === null ? [] : [ecRow(request, cap, linearisation)]),
  ];
}

/** The rows of a feed that is the mix with water added: so much less of each product, and all of its litre the same water. */
function dilutedRows({ request, share, linearisation }: Diluted, index: number, options: FormulateOptions): Limited[] {
  const stands = ecRule(request) === null ? null : (linearisation ?? firstLinearisation(request));
  const own = new Set(request.shelf.map((_, i) => productColumn(i)));
  return feedRows(request, stands, options).map(({ id, limit, row }) => {
    const terms = Object.entries(row.terms).map(([column, term]) => [column, own.has(column) ? share * term : term]);
    return {
      of: request.header.name,
      limit,
      row: { ...row, id: `${id} of ${index}`, terms: Object.fromEntries(terms) as Row['terms'] },
    };
  });
}

/** Ids are opaque, and the same for the same limit whatever the options, so that multipliers of one program can be read in another. */
interface Unnamed {
  id: string;
  limit: Limit;
  row: Omit<Row, 'id'>;
}

function productColumns({ shelf, header }: FeedRequest, { ceilingsAsRows }: FormulateOptions): Column[] {
  const cost = costing(shelf);
  return shelf.map((product, i) => {
    const uppers = ceilingsAsRows ? [] : ceilings(product, header.batchLitres).map(({ bound }) => bound);
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

function ceilingRows({ shelf, header }: FeedRequest): Unnamed[] {
  return shelf.flatMap((product, i) =>
    ceilings(product, header.batchLitres).map(
      (limit): Unnamed => ({
        id: `${limit.kind} ${i}`,
        limit,
        row: { upper: limit.bound, terms: { [productColumn(i)]: 1 } },
      }),
    ),
  );
}

function waterRow({ waters }: FeedRequest): Unnamed {
  return {
    id: 'water',
    limit: { kind: 'water', owner: 'water' },
    row: { lower: 1, upper: 1, terms: Object.fromEntries(waters.map((_, i) => [waterColumn(i), 1])) },
  };
}

function bandRows({ shelf, waters, programme }: FeedRequest, options: FormulateOptions): Unnamed[] {
  return NUTRIENTS.flatMap((nutrient): Unnamed[] => {
    const band = programme.bands[nutrient];
    if (!band || nutrient === options.without) return [];
    const found: Unnamed[] = [];
    const limit = (end: End, bound: MgPerLitre): Limit => ({
      kind: 'nutrient',
      nutrient,
      end,
      bound,
      owner: 'programme',
    });
    const alone = new Map([[nutrient, 1]]);
    if (band.min !== undefined && band.min > 0 && options.minima !== false)
      found.push({
        id: `least ${nutrient}`,
        limit: limit('least', band.min),
        row: { lower: band.min, terms: termsOf(shelf, waters, alone, 'floor') },
      });
    if (band.max !== undefined && options.maxima !== false)
      found.push({
        id: `most ${nutrient}`,
        limit: limit('most', band.max),
        row: { upper: band.max, terms: termsOf(shelf, waters, alone, 'cap') },
      });
    return found;
  });
}

/** Nearness is counted on what labels state: the plan is about aims, not about guarantees. */
function nearRows({ shelf, waters, near = {} }: FeedRequest): Unnamed[] {
  return (Object.entries(near) as [Nutrient, NonNullable<(typeof near)[Nutrient]>][]).flatMap(
    ([nutrient, { least, most }]): Unnamed[] => {
      const terms = termsOf(shelf, waters, new Map([[nutrient, 1]]), 'stated');
      const limit = (end: End, bound: MgPerLitre): Limit => ({ kind: 'near', nutrient, end, bound, owner: 'aim' });
      return [
        ...(least === undefined
          ? []
          : [{ id: `near least ${nutrient}`, limit: limit('least', least), row: { lower: least, terms } }]),
        ...(most === undefined
          ? []
          : [{ id: `near most ${nutrient}`, limit: limit('most', most), row: { upper: most, terms } }]),
      ];
    },
  );
}

function ruleRows(request: FeedRequest): Unnamed[] {
  const { shelf, waters } = request;
  return linearRules(request).flatMap((rule, i): Unnamed[] => {
    const { terms, upper, lower, from } = rule;
    const weights = new Map(Object.entries(terms) as [Measured, number][]);
    const limit = (end: End, bound: number): Limit => ({ kind: 'rule', rule, end, bound, owner: from.owner });
    return [
      ...(upper === undefined
        ? []
        : [
            {
              id: `rule ${i} most`,
              limit: limit('most', upper),
              row: { upper, terms: termsOf(shelf, waters, weights, 'cap') },
            },
          ]),
      ...(lower === undefined
        ? []
        : [
            {
              id: `rule ${i} least`,
              limit: limit('least', lower),
              row: { lower, terms: termsOf(shelf, waters, weights, 'floor') },
            },
          ]),
    ];
  });
}

function ecRow({ shelf, waters }: FeedRequest, cap: EcRule, linearisation: EcLinearisation | null): Unnamed {
  if (linearisation === null) throw new Error('a program under an EC cap stands on a linearisation');
  const terms = Object.fromEntries([
    ...shelf.map((product, i) => [productColumn(i), linearisationOfProduct(linearisation, product)]),
    ...waters.map((water, i) => [waterColumn(i), linearisationOfWater(linearisation, water)]),
  ]);
  return { id: 'ec', limit: ecLimit(cap), row: { upper: cap.upper, terms } };
}

function ceilings(product: ClosedProduct, batchLitres: number | null): (StockLimit | RateLimit)[] {
  const { id, onHand, maxRate } = product;
  const of = { product: id, unit: product.composition.per, end: 'most', owner: 'shelf' } as const;
  const found: (StockLimit | RateLimit)[] = [];
  if (onHand !== undefined && (onHand === 0 || batchLitres !== null))
    found.push({ kind: 'stock', ...of, onHand, bound: onHand === 0 ? 0 : onHand / batchLitres! });
  if (maxRate !== undefined) found.push({ kind: 'rate', ...of, bound: maxRate });
  return found;
}
