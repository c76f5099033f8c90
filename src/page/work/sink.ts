import { mixingSheets } from '../../desk/mixing-sheets.js';
import type { Wishes } from '../../desk/wishes.js';
import type { Problem } from '../../problem.js';
import { noSheetPage } from '../../report/sheet-page/no-sheet.js';
import type { LineOnPage } from '../../report/sheet-page/lines.js';
import { pageOf } from '../../report/sheet-page/index.js';
import { litresText } from '../../report/sheet-page/readings.js';
import type { Fact } from '../../report/sheet.js';
import type { BenchTexts, Tuned } from '../state.js';
import { benchQuestion } from './bench.js';
import { wishesOf } from './feed.js';
import { filesOf } from './files.js';

/** What the sink is asked for: the feed as it stands in the place of feeds, and for how much (`4 L`; empty: as the bench says). */
export interface SinkAsked {
  texts: BenchTexts;
  feed: string | null;
  tuned: Tuned;
  mix: string;
}

/** A mixing sheet to work by, step by step: every text as `sheet` prints it. */
export interface SinkView {
  title: string;
  plants: string;
  /** `4 L`; empty where there is nothing to mix. */
  litres: string;
  alert: string[];
  facts: Fact[];
  /** The unit that the pen shows, and whether mS/cm stands beside it. */
  pen: string;
  twoScales: boolean;
  lines: LineOnPage[];
  tolerance: string;
  keeps: string;
  notes: string[];
  cautions: string[];
  /** Products by the number of their step. */
  products: { step: number; id: string; name: string }[];
  /** How `meter` and `journal` are told of this batch: by the code of its sheet. Null for a mix that every feed is diluted from: it has no limits of its own. */
  judgedBy: Wishes | null;
  warnings: readonly Problem[];
}

/** The mixing sheet of the feed that is looked at. */
export async function sinkQuestion(asked: SinkAsked): Promise<SinkView> {
  const wishes = await sheetWishes(asked);
  const { results, warnings } = await mixingSheets(filesOf(asked.texts), wishes);
  const sheet = results[0]!;
  if (sheet.status === 'cannot') return { ...NOTHING, ...noSheetPage(sheet), warnings };
  const page = pageOf(sheet);
  return {
    ...page,
    litres: litresText(sheet.litres),
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
export async function sheetWishes({ texts, feed, tuned, mix }: SinkAsked): Promise<Wishes> {
  const { feeds } = await benchQuestion({ texts });
  return {
    ...wishesOf({ feed: feed ?? feeds[0]?.name ?? null, tuned }),
    ...(mix.trim() === '' ? {} : { mix }),
  };
}
