import type { Block, Table } from '../../report/sheet.js';
import { barView } from '../work/bars.js';
import { chartView } from '../work/chart.js';
import { Bars } from './bars.js';
import { ChartOf } from './chart.js';

/** Blocks of a report, as every report has them; texts are set as text, whatever stands in them. */
export const Blocks = ({ blocks }: { blocks: readonly Block[] }) => (
  <>
    {blocks.map((block, i) => (
      <OneBlock key={i} block={block} name={nameAt(blocks, i)} />
    ))}
  </>
);

/** What a table is called to those who hear it: by the heading above it, numbered where it is not the first under it. */
function nameAt(blocks: readonly Block[], i: number): string {
  const above = blocks.slice(0, i);
  const at = above.findLastIndex(({ kind }) => kind === 'heading');
  const head = above[at];
  const before = above.slice(at + 1).filter(({ kind }) => kind === 'table').length;
  const name = head?.kind === 'heading' ? head.text : 'Table';
  return before === 0 ? name : `${name}, ${before + 1}`;
}

function OneBlock({ block, name }: { block: Block; name: string }) {
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
      return <TableBlock table={block} name={name} />;
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

function TableBlock({ table: { columns, rows, total }, name }: { table: Table; name: string }) {
  const side = (i: number) => columns[i]?.align;
  const cells = (row: readonly string[]) =>
    row.map((cell, i) =>
      i === 0 && cell !== '' ? (
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
    <section class="wide" tabIndex={0} aria-label={name}>
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
