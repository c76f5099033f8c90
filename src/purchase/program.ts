import type { Column, LinearProgram, Row } from '../../solver/index.js';
import { ceilingOf, type Formulated } from '../formulation/index.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import { startingProgram } from '../formulation/starting.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { type Candidate, poolOf } from './pool.js';
import type { PurchaseRequest } from './types.js';
import { productColumn } from '../feed/terms.js';

/** One feed inside the joint program; its columns and rows carry its number as a prefix. */
export interface JointFeed {
  litres: number;
  /** Litres of its water: more than of itself where other feeds are made of it by dilution. */
  waterLitres: number;
  formulated: Formulated;
  /** Most of each candidate in a litre of this feed. */
  ceilings: number[];
}

/** The purchase as one program with whole packs. */
export interface Joint {
  request: PurchaseRequest;
  pool: Candidate[];
  feeds: JointFeed[];
  /** Most packs of each candidate that could be of use; 0 where it is not for sale. */
  most: number[];
  program: LinearProgram;
  /** Rows that follow from the others and only spare the search work. */
  helping: ReadonlySet<Row>;
}

export const feedColumn = (feed: number, column: string): string => `${feed}:${column}`;
export const packColumn = (index: number): string => `packs:${index}`;
/** 1 where any pack is bought; the pack column itself where one pack is the most. */
export const boughtColumn = (joint: Pick<Joint, 'most'>, index: number): string =>
  joint.most[index] === 1 ? packColumn(index) : `bought:${index}`;

/**
 * All feeds over one stock: for each feed its own rows; Σ litres · dose ≤ on hand + pack · packs for each product; the cost
 * is the money for packs and, over the horizon, for water.
 * @param linearisations what stands for each feed's EC; by default one that suits its programme
 */
export function jointProgram(
  request: PurchaseRequest,
  linearisations: readonly (EcLinearisation | null)[] = [],
): Joint {
  const pool = poolOf(request);
  const shelf = pool.map((candidate) => candidate.product);
  const feeds = request.feeds.map(({ request: feed, weeklyLitres, weeklyWater = weeklyLitres }, f): JointFeed => {
    const formulated = startingProgram(onShelf(feed, shelf), linearisations[f] ?? null);
    return {
      litres: weeklyLitres * request.weeks,
      waterLitres: weeklyWater * request.weeks,
      formulated,
      ceilings: pool.map((_, i) => ceilingOf(formulated.program, productColumn(i))),
    };
  });
  const joint: Joint = {
    request,
    pool,
    feeds,
    most: pool.map((candidate, i) => mostPacks(candidate, mostUse(feeds, i))),
    program: { columns: [], rows: [] },
    helping: new Set(),
  };
  const rows = rowsOf(joint);
  const helping = new Set(rows.flatMap(({ row, helps }) => (helps ? [row] : [])));
  return { ...joint, program: { columns: columnsOf(joint), rows: rows.map(({ row }) => row) }, helping };
}

/** A feed, and those that are made of it by dilution, on another shelf. */
const onShelf = (feed: FeedRequest, shelf: ClosedProduct[]): FeedRequest => ({
  ...feed,
  shelf,
  ...(feed.diluted && {
    diluted: feed.diluted.map((one) => ({ ...one, request: { ...one.request, shelf } })),
  }),
});

/** g or mL of a candidate that all feeds together could take over the horizon. */
function mostUse(feeds: readonly JointFeed[], index: number): number {
  return feeds.reduce((sum, feed) => sum + feed.litres * feed.ceilings[index]!, 0);
}

function mostPacks({ onHand, offer, isNeeded }: Candidate, use: number): number {
  if (offer === null) return 0;
  const least = isNeeded ? 1 : 0;
  return onHand === null ? least : Math.max(least, Math.ceil((use - onHand) / offer.pack));
}

function columnsOf(joint: Joint): Column[] {
  const { pool, feeds, most } = joint;
  const columns: Column[] = feeds.flatMap(({ formulated, waterLitres, ceilings }, f) =>
    formulated.program.columns.map((column): Column => {
      const index = formulated.products.get(column.id);
      return index === undefined
        ? { ...column, id: feedColumn(f, column.id), cost: column.cost * waterLitres }
        : {
            id: feedColumn(f, column.id),
            cost: 0,
            upper: unreachable(pool[index]!, most[index]!) ? 0 : ceilings[index]!,
          };
    }),
  );
  pool.forEach(({ offer, isNeeded }, i) => {
    if (most[i] === 0) return;
    const lower = isNeeded ? 1 : 0;
    columns.push({ id: packColumn(i), cost: offer!.price, lower, upper: most[i]!, integer: true });
    if (most[i]! > 1) columns.push({ id: boughtColumn(joint, i), cost: 0, lower, upper: 1, integer: true });
  });
  return columns;
}

/** Neither on hand nor for sale. */
const unreachable = ({ onHand }: Candidate, most: number): boolean => onHand === 0 && most === 0;

/** A row, and whether it only helps the search. */
interface JointRow {
  row: Row;
  helps?: true;
}

function rowsOf(joint: Joint): JointRow[] {
  const { pool, feeds, most, request } = joint;
  const rows: JointRow[] = feeds.flatMap(({ formulated }, f) =>
    formulated.program.rows.map((row) => ({
      row: {
        ...row,
        id: feedColumn(f, row.id),
        terms: Object.fromEntries(Object.entries(row.terms).map(([id, a]) => [feedColumn(f, id), a])),
      },
    })),
  );
  rows.push(...pool.flatMap((candidate, i) => stockRows(joint, candidate, i)));
  const bought = pool.flatMap((candidate, i) =>
    most[i]! > 0 ? [{ candidate, column: boughtColumn(joint, i), i }] : [],
  );
  if (request.atMost !== undefined) {
    const fresh = bought.filter(({ candidate }) => !candidate.isOnShelf);
    const terms = Object.fromEntries(fresh.map(({ column }) => [column, 1]));
    rows.push({ row: { id: 'at-most', upper: request.atMost, terms } });
  }
  if (request.budget !== undefined) {
    const terms = Object.fromEntries(bought.map(({ candidate, i }) => [packColumn(i), candidate.offer!.price]));
    rows.push({ row: { id: 'budget', upper: request.budget, terms } });
  }
  return [...rows, ...sourceRows(joint).map((row): JointRow => ({ row, helps: true }))];
}

/** What is used is on hand or bought; a pack beyond what could be used at all adds no more than that. */
function stockRows({ feeds, most }: Joint, { onHand, offer }: Candidate, i: number): JointRow[] {
  if (onHand === null || (onHand === 0 && most[i] === 0)) return [];
  const terms: Record<string, number> = {};
  feeds.forEach(({ litres }, f) => {
    terms[feedColumn(f, productColumn(i))] = litres;
  });
  const rows: JointRow[] = [];
  if (most[i]! > 0) {
    const useful = Math.max(0, mostUse(feeds, i) - onHand);
    terms[packColumn(i)] = -(most[i] === 1 ? Math.min(offer!.pack, useful) : offer!.pack);
  }
  rows.push({ row: { id: `stock:${i}`, upper: onHand, terms } });
  if (most[i]! === 0) return rows;
  if (most[i]! > 1) {
    const bought = boughtColumn({ most }, i);
    rows.push({ row: { id: `some:${i}`, upper: 0, terms: { [packColumn(i)]: 1, [bought]: -most[i]! } } });
    rows.push({ row: { id: `none:${i}`, lower: 0, terms: { [packColumn(i)]: 1, [bought]: -1 } } });
  }
  if (onHand === 0) {
    // tighter than the stock of a large pack: nothing of it in any feed unless it is bought
    feeds.forEach(({ ceilings }, f) => {
      const terms = { [feedColumn(f, productColumn(i))]: 1, [boughtColumn({ most }, i)]: -ceilings[i]! };
      if (ceilings[i]! > 0) rows.push({ row: { id: `dose:${f}:${i}`, upper: 0, terms }, helps: true });
    });
  }
  return rows;
}

/** Rounded up, which keeps such a row true: whole numbers with parts of 2^-50 are more than a search can be believed on. */
const inParts = (share: number): number => Math.ceil(share * 1024) / 1024;

/**
 * Rows that follow from the others and spare the search much branching: a minimum that shelf and water cannot keep needs
 * enough bought products that hold the nutrient, each counted for at most what is missing.
 */
function sourceRows(joint: Joint): Row[] {
  const { pool, feeds, most } = joint;
  return feeds.flatMap(({ formulated, ceilings, litres }, f) =>
    formulated.program.rows.flatMap((row): Row[] => {
      if (row.lower === undefined || row.upper !== undefined || row.lower <= 0) return [];
      const fromWater = Math.max(0, ...[...formulated.waters.keys()].map((id) => row.terms[id] ?? 0));
      let missing = row.lower - fromWater;
      const sources: [string, number][] = [];
      pool.forEach(({ onHand }, i) => {
        const a = row.terms[productColumn(i)] ?? 0;
        if (a <= 0) return;
        const owned = onHand === null ? ceilings[i]! : Math.min(ceilings[i]!, onHand / litres);
        missing -= a * owned;
        if (most[i]! > 0 && ceilings[i]! > owned) sources.push([boughtColumn(joint, i), a * (ceilings[i]! - owned)]);
      });
      if (missing <= 1e-6 * row.lower) return [];
      // a hair below what is missing, so that rounding never cuts an answer off
      const need = missing * (1 - 1e-6);
      const terms = Object.fromEntries(sources.map(([id, brings]) => [id, inParts(Math.min(1, brings / need))]));
      return [{ id: `source:${f}:${row.id}`, lower: 1, terms }];
    }),
  );
}
