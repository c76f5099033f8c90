import type { AssessResult } from '../advice/types.js';
import { cautionBlocks } from './blend.js';
import { missLines, mixBlocks, type PenScale, waterText } from './mix.js';
import { assessNoteSays } from './says/advice.js';
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
      ...verdict(result),
      ...mixBlocks(result, { ...header, batchLitres: result.volumeLitres }, pen),
      ...section('Notes', result.notes.map(assessNoteSays)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

function verdict(result: AssessResult): Block[] {
  if (result.status === 'no programme') return [];
  if (result.status === 'within') return [paragraph('Within every limit of the programme.', 'good')];
  return [heading('Outside the programme'), list(missLines(result.misses))];
}
