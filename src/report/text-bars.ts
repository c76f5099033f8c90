import { type Laid, lay, openTop, standing } from './band.js';
import { figure } from './figures.js';
import type { Bar, Tone } from './sheet.js';
import { padLeft, padRight, plainText, widthOf } from './wrap.js';

/** Places between the ends of a band; odd, so that a centred aim has a place of its own. */
const MOST_PLACES = 21;
const LEAST_PLACES = 9;
/** The brackets, three places outside each of them, and a blank. */
const AROUND = 9;

/**
 * One line per value: name, amount, band in figures, the bar, a word.
 * `[` least, `|` aim, `]` most, `o` the mix, `=` what the labels leave open; a value outside stands outside, with LOW or HIGH.
 */
export function barLines(
  block: { unit: string; bars: readonly Bar[] },
  columns: number,
): { text: string; tone: Tone }[] {
  if (block.bars.length === 0) return [];
  const rows = block.bars.map((bar) => ({
    name: plainText(bar.name),
    value: trace(bar.value),
    least: bar.min === null ? '' : figure(bar.min),
    aim: bar.aim === null ? '' : figure(bar.aim),
    most: bar.max === null ? '' : figure(bar.max),
    word: word(bar),
  }));
  const width = (of: (row: (typeof rows)[number]) => string, head: string): number =>
    Math.max(widthOf(head), ...rows.map((row) => widthOf(of(row))));
  const w = {
    name: width((r) => r.name, ''),
    value: width((r) => r.value, 'mix'),
    least: width((r) => r.least, 'least'),
    aim: width((r) => r.aim, 'aim'),
    most: width((r) => r.most, 'most'),
  };
  const figures = w.name + w.value + w.least + w.aim + w.most + 2;
  // on the narrowest terminals the gaps give way before the figures do
  const gap = figures + 8 + Math.max(...rows.map((row) => row.word.length)) > columns ? ' ' : '  ';
  const line = (name: string, value: string, least: string, aim: string, most: string, rest: string): string =>
    `${gap}${padRight(name, w.name)}${gap}${padLeft(value, w.value)}${gap}${padLeft(least, w.least)} ${padLeft(aim, w.aim)} ${padLeft(most, w.most)}${gap}${rest}`;
  // where room is short the picture shrinks, then gives way; the figures and the word stay
  const room =
    columns -
    widthOf(line('', '', '', '', '', '')) -
    AROUND -
    // a value without a band has no picture, so its word may stand there
    Math.max(...rows.map((row, i) => (lay(block.bars[i]!) === null ? 0 : row.word.length)));
  const places = Math.min(MOST_PLACES, room - ((room + 1) % 2));
  const drawn = places >= LEAST_PLACES;
  const banded = block.bars.some((bar) => lay(bar) !== null);
  const head = banded ? line(block.unit, 'mix', 'least', 'aim', 'most', '') : line(block.unit, 'mix', '', '', '', '');
  return [
    { text: head, tone: 'quiet' },
    ...rows.map((row, i) => ({
      text: line(
        row.name,
        row.value,
        row.least,
        row.aim,
        row.most,
        `${drawn && lay(block.bars[i]!) !== null ? picture(block.bars[i]!, places) : ''}${row.word}`,
      ),
      tone: toneOf(block.bars[i]!),
    })),
    ...(drawn && banded ? [{ text: legend(block.bars), tone: 'quiet' as const }] : []),
  ];
}

/** An amount too small to matter is not spelt out digit by digit. */
function trace(value: number): string {
  return value > 0 && value < 0.0005 ? '<0.001' : figure(value);
}

/** `  [····|··o··]  `, always of one width. */
export function picture(bar: Bar, places = MOST_PLACES): string {
  const laid = lay(bar);
  if (laid === null) return ' '.repeat(places + AROUND);
  const track: string[] = Array.from({ length: places }, () => '.');
  const at = (place: number): number => Math.round(Math.min(1, Math.max(0, place)) * (places - 1));
  if (at(laid.high) > at(laid.low)) track.fill('=', at(laid.low), at(laid.high) + 1);
  if (laid.aim !== null) track[at(laid.aim)] = '|';
  const below = laid.value < 0;
  const above = laid.value > 1;
  if (!below && !above) track[at(laid.value)] = 'o';
  return `${outside(below, laid, 'left')}${laid.floor ? '[' : ' '}${track.join('')}${laid.ceiling ? ']' : '>'}${outside(above, laid, 'right')} `;
}

/** Three places beside the band: `o`, `o.` or `o..` the farther out the value is. */
function outside(here: boolean, laid: Laid, side: 'left' | 'right'): string {
  if (!here) return '   ';
  const distance = side === 'left' ? -laid.value : laid.value - 1;
  const dots = distance > 0.5 ? 2 : distance > 0.1 ? 1 : 0;
  return side === 'left' ? padLeft(`o${' '.repeat(dots)}`, 3) : padRight(`${' '.repeat(dots)}o`, 3);
}

function legend(bars: readonly Bar[]): string {
  const open = bars.some((bar) => lay(bar) !== null && bar.high > bar.low * (1 + 1e-9))
    ? '   = what labels leave open'
    : '';
  return `  [ least   | aim   ] most   o this mix${open}`;
}

function word(bar: Bar): string {
  const where = standing(bar);
  if (where === 'low') return `LOW by ${figure(bar.min! - bar.value)}`;
  if (where === 'high') return `HIGH by ${figure(bar.value - bar.max!)}`;
  const top = openTop(bar);
  return top === null ? where : `may be up to ${figure(top)}`;
}

function toneOf(bar: Bar): Tone {
  const where = standing(bar);
  return where === 'low' || where === 'high' ? 'bad' : 'plain';
}
