import { mixingSheets } from '../../desk/mixing-sheets.js';
import type { Wishes } from '../../desk/wishes.js';
import { noSheetPage } from '../../report/sheet-page/no-sheet.js';
import { pageOf } from '../../report/sheet-page/index.js';
import { volumeText } from '../../report/volume.js';
import type { SinkView } from '../sheet-view.js';
import type { BenchTexts, Tuned } from '../state.js';
import { benchQuestion } from './bench.js';
import { wishesOf } from './feed.js';
import { filesOf } from './files.js';
import { stepSums } from './sink-sums.js';

/** What the sink is asked for: the feed as it stands in the place of feeds, and for how much (`4 L`; empty: as the bench says). */
export interface SinkAsked {
  texts: BenchTexts;
  feed: string | null;
  tuned: Tuned;
  mix: string;
  by: '' | 'pen';
}

/** The mixing sheet of the feed that is looked at. */
export async function sinkQuestion(asked: SinkAsked): Promise<SinkView> {
  const wishes = await sheetWishes(asked);
  const { results, warnings } = await mixingSheets(filesOf(asked.texts), wishes);
  const sheet = results[0]!;
  if (sheet.status === 'cannot') return { ...NOTHING, ...noSheetPage(sheet), warnings };
  const page = pageOf(sheet);
  const sums = await stepSums(asked.texts, wishes, sheet);
  return {
    ...page,
    lines: page.lines.map((line) => ({
      ...line,
      sum: line.step === null || line.reading === null ? null : (sums.get(line.step) ?? null),
    })),
    litres: volumeText(sheet.litres),
    products: sheet.steps.map(({ id, name }, i) => ({ step: i + 2, id, name })),
    judgedBy: sheet.code === null ? null : { sheet: sheet.code },
    warnings,
  };
}

const NOTHING: Omit<SinkView, 'title' | 'plants' | 'alert' | 'notes' | 'warnings'> = {
  litres: '',
  facts: [],
  pen: '',
  twoScales: false,
  lines: [],
  tolerance: '',
  keeps: '',
  cautions: [],
  products: [],
  judgedBy: null,
};

/** A sheet is for one feed: the first of the bench where none was chosen. */
export async function sheetWishes({ texts, feed, tuned, mix, by }: SinkAsked): Promise<Wishes> {
  const { feeds } = await benchQuestion({ texts });
  return {
    ...wishesOf({ feed: feed ?? feeds[0]?.name ?? null, tuned }),
    ...(mix.trim() === '' ? {} : { mix }),
    ...(by === '' ? {} : { by }),
  };
}
