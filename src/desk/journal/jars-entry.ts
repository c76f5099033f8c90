import { benchAndShelf } from '../opened.js';
import { problem } from '../../problem.js';
import { identityOf } from '../../units/index.js';
import type { Draft, JournalItem } from '../../year/journal/entry.js';
import type { EntryAsked } from './entry-asked.js';

/** Packs that came in, or jars as they were weighed: products of the shelf with amounts. */
export function jarsEntry(sort: 'bought' | 'counted', { files, wishes, catalog, collected, begun }: EntryAsked): Draft {
  const { bench, shelf } = benchAndShelf(files, wishes, catalog, collected, true);
  const kit = bench?.kit ?? { spoons: [] };
  const among = shelf.products;
  const by = { among, kit, scale: null, onShelf: new Set(among.map(({ id }) => id)) };
  const lines = among.length === 0 ? [] : collected.wishes(wishes, sort, by).flat();
  const paid = collected.wish(wishes, 'paid') ?? null;
  const items = lines.map(
    ({ product: { id, form }, amount }): JournalItem => ({
      id,
      amount,
      unit: form === 'powder' ? 'g' : 'mL',
      tool: null,
    }),
  );
  items.forEach(({ id }, i) => {
    if (items.findIndex((other) => identityOf(other.id) === identityOf(id)) < i)
      collected.add(
        problem('item-twice', { field: `--${sort}` }, `${id} twice`, 'each product once', 'Add the amounts up.'),
      );
  });
  collected.settle();
  return { ...begun(sort), items, cost: paid, currency: paid === null ? '' : (bench?.currency ?? '') };
}
