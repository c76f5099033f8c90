import type { AssessJudged, AssessResult } from '../advice/types.js';
import { cautionBlocks } from './blend.js';
import { percent } from './figures.js';
import { missLines, mixBlocks, type PenScale, waterText } from './mix.js';
import { assessNoteSays } from './says/advice.js';
import { partByPenSays } from './says/by-pen.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet } from './sheet.js';
import { volumeText } from './volume.js';

/** What a recipe delivers, against a programme where one is named. */
export function assessSheet(result: AssessResult, pen: PenScale | null = null): Sheet {
  const feed = result.status === 'no programme' ? null : result.feed;
  const volume = volumeText(result.volumeLitres);
  const header = feed ?? { batchLitres: result.volumeLitres, currency: '' };
  return {
    title: feed === null ? 'What the recipe delivers' : `${feed.name}: what the recipe delivers`,
    blocks: [
      facts(
        ['Recipe', result.recipe],
        ['In', volume],
        ['Judged as', feed === null ? null : `${feed.plants} in ${feed.medium}, ${feed.phase}, at ${feed.strength}`],
        ['Water', waterText(result.waters)],
      ),
      ...penBlocks(result),
      ...verdict(result),
      ...mixBlocks(result, { ...header, batchLitres: result.volumeLitres }, pen),
      ...section('Notes', result.notes.map(assessNoteSays)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

/** What the pen told, as amounts: how much a litre takes, and between what. */
function penBlocks({ byPen, volumeLitres: litres }: AssessResult): Block[] {
  if (byPen.length === 0) return [];
  return [
    heading('Told by the pen'),
    list(byPen.map((part) => partByPenSays(part, litres))),
    paragraph(
      'All the water is in the can from the start, and everything goes in in the order told. In brackets: between what, for what labels leave open and the 3 % of the conductivity model.',
    ),
  ];
}

/** A recipe stronger than its feed takes is not to be followed. */
function tooStrong({ mostShare, feed }: AssessJudged): Block[] {
  if (mostShare === null) return [];
  const most =
    mostShare === 0
      ? 'the water alone brings too much'
      : `at most ${percent(mostShare)} of these amounts, where nothing is too much for ${feed.name}`;
  return [paragraph(`Do not follow it; ${most}.`, 'bad')];
}

function verdict(result: AssessResult): Block[] {
  if (result.status === 'no programme') return [];
  if (result.status === 'within') return [paragraph('Within every limit of the programme.', 'good')];
  return [...tooStrong(result), heading('Outside the programme'), list(missLines(result.misses))];
}
