import type { FeedReadings, ReadPoint } from '../year/journal/results.js';
import { escapeMarkup as safe } from './escape.js';
import { figure } from './figures.js';
import { penUnit } from './says/on-pen.js';

const WIDTH = 720;
const PANEL = 230;
const PLOT = { left: 60, right: 700, top: 40, bottom: 190 };

/**
 * Readings over time as a picture of its own, a panel a feed: a dot a batch, filled where it lies where nine of ten right ones do; behind it
 * that range as a stroke, and what was expected as a notch. Nothing runs in it, and it reads without colour.
 */
export function journalSvg(feeds: readonly FeedReadings[], scale: number | null = null): string {
  const panels = feeds.filter(({ points }) => points.length > 0);
  const height = Math.max(1, panels.length) * PANEL;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}" height="${height}" font-family="system-ui, sans-serif" font-size="13">`,
    '<title>Readings over time</title>',
    `<rect width="${WIDTH}" height="${height}" fill="#fff"/>`,
    ...(panels.length === 0
      ? [text(WIDTH / 2, PANEL / 2, 'No batch was read yet.', 'middle')]
      : panels.flatMap((feed, i) => panel(onScale(feed, scale), i * PANEL, penUnit(scale)))),
    '</svg>',
  ].join('\n')}\n`;
}

/** The readings as the pen shows them. */
function onScale(feed: FeedReadings, scale: number | null): FeedReadings {
  if (scale === null) return feed;
  const shown = (mSPerCm: number | null): number | null => (mSPerCm === null ? null : Math.round(mSPerCm * scale));
  return {
    ...feed,
    points: feed.points.map((point) => ({
      ...point,
      reading: shown(point.reading)!,
      expected: shown(point.expected),
      low: shown(point.low),
      high: shown(point.high),
    })),
  };
}

function panel({ feed, points }: FeedReadings, down: number, unit: string): string[] {
  const all = points.flatMap(({ reading, low, high, expected }) => [
    reading,
    low ?? reading,
    high ?? reading,
    expected ?? reading,
  ]);
  const { from, to, ticks } = scaleOf(Math.min(...all), Math.max(...all));
  const y = (value: number): number => round(PLOT.bottom - ((value - from) / (to - from)) * (PLOT.bottom - PLOT.top));
  const wide = (PLOT.right - PLOT.left) / points.length;
  const x = (i: number): number => round(PLOT.left + (i + 0.5) * wide);
  return [
    `<g transform="translate(0 ${down})">`,
    `<g fill="#222">`,
    text(PLOT.left, 22, `${feed}: readings, ${unit} at 25 °C`, 'start', 'font-size="15" font-weight="600"'),
    ...ticks.map((tick) => text(PLOT.left - 8, y(tick) + 4, figure(tick), 'end')),
    text(x(0), PLOT.bottom + 20, points[0]!.date, points.length > 1 ? 'start' : 'middle'),
    ...(points.length > 1 ? [text(x(points.length - 1), PLOT.bottom + 20, points.at(-1)!.date, 'end')] : []),
    '</g>',
    ...ticks.map((tick) => `<path d="M${PLOT.left} ${y(tick)}H${PLOT.right}" stroke="#ddd"/>`),
    ...points.map((point, i) => mark(point, x(i), y, Math.max(2, Math.min(10, wide / 2)))),
    `<path d="M${PLOT.left} ${PLOT.top}V${PLOT.bottom}H${PLOT.right}" fill="none" stroke="#222" stroke-width="1.5"/>`,
    '</g>',
  ];
}

function mark(point: ReadPoint, x: number, y: (value: number) => number, half: number): string {
  const { entry, date, reading, expected, low, high } = point;
  const within = low !== null && high !== null && reading >= low && reading <= high;
  const range = low === null || high === null ? '' : `; ${figure(low)} to ${figure(high)} expected`;
  const says = `${date}, entry ${entry}: ${figure(reading)}${range}${range !== '' && !within ? ', outside' : ''}`;
  const parts = [
    range === ''
      ? ''
      : `<path d="M${x} ${y(low!)}V${y(high!)}" stroke="#bbb" stroke-width="${round(Math.min(6, half))}"/>`,
    expected === null ? '' : `<path d="M${round(x - half)} ${y(expected)}H${round(x + half)}" stroke="#222"/>`,
    `<circle cx="${x}" cy="${y(reading)}" r="${round(Math.min(4.5, half + 1))}" fill="${within || range === '' ? '#222' : '#fff'}" stroke="#222" stroke-width="1.5"><title>${safe(says)}</title></circle>`,
  ];
  return parts.join('');
}

/** Between ticks, from a hundredth of mS/cm to thousands of ppm. */
const STEPS = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000] as const;

/** Round ends around the values, and round steps between them. */
function scaleOf(low: number, high: number): { from: number; to: number; ticks: number[] } {
  const span = Math.max(high - low, 0.02);
  const step = STEPS.find((s) => span / s <= 6) ?? 5000;
  const first = Math.max(0, Math.floor(low / step));
  const last = Math.max(first + 1, Math.ceil(high / step));
  const ticks = Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
  return { from: first * step, to: last * step, ticks };
}

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end', more = ''): string {
  return `<text x="${x}" y="${y}" text-anchor="${anchor}"${more === '' ? '' : ` ${more}`}>${safe(words)}</text>`;
}

const round = (x: number): number => Math.round(x * 10) / 10;
