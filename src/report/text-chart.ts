import { figure } from './figures.js';
import type { Chart } from './sheet.js';
import { padLeft, padRight, plainText, widthOf, wrap } from './wrap.js';

/** A chart as lines: bars one under the other, or a row of steps for each series with its first and last figure. */
export function chartLines(chart: Chart, columns: number): string[] {
  return chart.shape === 'bars' ? barsOf(chart, columns) : stepsOf(chart, columns);
}

const MOST_BAR = 40;
const MARK = '#';
const HOLLOW = '-';

function barsOf({ along, labels, series, hollow }: Chart, columns: number): string[] {
  const [{ name, unit, values }] = series as [Chart['series'][number]];
  const names = labels.map(plainText);
  const figures = values.map((value) => figure(value));
  const wide = Math.max(widthOf(along), ...names.map(widthOf));
  const width = Math.max(...figures.map(widthOf), 1);
  const room = Math.max(5, Math.min(MOST_BAR, columns - wide - width - 6));
  const most = Math.max(...values, 0);
  const head = `  ${padRight(along, wide)}  ${name}${unit === '' ? '' : `, ${unit}`}`;
  const rows = names.map((label, i) => {
    const long = most > 0 ? Math.round((values[i]! / most) * room) : 0;
    const mark = hollow?.at[i] ? HOLLOW : MARK;
    return `  ${padRight(label, wide)}  ${padLeft(figures[i]!, width)}  ${mark.repeat(long)}`;
  });
  const key = hollow?.at.some(Boolean) ? wrap(`${HOLLOW} ${hollow.means}`, columns - 2).map((line) => `  ${line}`) : [];
  return [...wrap(head.trim(), columns - 2).map((line) => `  ${line}`), ...rows, ...key];
}

/** From nothing to the most. */
const STEPS = ['_', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

function stepsOf({ series }: Chart, columns: number): string[] {
  const figures = series.map(({ values, unit }) =>
    `${figure(values[0] ?? 0)} to ${figure(values.at(-1) ?? 0)} ${unit}`.trim(),
  );
  const most = Math.max(...series.map(({ name }) => widthOf(plainText(name))), 0);
  const told = Math.max(...figures.map(widthOf), 0);
  // where room is short the figures go under the name, and the row of steps has a line to itself
  const isNarrow = most + told + 6 + LEAST_STEPS > columns;
  const room = isNarrow ? columns - 4 : columns - most - told - 6;
  return series.flatMap(({ name, values }, i) => {
    const steps = drawn(values, room);
    return isNarrow
      ? [...wrap(`${plainText(name)}: ${figures[i]}`, columns - 2).map((line) => `  ${line}`), `    ${steps}`]
      : [`  ${padRight(plainText(name), most)}  ${padRight(steps, Math.min(room, values.length))}  ${figures[i]}`];
  });
}

const LEAST_STEPS = 20;

/** Each place the least of the weeks that it stands for, so that an empty jar is seen. */
function drawn(values: readonly number[], room: number): string {
  const most = Math.max(...values, 0);
  const places = Math.max(1, Math.min(room, values.length));
  return Array.from({ length: places }, (_, i) => {
    const part = values.slice(Math.floor((i * values.length) / places), Math.ceil(((i + 1) * values.length) / places));
    const share = most > 0 ? Math.min(...part) / most : 0;
    return STEPS[share <= 0 ? 0 : Math.max(1, Math.ceil(share * (STEPS.length - 1) - 1e-9))]!;
  }).join('');
}
