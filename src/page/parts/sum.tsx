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
