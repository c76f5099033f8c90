import type { ChartView } from '../work/chart.js';

/** Values along a row: a picture, and the same figures as a table to open. */
export function ChartOf({ chart }: { chart: ChartView }) {
  const { along, labels, series, hollow } = chart;
  return (
    <>
      {series.map((one, i) => (
        <figure key={i} class="chart">
          <figcaption>
            {one.name}, {one.unit}
            {hollow?.at.some(Boolean) && `; hollow: ${hollow.means}`}
          </figcaption>
          {chart.shape === 'bars' ? <Bars chart={chart} values={one.values} /> : <Line values={one.values} />}
        </figure>
      ))}
      <details>
        <summary>The figures</summary>
        <section class="wide" tabIndex={0} aria-label={along}>
          <table>
            <thead>
              <tr>
                <th scope="col">{along}</th>
                {series.map(({ name, unit }, i) => (
                  <th key={i} scope="col" class="right">
                    {name}, {unit}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {labels.map((label, i) => (
                <tr key={i}>
                  <th scope="row">
                    {label}
                    {hollow?.at[i] && `, ${hollow.means}`}
                  </th>
                  {series.map(({ figures }, j) => (
                    <td key={j} class="right">
                      {figures[i]}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </details>
    </>
  );
}

const WIDE = 100;
const HIGH = 40;

function Bars({ chart: { labels, hollow }, values }: { chart: ChartView; values: readonly number[] }) {
  const most = Math.max(...values, Number.MIN_VALUE);
  const step = WIDE / Math.max(1, values.length);
  return (
    <svg viewBox={`0 0 ${WIDE} ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
      {values.map((value, i) => (
        <rect
          key={labels[i]}
          class={hollow?.at[i] ? 'hollow' : undefined}
          x={i * step + 0.15 * step}
          width={0.7 * step}
          y={HIGH - (value / most) * (HIGH - 2)}
          height={(value / most) * (HIGH - 2)}
        />
      ))}
    </svg>
  );
}

function Line({ values }: { values: readonly number[] }) {
  const most = Math.max(...values, Number.MIN_VALUE);
  const step = WIDE / Math.max(1, values.length - 1);
  const at = values.map((value, i) => `${i * step} ${HIGH - (value / most) * (HIGH - 2)}`);
  return (
    <svg viewBox={`0 0 ${WIDE} ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
      <path d={`M0 ${HIGH}L${at.join('L')}L${WIDE} ${HIGH}Z`} class="area" />
      <path d={`M${at.join('L')}`} class="line" />
    </svg>
  );
}
