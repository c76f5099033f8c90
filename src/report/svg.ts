import { lay, standing } from './band.js';
import { escapeMarkup } from './escape.js';
import type { Bar } from './sheet.js';

const WIDTH = 260;
const HEIGHT = 18;
const LEFT = 40;
const RIGHT = 220;

/**
 * One bar as a picture that reads without colour: the band a box (its open side drawn open), the aim a notch, the value a
 * filled dot, what the labels leave open a thick line; a value outside the band lies outside the box.
 */
export function barSvg(bar: Bar): string {
  const laid = lay(bar);
  if (laid === null) return '';
  const x = (place: number): number => round(LEFT + place * (RIGHT - LEFT));
  const value = x(Math.min(1.18, Math.max(-0.18, laid.value)));
  const middle = HEIGHT / 2;
  const word = standing(bar);
  const label = `${bar.name}: ${word === '' ? 'within its band' : word}`;
  return [
    `<svg class="bar" role="img" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" xmlns="http://www.w3.org/2000/svg">`,
    `<title>${escapeMarkup(label)}</title>`,
    `<path d="M${LEFT} ${middle}H${RIGHT}" stroke="currentColor" stroke-width="1"/>`,
    laid.floor
      ? `<path d="M${LEFT + 4} 3H${LEFT}V${HEIGHT - 3}h4" fill="none" stroke="currentColor" stroke-width="1.5"/>`
      : '',
    laid.ceiling
      ? `<path d="M${RIGHT - 4} 3H${RIGHT}V${HEIGHT - 3}h-4" fill="none" stroke="currentColor" stroke-width="1.5"/>`
      : `<path d="M${RIGHT - 5} ${middle - 4}l5 4l-5 4" fill="none" stroke="currentColor" stroke-width="1.5"/>`,
    laid.high > laid.low
      ? `<path d="M${x(laid.low)} ${middle}H${x(laid.high)}" stroke="currentColor" stroke-width="5" opacity="0.4"/>`
      : '',
    laid.aim === null ? '' : `<path d="M${x(laid.aim)} 4V${HEIGHT - 4}" stroke="currentColor" stroke-width="1"/>`,
    `<circle cx="${value}" cy="${middle}" r="4.5" fill="currentColor"/>`,
    '</svg>',
  ].join('');
}

const round = (x: number): number => Math.round(x * 10) / 10;
