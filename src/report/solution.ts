import type { Mix } from '../feed/results.js';
import { figure } from './figures.js';
import { type Block, heading, list, paragraph } from './sheet.js';
import { formatFixed } from '../units/index.js';

/** pH, what the feed does to it over time, and whether the can stays clear. */
export function solutionBlocks(mix: Pick<Mix, 'ph' | 'acidity' | 'precipitation' | 'meetings'>): Block[] {
  const { ph, acidity } = mix;
  const cloudy = mix.precipitation.filter((line) => line.verdict !== 'clear');
  const worst = cloudy.some((line) => line.verdict === 'will cloud');
  return [
    heading('In the can and after'),
    list([phLine(ph), acidityLine(acidity), ...acidity.says]),
    cloudy.length === 0
      ? paragraph('The can stays clear.')
      : paragraph(cloudy.map((line) => sentence(line.sentence)).join(' '), worst ? 'bad' : 'plain'),
    ...(mix.meetings ? [list(mix.meetings.map((meeting) => meeting.sentence))] : []),
  ];
}

function phLine({ value, low, high, asMixed, caution }: Mix['ph']): string {
  const mixed = asMixed === null ? '' : `; as mixed about ${tenth(asMixed)}`;
  return `pH about ${tenth(value)} (${tenth(low)} to ${tenth(high)}) once it has stood open to air${mixed}. ${caution}`;
}

function acidityLine({ mgCaCO3PerLitre, low, high, ifAllNitrifies }: Mix['acidity']): string {
  const worst = ifAllNitrifies > 0.5 ? `; if all ammonium and urea turned to nitrate, ${acid(ifAllNitrifies)}` : '';
  const open = figure(low) === figure(high) ? '' : ` (labels leave open ${acid(low)} to ${acid(high)})`;
  return `Potential acidity: ${acid(mgCaCO3PerLitre)} mg CaCO3 per litre${open}${worst}.`;
}

const acid = (mg: number): string => `${mg < 0 ? 'basic' : 'acid'} ${figure(Math.abs(mg))}`;

/** A tenth of a unit is what strips and pens tell apart. */
const tenth = (pH: number): string => formatFixed(pH, 1);
const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
