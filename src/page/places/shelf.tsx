import { Problems } from '../parts/problems.js';
import { TextOf } from '../parts/text-of.js';
import { useAnswer } from '../parts/use-answer.js';
import { isEmptyShelf, setCell, takeOff, writtenProducts } from '../edit/shelf.js';
import type { Place, PlaceProps } from './place.js';
import { ShelfAdd } from './shelf-add.js';
import { ProductCard } from './shelf-product.js';

/** What stands there: each label with what it means and what is wrong with it; and how more comes onto it. */
export const shelfPlace: Place = {
  word: 'Shelf',
  icon: 'M4 20h16M4 11h16M6 11V6h4v5M14 11V4h4v7M7 20v-5h3v5M13 20v-6h5v6',
  View: ShelfPlace,
};

function ShelfPlace(props: PlaceProps) {
  const { state, desk } = props;
  const { texts } = state.kept;
  const text = texts['shelf.csv'] ?? '';
  const bench = useAnswer(props, 'bench', 'bench', { texts });
  const labels = useAnswer(props, 'shelf', 'shelf', { texts });
  const rows = writtenProducts(text) ?? [];
  const problems = (bench.answer?.problems ?? []).filter(
    ({ where }) => where.file === 'shelf.csv' && !isEmptyShelf(text),
  );
  const isEmpty = isEmptyShelf(texts['shelf.csv']);
  const lines = new Set(rows.map(({ line }) => line));
  return (
    <>
      <h2>Shelf</h2>
      <ShelfAdd state={state} desk={desk} />
      <Problems problems={problems.filter(({ where }) => where.line === undefined || !lines.has(where.line))} />
      <ul class="shelf">
        {rows.map((row) => (
          <li key={`${row.line} ${row.id}`}>
            <ProductCard
              state={state}
              desk={desk}
              row={row}
              meaning={labels.answer?.products.find(({ id }) => id === row.id)}
              problems={problems.filter(({ where }) => where.line === row.line)}
              onSet={(column, value) => desk.change((s) => setCell(s, row.id, column, value, desk.now()))}
              onGone={() => desk.change((s) => takeOff(s, row.id, desk.now()))}
            />
          </li>
        ))}
      </ul>
      {isEmpty && <p>Put your first label here: paste it above as it is printed, or choose a salt by its name.</p>}
      {(labels.answer?.missing ?? []).length > 0 && (
        <details>
          <summary>What the shelf does not say</summary>
          <ul class="list">
            {labels.answer!.missing.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
      <TextOf file="shelf.csv" state={state} desk={desk} problems={[]} />
    </>
  );
}
