import type { Problem } from '../../problem.js';
import type { WrittenProduct } from '../edit/shelf.js';
import { Blocks } from '../parts/blocks.js';
import { Field } from '../parts/field.js';
import { More } from '../parts/more.js';
import { Problems } from '../parts/problems.js';
import { Tool } from '../parts/tool.js';
import type { PlaceProps } from './place.js';
import type { ProductView } from '../work/shelf.js';

/** What a grower fills in of a jar, beside what its label states. */
const JAR: [column: string, name: string, hint: string][] = [
  ['on_hand', 'Left of it', 'Such as 320 g'],
  ['pack', 'Pack', 'Such as 500 g'],
  ['price', 'Price of a pack', 'Such as 12.90'],
  ['bulk_density', 'How it fills a spoon', 'g/mL, or 1.1 g per 1/4 tsp'],
  ['density', 'Density, if liquid', 'g/mL'],
  ['max_rate', 'Most, by its label', 'Such as 1 g/L'],
  ['derived_from', 'Derived from', 'The salts it names, with ; between'],
  ['notes', 'Notes', ''],
];

const LABEL: [column: string, name: string, hint: string][] = [
  ['name', 'Name', ''],
  ['form', 'Form', 'powder or liquid'],
  ['basis', 'Its % are', 'w/w by weight, w/v of 100 mL'],
  ['formula', 'Formula', 'Of a pure salt'],
  ['purity', 'Purity, %', ''],
  ['ec', 'EC of 1 g/L or mL/L', 'mS/cm, if you measured it'],
];

/** What most labels state, in %; others are shown where the row states them. */
const STATED = ['N', 'NO3-N', 'NH4-N', 'urea-N', 'P2O5', 'K2O', 'Ca', 'Mg', 'S', 'Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'];
const NOT_STATED = ['id', 'kind', 'source', 'evidence', 'refs'];

/** One product: what its label brings, what is wrong with it, and its cells to fill in. */
export function ProductCard({
  row,
  meaning,
  problems,
  onSet,
  onGone,
  ...props
}: PlaceProps & {
  row: WrittenProduct;
  meaning: ProductView | undefined;
  problems: readonly Problem[];
  onSet: (column: string, value: string) => void;
  onGone: () => void;
}) {
  const name = row.cells.get('name') || row.id;
  const others = new Set([...NOT_STATED, ...STATED, ...[...LABEL, ...JAR].map(([column]) => column)]);
  const stated = [...STATED, ...[...row.cells.keys()].filter((column) => !others.has(column))];
  const told = [
    ...problems,
    ...(meaning?.problems ?? []).filter((one) => !problems.some((p) => p.found === one.found)),
  ];
  const beside = (column: string) => problems.filter(({ where }) => where.field === column);
  const field = (column: string, title: string, hint: string) => (
    <Field
      key={column}
      name={title}
      value={row.cells.get(column) ?? ''}
      hint={hint}
      problems={beside(column)}
      onSet={(value) => onSet(column, value)}
    />
  );
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
            <div class="pair">{LABEL.map(([column, title, hint]) => field(column, title, hint))}</div>
            <div class="cells">{stated.map((column) => field(column, `${column}, %`, ''))}</div>
            <div class="pair">{JAR.map(([column, title, hint]) => field(column, title, hint))}</div>
            <button type="button" onClick={onGone}>
              Take {name} off the shelf
            </button>
          </>
        )}
      </More>
      {meaning?.per === 'g/L' && (
        <More title="What a spoon of it weighs">
          {() => (
            <>
              <Tool
                {...props}
                tool="weigh"
                of={row.id}
                title="By any kitchen scale"
                fields={[
                  { key: 'spoon', name: 'Level spoons of', usual: '1/4 tsp' },
                  { key: 'count', name: 'How many of them', usual: '10' },
                  { key: 'grams', name: 'Together, in grams, as the scale shows it' },
                ]}
                button="Work it out"
                wishes={({ spoon, count, grams }) => ({
                  product: row.id,
                  weigh: `${count} level ${spoon} weigh ${grams} g`,
                })}
              />
              <Tool
                {...props}
                tool="calibrate"
                of={row.id}
                title="By the pen, without a scale"
                fields={[
                  { key: 'spoon', name: 'Level spoons of', usual: '1/4 tsp' },
                  { key: 'count', name: 'How many of them', usual: '4' },
                  { key: 'measured', name: 'Into how much water, such as 4 L' },
                  { key: 'before', name: 'What the pen shows before' },
                  { key: 'after', name: 'And after, all stirred clear' },
                ]}
                button="Work it out"
                wishes={(words) => ({ product: row.id, ...words })}
              />
            </>
          )}
        </More>
      )}
      {meaning && <More title="What its label means">{() => <Blocks blocks={meaning.blocks} />}</More>}
    </article>
  );
}
