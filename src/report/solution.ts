import type { Mix } from '../formulation/results.js';
import { figure } from './figures.js';
import { type Block, heading, list, paragraph } from './sheet.js';

/** pH, what the feed does to it over time, and whether the can stays clear. */
export function solutionBlocks(mix: Pick<Mix, 'ph' | 'acidity' | 'precipitation'>): Block[] {
  const { ph, acidity } = mix;
  const cloudy = mix.precipitation.filter((line) => line.verdict !== 'clear');
  const worst = cloudy.some((line) => line.verdict === 'will cloud');
  return [
    heading('In the can and after'),
    list([phLine(ph), acidityLine(acidity), ...acidity.says]),
    cloudy.length === 0
      ? paragraph('The can stays clear.')
      : paragraph(cloudy.map((line) => sentence(line.sentence)).join(' '), worst ? 'bad' : 'plain'),
  ];
}

function phLine({ value, low, high, asMixed, caution }: Mix['ph']): string {
  const mixed = asMixed === null ? '' : `; as mixed about ${tenth(asMixed)}`;
  return `pH about ${tenth(value)} (${tenth(low)} to ${tenth(high)}) once it has stood open to air${mixed}. ${caution}`;
}

function acidityLine({ mgCaCO3PerLitre, low, high, ifAllNitrifies }: Mix['acidity']): string {
  const kind = mgCaCO3PerLitre > 0 ? 'acid' : 'basic';
  const of = (mg: number): string => figure(Math.abs(mg));
  const open = figure(low) === figure(high) ? '' : ` (${figure(low)} to ${figure(high)}, + acid)`;
  const worst =
    ifAllNitrifies > 0.5 ? `; at most ${of(ifAllNitrifies)} acid if all ammonium and urea turn to nitrate` : '';
  return `Potential acidity: ${of(mgCaCO3PerLitre)} mg CaCO3 per litre, ${kind}${open}${worst}.`;
}

/** A tenth of a unit is what strips and pens tell apart. */
const tenth = (pH: number): string => pH.toFixed(1);
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
