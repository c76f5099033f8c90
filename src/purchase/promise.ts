import type { Optimal } from '../../solver/index.js';
import { productColumn } from '../feed/terms.js';
import { feedColumn, type Joint } from './program.js';
import { aimRows } from './settle.js';

/**
 * How close to the aims the feeds could come at the very best, as a share of an aim, if one pack of a candidate were there too: a bound, by
 * the reduced costs of the closest mixes without it (weak duality). Infinity where the candidate is not for sale.
 */
export function promised(joint: Joint, closest: Optimal): number[] {
  const rows = joint.feeds.map(({ formulated }, f) =>
    formulated.program.rows.flatMap(({ id, terms }) => priced(closest.y[feedColumn(f, id)], terms)),
  );
  const aims = aimRows(joint).flatMap(({ id, terms }) => priced(closest.y[id], terms));
  return joint.pool.map(({ offer, onHand }, i) => {
    if (offer === null) return Number.POSITIVE_INFINITY;
    // one that is there already gains by its stock alone
    if (onHand === null || onHand > 0) return closest.bound + Math.min(0, closest.y[`stock:${i}`] ?? 0) * offer.pack;
    const column = productColumn(i);
    const gains = joint.feeds.map(({ litres, ceilings }, f) => {
      const inFeed = feedColumn(f, column);
      const reduced = -worthOf(rows[f]!, column) - worthOf(aims, inFeed);
      return { perUnit: Math.min(0, reduced) / litres, most: Math.min(offer.pack, ceilings[i]! * litres) };
    });
    const shared = Math.min(...gains.map(({ perUnit }) => perUnit)) * offer.pack;
    const apart = gains.reduce((sum, { perUnit, most }) => sum + perUnit * most, 0);
    return closest.bound + Math.max(shared, apart);
  });
}

interface Priced {
  price: number;
  terms: Readonly<Record<string, number>>;
}

const priced = (price: number | undefined, terms: Priced['terms']): Priced[] => (price ? [{ price, terms }] : []);

const worthOf = (rows: readonly Priced[], column: string): number =>
  rows.reduce((sum, { price, terms }) => sum + price * (terms[column] ?? 0), 0);
