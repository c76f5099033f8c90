import type { FrontierMade } from '../feed/results.js';
import { escapeMarkup } from './escape.js';
import { figure } from './figures.js';
import { log10, powerOfTen } from '../units/elementary.js';
import { refuseUnlike } from '../wrong-type.js';

const WIDTH = 640;
const HEIGHT = 400;
const PLOT = { left: 84, right: 612, top: 56, bottom: 340 };

/**
 * Cost against nearness as a picture of its own: self-contained, readable without colour and in a dark or a light room.
 * Each feed is a dot with its figures in a tooltip; the ends are labelled.
 */
export function frontierSvg(frontier: FrontierMade): string {
  refuseUnlike({ frontier }, { frontier: { points: ['object'], feed: { name: 'text' } } });
  const { points, feed, costUnit } = frontier;
  const misses = points.map((p) => 100 * p.near);
  const costs = points.map((p) => p.cost);
  const across = scaleOf(0, Math.max(1e-9, ...misses));
  const up = scaleOf(0, Math.max(1e-9, ...costs));
  const x = (v: number): number => round(PLOT.left + (v / across.end) * (PLOT.right - PLOT.left));
  const y = (v: number): number => round(PLOT.bottom - (v / up.end) * (PLOT.bottom - PLOT.top));
  const title = `${feed.name}: what nearness costs`;
  const line = points
    .map((p, i) => (i === 0 ? `M${x(100 * p.near)} ${y(p.cost)}` : `H${x(100 * p.near)}V${y(p.cost)}`))
    .join('');
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" font-family="system-ui, sans-serif" font-size="13">`,
    `<title>${escapeMarkup(title)}</title>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
    '<g fill="#222" stroke="none">',
    text(PLOT.left, 28, title, 'start', 'font-size="17" font-weight="600"'),
    ...across.ticks.map((t) => text(x(t), PLOT.bottom + 20, figure(t), 'middle')),
    ...up.ticks.map((t) => text(PLOT.left - 8, y(t) + 4, figure(t), 'end')),
    text(
      (PLOT.left + PLOT.right) / 2,
      HEIGHT - 14,
      'how far main elements may be from their aims, % (--near)',
      'middle',
    ),
    text(PLOT.left, PLOT.top - 10, costUnit, 'end'),
    '</g>',
    '<g stroke="#ccc" stroke-width="1">',
    ...up.ticks.map((t) => `<path d="M${PLOT.left} ${y(t)}H${PLOT.right}"/>`),
    '</g>',
    `<path d="M${PLOT.left} ${PLOT.top}V${PLOT.bottom}H${PLOT.right}" fill="none" stroke="#222" stroke-width="1.5"/>`,
    points.length > 1 ? `<path d="${line}" fill="none" stroke="#222" stroke-width="2"/>` : '',
    ...points.map(
      (p) =>
        `<circle cx="${x(100 * p.near)}" cy="${y(p.cost)}" r="4.5" fill="#222"><title>${escapeMarkup(`${figure(100 * p.near)} % as --near: ${figure(p.cost)} ${costUnit}`)}</title></circle>`,
    ),
    '<g fill="#222" stroke="#fff" stroke-width="4" paint-order="stroke">',
    ...endLabels(
      points.length,
      (i) => ({ x: x(misses[i]!), y: y(costs[i]!) }),
      (i) => `${figure(misses[i]!)} %, ${figure(costs[i]!)} ${costUnit}`,
    ),
    '</g>',
    '</svg>',
  ]
    .filter((part) => part !== '')
    .join('\n')}\n`;
}

/** Words at both ends of the curve, kept inside the picture. */
function endLabels(
  count: number,
  place: (i: number) => { x: number; y: number },
  says: (i: number) => string,
): string[] {
  if (count === 0) return [];
  const label = (i: number, word: string, below: boolean): string => {
    const at = place(i);
    const right = at.x > (PLOT.left + PLOT.right) / 2;
    return text(right ? at.x : at.x + 10, below ? at.y + 24 : at.y + 4, `${word}: ${says(i)}`, right ? 'end' : 'start');
  };
  if (count === 1) return [label(0, 'nearest and cheapest', true)];
  return [label(0, 'nearest', false), label(count - 1, 'cheapest', true)];
}

/** From 0 to a round end not below `most`, in 4 to 8 equal steps of 1, 2 or 5 times a power of ten. */
function scaleOf(start: number, most: number): { end: number; ticks: number[] } {
  const power = powerOfTen(Math.floor(log10(most / 4)));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => most / s <= 8)!;
  const count = Math.max(1, Math.ceil(most / step - 1e-9));
  return { end: count * step, ticks: Array.from({ length: count + 1 }, (_, i) => start + i * step) };
}

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end', more = ''): string {
  return `<text x="${x}" y="${y}" text-anchor="${anchor}"${more === '' ? '' : ` ${more}`}>${escapeMarkup(words)}</text>`;
}

const round = (x: number): number => Math.round(x * 10) / 10;
