import type { Problem } from '../../problem.js';
import type { WrittenProduct } from '../edit/shelf.js';
import { Blocks } from '../parts/blocks.js';
import { Field } from '../parts/field.js';
import { More } from '../parts/more.js';
import { Problems } from '../parts/problems.js';
import type { ProductView } from '../work/shelf.js';

/** What a grower fills in of a jar, beside what its label states. */
const JAR: [column: string, name: string, hint: string][] = [
  ['on_hand', 'Left of it', 'Such as 320 g'],
  ['pack', 'Pack', 'Such as 500 g'],
  ['price', 'Price of a pack', 'Such as 12.90'],
  ['bulk_density', 'How it fills a spoon', 'g/mL, or 1.1 g per 1/4 tsp'],
  ['density', 'Density, if liquid', 'g/mL'],
  ['derived_from', 'Derived from', 'The salts it names, with ; between'],
  ['notes', 'Notes', ''],
];

const LABEL = ['name', 'form', 'basis', 'formula'];

/** One product: what its label brings, what is wrong with it, and its cells to fill in. */
export function ProductCard({
  row,
  meaning,
  problems,
  onSet,
  onGone,
}: {
  row: WrittenProduct;
  meaning: ProductView | undefined;
  problems: readonly Problem[];
  onSet: (column: string, value: string) => void;
  onGone: () => void;
}) {
  const name = row.cells.get('name') || row.id;
  const jar = new Set(['id', 'kind', 'source', 'evidence', 'refs', ...LABEL, ...JAR.map(([column]) => column)]);
  const stated = [...row.cells].filter(([column, value]) => !jar.has(column) && value !== '');
  const told = [
    ...problems,
    ...(meaning?.problems ?? []).filter((one) => !problems.some((p) => p.found === one.found)),
  ];
  const fields = [
    ...LABEL.map((column) => [column, capital(column), ''] as const),
    ...stated.map(([column]) => [column, `${column}, %`, ''] as const),
    ...JAR,
  ];
  const beside = (column: string) => problems.filter(({ where }) => where.field === column);
  return (
    <article>
      <h3>{name}</h3>
      <Problems problems={told} />
      {meaning && (
        <p class="brings">
          1 {meaning.per} brings{' '}
          {meaning.brings.map(({ element, figure }) => (
            <span key={element}>
              <b>{element}</b> {figure}
            </span>
          ))}{' '}
          mg/L
        </p>
      )}
      <More title="What is written of it">
        {() => (
          <>
            <div class="pair">
              {fields.map(([column, title, hint]) => (
                <Field
                  key={column}
                  name={title}
                  value={row.cells.get(column) ?? ''}
                  hint={hint}
                  problems={beside(column)}
                  onSet={(value) => onSet(column, value)}
                />
              ))}
            </div>
            <button type="button" onClick={onGone}>
              Take {name} off the shelf
            </button>
          </>
        )}
      </More>
      {meaning && <More title="What its label means">{() => <Blocks blocks={meaning.blocks} />}</More>}
    </article>
  );
}

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);
