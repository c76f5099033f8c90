import type { GivenResult } from '../../src/blend/given.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { TISSUE_PER_NITROGEN } from '../reference/tissue.js';
import { type Case, filesOf } from './shelves.js';

/** What a nutritionist reads of a feed: shares 0…1, ratios by weight, EC in mS/cm, alkalinity in mg/L CaCO3. */
export interface Line {
  of: Case;
  mix: Extract<GivenResult, { status: 'made' }>;
  sure: number;
  shares: { nitrate: number; ammonium: number; urea: number; undeclared: number };
  ratios: { 'K:Ca': number; 'K:Mg': number; 'Ca:Mg': number };
  /** Per nitrogen, over that of tissue that suffices: 1 where a feed has the proportions of the tissue. */
  index: Record<string, number>;
  ec: number;
  alkalinity: number;
}

/** The feed that the desk gives for a case, as a line of the table. */
export async function lineOf(of: Case): Promise<Line> {
  // a feed to give is asked, so that every result is of that kind
  const [mix] = (await blendFeeds(filesOf(of), {})).results as GivenResult[];
  if (mix?.status !== 'made')
    throw new Error(`${of.plants} in ${of.medium}, ${of.phase}, on ${of.shelf}: ${mix?.status}`);
  const at = (nutrient: Nutrient): number => mix.elements.find(({ element }) => element === nutrient)?.mgPerLitre ?? 0;
  const { nitrate, ammonium, urea, undeclared } = mix.nitrogenShares!;
  return {
    of,
    mix,
    sure: mix.given.sure.share,
    shares: { nitrate, ammonium, urea, undeclared },
    ratios: { 'K:Ca': at('K') / at('Ca'), 'K:Mg': at('K') / at('Mg'), 'Ca:Mg': at('Ca') / at('Mg') },
    index: Object.fromEntries(
      Object.entries(TISSUE_PER_NITROGEN).map(([n, ratio]) => [n, at(n as Nutrient) / at('N') / ratio]),
    ),
    ec: mix.ec.mSPerCm,
    alkalinity: mix.alkalinity?.mgCaCO3PerLitre ?? 0,
  };
}

/** The table as text, one case a line. */
export function tableText(lines: readonly Line[]): string {
  const elements = Object.keys(TISSUE_PER_NITROGEN);
  const head = ['case', 'NO3', 'NH4', 'urea', 'K:Ca', 'K:Mg', 'Ca:Mg', ...elements, 'EC', 'alk', 'sure'];
  const rows = lines.map((line) => [
    `${line.of.plants}, ${line.of.medium}, ${line.of.phase}`,
    ...[line.shares.nitrate, line.shares.ammonium, line.shares.urea].map((share) => `${Math.round(share * 100)} %`),
    ...Object.values(line.ratios).map((ratio) => ratio.toFixed(1)),
    ...elements.map((element) => line.index[element]!.toFixed(2)),
    line.ec.toFixed(2),
    String(Math.round(line.alkalinity)),
    `${Math.round(line.sure * 100)} %`,
  ]);
  const widths = head.map((_, i) => Math.max(...[head, ...rows].map((row) => row[i]!.length)));
  const text = (row: string[]): string =>
    row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  ');
  return lines
    .flatMap((line, i) =>
      (line.of.shelf === lines[i - 1]?.of.shelf ? [] : ['', `Shelf: ${line.of.shelf}`, text(head)]).concat(
        text(rows[i]!),
      ),
    )
    .join('\n');
}
