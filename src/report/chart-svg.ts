import { escapeMarkup as safe } from './escape.js';
import { figure } from './figures.js';
import type { Chart } from './sheet.js';

const WIDTH = 640;
const LEFT = 64;
const RIGHT = 628;

/** A chart as figures of a page: inline SVG that runs nothing, is told to readers of the screen, and prints in black. */
export function chartHtml(chart: Chart): string {
  const drawn = chart.shape === 'bars' ? [barsSvg(chart)] : chart.series.map((one) => lineSvg(chart, one));
  const key = chart.hollow?.at.some(Boolean) ? `<figcaption>Hollow: ${safe(chart.hollow.means)}.</figcaption>` : '';
  return drawn.map((svg, i) => `<figure>${svg}${i === drawn.length - 1 ? key : ''}</figure>`).join('');
}

function barsSvg({ along, labels, series, hollow }: Chart): string {
  const [{ name, unit, values }] = series as [Chart['series'][number]];
  const [top, bottom] = [24, 150];
  const most = Math.max(...values, 0);
  const step = (RIGHT - LEFT) / Math.max(1, labels.length);
  const title = `${name}${unit === '' ? '' : `, ${unit}`}, by ${along}`;
  const said = labels.map((label, i) => `${label} ${figure(values[i]!)}`).join(', ');
  const bars = labels.flatMap((_, i) => {
    const high = most > 0 ? ((bottom - top) * values[i]!) / most : 0;
    const x = LEFT + i * step + step * 0.15;
    const fill = hollow?.at[i] ? 'fill="none"' : 'fill="currentColor"';
    return [
      `<rect x="${round(x)}" y="${round(bottom - high)}" width="${round(step * 0.7)}" height="${round(high)}" ${fill} stroke="currentColor"/>`,
      text(x + step * 0.35, bottom - high - 5, figure(values[i]!), 'middle'),
      ...underneath(labels, i).map((word, line) => text(x + step * 0.35, bottom + 16 + 14 * line, word, 'middle')),
    ];
  });
  return svg(bottom + 38, title, said, [
    `<path d="M${LEFT} ${bottom}H${RIGHT}" stroke="currentColor" fill="none"/>`,
    text(LEFT - 8, top + 4, unit, 'end'),
    ...bars,
  ]);
}

/** `Dec 2026` on two lines, the second told once for those that share it: bars are narrow. */
function underneath(labels: readonly string[], i: number): string[] {
  const [first, ...rest] = labels[i]!.split(' ');
  const before = labels[i - 1]?.split(' ').slice(1).join(' ');
  return rest.length === 0 || rest.join(' ') === before ? [first!] : [first!, rest.join(' ')];
}

/** One line that steps from place to place, with the most and nothing at its side. */
function lineSvg({ along, labels }: Chart, { name, unit, values }: Chart['series'][number]): string {
  const [top, bottom] = [28, 84];
  const most = Math.max(...values, 0);
  const across = (RIGHT - LEFT) / Math.max(1, values.length - 1);
  const y = (value: number): number => round(bottom - (most > 0 ? ((bottom - top) * value) / most : 0));
  const path = values.map((value, i) =>
    i === 0 ? `M${LEFT} ${y(value)}` : `H${round(LEFT + i * across)}V${y(value)}`,
  );
  const said = `from ${figure(values[0] ?? 0)} to ${figure(values.at(-1) ?? 0)} ${unit}, the most ${figure(most)}, the least ${figure(Math.min(...values))}`;
  return svg(bottom + 22, `${name}, ${unit}, by ${along}`, said, [
    text(LEFT, 16, name, 'start'),
    text(LEFT - 8, top + 4, `${figure(most)} ${unit}`, 'end'),
    text(LEFT - 8, bottom + 4, '0', 'end'),
    `<path d="M${LEFT} ${top}V${bottom}H${RIGHT}" stroke="currentColor" fill="none" opacity="0.5"/>`,
    `<path d="${path.join('')}" stroke="currentColor" stroke-width="2" fill="none"/>`,
    text(LEFT, bottom + 16, labels[0] ?? '', 'start'),
    text(RIGHT, bottom + 16, labels.at(-1) ?? '', 'end'),
  ]);
}

const svg = (height: number, title: string, said: string, parts: readonly string[]): string =>
  [
    `<svg role="img" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" xmlns="http://www.w3.org/2000/svg" font-size="12" fill="currentColor">`,
    `<title>${safe(title)}</title>`,
    `<desc>${safe(said)}</desc>`,
    ...parts,
    '</svg>',
  ].join('');

const text = (x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end'): string =>
  words === '' ? '' : `<text x="${round(x)}" y="${round(y)}" text-anchor="${anchor}">${safe(words)}</text>`;

const round = (x: number): number => Math.round(x * 10) / 10;
