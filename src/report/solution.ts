import { cloudingSays } from './says/clouding.js';
import { alkalinitySays, ironSays } from './says/can.js';
import type { Mix } from '../feed/results.js';
import { figure } from './figures.js';
import { acidityLines, meetingSays, phCaution, phSays } from './says/solution.js';
import { type Block, heading, list, paragraph } from './sheet.js';

/** pH, what the feed does to it over time, and whether the can stays clear. */
export function solutionBlocks(
  mix: Pick<Mix, 'ph' | 'acidity' | 'alkalinity' | 'iron' | 'precipitation' | 'meetings'>,
): Block[] {
  const { ph, acidity } = mix;
  const cloudy = mix.precipitation.filter((line) => line.verdict !== 'clear');
  const worst = cloudy.some((line) => line.verdict === 'will cloud');
  return [
    heading('In the can (the feed solution) and after'),
    list([phLine(ph), acidityLine(acidity), ...acidityLines(acidity), ...canLines(mix)]),
    cloudy.length === 0
      ? paragraph('The can stays clear: nothing precipitates.')
      : paragraph(cloudy.map((line) => sentence(cloudingSays(line))).join(' '), worst ? 'bad' : 'plain'),
    ...(mix.meetings ? [list(mix.meetings.map(meetingSays))] : []),
  ];
}

/** Alkalinity and iron against what medium and pH allow; what is wrong with them stands among the cautions. */
function canLines({ alkalinity, iron }: Pick<Mix, 'alkalinity' | 'iron'>): string[] {
  return [
    ...(alkalinity === null || alkalinity.over !== null ? [] : [alkalinitySays(alkalinity)]),
    ...(iron === null || iron.held < iron.mgPerLitre ? [] : [ironSays(iron)]),
  ];
}

function phLine(ph: Mix['ph']): string {
  return `pH ${phSays(ph)}. ${phCaution(ph)}`;
}

function acidityLine({ mgCaCO3PerLitre, low, high, ifAllNitrifies }: Mix['acidity']): string {
  const own = sideOf(mgCaCO3PerLitre);
  // the side is named again only where it is the other one
  const as = (mg: number): string => `${sideOf(mg) === own ? '' : `${sideOf(mg)} `}${figure(Math.abs(mg))}`;
  const worst = ifAllNitrifies > 0.5 ? `; if all ammonium and urea turned to nitrate, ${as(ifAllNitrifies)}` : '';
  const [from, to] = high <= 0 ? [high, low] : [low, high];
  const open = figure(low) === figure(high) ? '' : ` (labels leave open ${as(from)} to ${as(to)})`;
  return `Potential ${own} ${as(mgCaCO3PerLitre)} mg CaCO3 per litre${open}${worst}.`;
}

const sideOf = (mg: number): 'acidity' | 'basicity' => (mg < 0 ? 'basicity' : 'acidity');

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
