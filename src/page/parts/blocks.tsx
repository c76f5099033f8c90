import type { Block, Table } from '../../report/sheet.js';
import { barView } from '../work/bars.js';
import { chartView } from '../work/chart.js';
import { Bars } from './bars.js';
import { ChartOf } from './chart.js';

/** Blocks of a report, as every report has them; texts are set as text, whatever stands in them. */
export const Blocks = ({ blocks }: { blocks: readonly Block[] }) => (
  <>
    {blocks.map((block, i) => (
      <OneBlock key={i} block={block} />
    ))}
  </>
);

function OneBlock({ block }: { block: Block }) {
  switch (block.kind) {
    case 'heading':
      return <h3>{block.text}</h3>;
    case 'paragraph':
      return <p class={block.tone ?? 'plain'}>{block.text}</p>;
    case 'facts':
      return (
        <dl class="facts">
          {block.facts.map(({ name, value }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      );
    case 'table':
      return <TableBlock table={block} />;
    case 'bars':
      return <Bars bars={block.bars.map((bar) => barView(bar))} />;
    case 'chart':
      return <ChartOf chart={chartView(block)} />;
    case 'list':
      return <List items={block.items} name="list" />;
    case 'cautions':
      return <List items={block.items} name="cautions" />;
    case 'command':
      return <pre tabIndex={0}>{block.text}</pre>;
    default:
      return block satisfies never;
  }
}

const List = ({ items, name }: { items: readonly string[]; name: string }) => (
  <ul class={name}>
    {items.map((item) => (
      <li key={item}>{item}</li>
    ))}
  </ul>
);

function TableBlock({ table: { columns, rows, total } }: { table: Table }) {
  const side = (i: number) => columns[i]?.align;
  const cells = (row: readonly string[]) =>
    row.map((cell, i) =>
      i === 0 ? (
        <th key={i} scope="row">
          {cell}
        </th>
      ) : (
        <td key={i} class={side(i)}>
          {cell}
        </td>
      ),
    );
  return (
    <section class="wide" tabIndex={0} aria-label="table">
      <table>
        <thead>
          <tr>
            {columns.map(({ head, align }, i) =>
              head === '' ? (
                <td key={i} />
              ) : (
                <th key={i} scope="col" class={align}>
                  {head}
                </th>
              ),
            )}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <tr key={i}>{cells(row)}</tr>
          ))}
        </tbody>
        {total && (
          <tfoot>
            <tr>{cells(total)}</tr>
          </tfoot>
        )}
      </table>
    </section>
  );
}
