import type { Table } from './table.js';
import type { End, Piece } from './tableau.js';

/** Up to this many pieces are all taken at once. */
export const FEW = 60;
/** How many of the pieces that serve an end cheapest are taken first, and how many of those still missed at a time. */
const CHEAPEST = 8;
const BATCH = 20;
/** What gains less is not missed; the engine lets nothing of the kind enter either. */
const PRECISION = 1e-12;

/** Hands out the pieces of a table as they are wanted; most columns of a long table never are. */
export interface Sieve {
  /** What to begin with. */
  first(): Piece[];
  /** Those outside that would lower Σ cost · x most by these multipliers; or, by a ray, most help the rows to hold. */
  missed(by: 'multipliers' | 'ray', y: readonly number[]): Piece[];
}

/** `signs`, per column: 1 it goes up from where it starts, −1 down, 2 both ways, 0 it is fixed. */
export function sieve(table: Table, signs: Int8Array, ends: readonly End[]): Sieve {
  const outside = Int8Array.from(signs);
  const take = (column: number): Piece[] => {
    const sign = outside[column]!;
    outside[column] = 0;
    if (sign === 2)
      return [
        { column, sign: 1 },
        { column, sign: -1 },
      ];
    return sign === 0 ? [] : [{ column, sign: sign as 1 | -1 }];
  };
  const first = () => {
    const columns = [...signs.keys()];
    if (signs.length <= FEW) return columns.flatMap(take);
    const free = columns.filter((j) => signs[j] === 2);
    return [...free, ...ends.flatMap((end) => cheapest(table, signs, end))].flatMap(take);
  };
  const reduced = new Float64Array(signs.length);
  const missed: Sieve['missed'] = (by, y) => {
    for (let j = 0; j < reduced.length; j += 1) reduced[j] = by === 'ray' ? 0 : table.cost[j]!;
    table.rows.forEach((row, i) => {
      const multiplier = y[i]!;
      if (multiplier === 0) return;
      for (let k = 0; k < row.at.length; k += 1) reduced[row.at[k]!]! -= multiplier * row.by[k]!;
    });
    const best = new Least(BATCH);
    for (let j = 0; j < reduced.length; j += 1) {
      const gain = outside[j]! * reduced[j]!;
      if (gain < -PRECISION) best.offer(j, gain);
    }
    return best.items.flatMap(take);
  };
  return { first, missed };
}

/** The columns that serve an end that is missed at the start for the least cost. */
function cheapest(table: Table, signs: Int8Array, { row, upper, end }: End): number[] {
  if (upper ? end >= 0 : end <= 0) return [];
  const best = new Least(CHEAPEST);
  const { at, by } = table.rows[row]!;
  for (let k = 0; k < at.length; k += 1) {
    const j = at[k]!;
    const serves = (upper ? -by[k]! : by[k]!) * signs[j]!;
    if (serves > 0) best.offer(j, (signs[j]! * table.cost[j]!) / serves);
  }
  return best.items;
}

/** The few items of the least size, in order. */
class Least {
  readonly items: number[] = [];
  private readonly sizes: number[] = [];
  private readonly most: number;

  constructor(most: number) {
    this.most = most;
  }

  offer(item: number, size: number): void {
    const { items, sizes, most } = this;
    if (items.length === most && size >= sizes[most - 1]!) return;
    let at = items.length === most ? most - 1 : items.length;
    for (; at > 0 && sizes[at - 1]! > size; at -= 1) {
      items[at] = items[at - 1]!;
      sizes[at] = sizes[at - 1]!;
    }
    items[at] = item;
    sizes[at] = size;
  }
}
