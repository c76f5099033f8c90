import type { AssessJudged, AssessResult } from '../advice/types.js';
import type { Grade } from '../feed/grade.js';
import { cautionBlocks } from './blend.js';
import { percent } from './figures.js';
import { missLines, mixBlocks, type PenScale, waterText } from './mix.js';
import { assessNoteSays } from './says/advice.js';
import { partByPenSays } from './says/by-pen.js';
import { changeSays, habitSays, madeRightSays } from './says/habit.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet } from './sheet.js';
import { volumeText } from './volume.js';

/** What a recipe delivers, against a programme where one is named. */
export function assessSheet(result: AssessResult, pen: PenScale | null = null): Sheet {
  const feed = result.status === 'no programme' ? null : result.feed;
  const volume = volumeText(result.volumeLitres);
  const header = feed ?? { batchLitres: result.volumeLitres, currency: '' };
  return {
    title: result.status === 'no programme' ? 'What the recipe delivers' : `${result.feed.name}: ${habitSays(result)}`,
    blocks: [
      facts(
        ['Recipe', result.recipe],
        ['In', volume],
        ['Judged as', feed === null ? null : `${feed.plants} in ${feed.medium}, ${feed.phase}, at ${feed.strength}`],
        ['Water', waterText(result.waters)],
      ),
      ...penBlocks(result),
      ...verdict(result, pen),
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

/** What it lacks or overdoes, by grade; then the one change that helps most, and the reading that tells that it was made right. */
function verdict(result: AssessResult, pen: PenScale | null): Block[] {
  if (result.status === 'no programme') return [];
  const { graded, change, ec } = result;
  const of = (grade: Grade) => missLines(graded.filter((miss) => miss.grade === grade));
  return [
    ...tooStrong(result),
    ...section('What hurts', of('harm')),
    ...section('What plants need', of('need')),
    ...section('By convention', of('custom')),
    ...(change === null
      ? []
      : section('The one change that helps most', [
          changeSays(change),
          `Made right with it, ${madeRightSays(change.ec, pen)}.`,
        ])),
    paragraph(`Made right as it is, ${madeRightSays(ec, pen)}.`),
  ];
}
