import { More } from './more.js';
import type { EcSum } from '../work/ec-ions.js';
import type { SumLine } from '../work/sums.js';

/** The sum behind a figure, line by line. */
export const Sum = ({ lines, total }: { lines: readonly SumLine[]; total?: string }) => (
  <table class="sum">
    <tbody>
      {lines.map(({ of, how, comes }, i) => (
        <tr key={i}>
          <th scope="row">
            {of} <span class="quiet">{how}</span>
          </th>
          <td class="right">{comes}</td>
        </tr>
      ))}
    </tbody>
    {total !== undefined && (
      <tfoot>
        <tr>
          <th scope="row">together</th>
          <td class="right">{total}</td>
        </tr>
      </tfoot>
    )}
  </table>
);

/** A conductivity, ion by ion, and how far the ions slow one another. */
export const EcOf = ({ sum }: { sum: EcSum }) => (
  <More title="Which ions carry it">
    {() => (
      <>
        <Sum lines={sum.lines} total={sum.total} />
        <p class="quiet">{sum.note}</p>
      </>
    )}
  </More>
);
