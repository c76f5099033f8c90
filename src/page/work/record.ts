import { entryFor } from '../../desk/journal/add.js';
import type { Wishes } from '../../desk/wishes.js';
import { journalEntrySheet } from '../../report/journal.js';
import type { Block } from '../../report/sheet.js';
import { withEntry } from '../../year/journal/write.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';

/** A batch that was mixed: bench and shelf as they were then, the journal as it is now. */
export interface RecordAsked {
  texts: BenchTexts;
  judgedBy: Wishes;
  readings: string[];
  pH: string;
  /** The day, `2026-11-28`. */
  on: string;
}

/** The journal with an entry more, and what is told of it. */
export interface RecordView {
  journal: string;
  title: string;
  blocks: Block[];
}

/** What `journal add` would write for a batch; nothing is written here. */
export async function recordQuestion({ texts, judgedBy, readings, pH, on }: RecordAsked): Promise<RecordView> {
  const wishes: Wishes = {
    ...judgedBy,
    ...(readings.length === 0 ? {} : { reading: readings }),
    ...(pH.trim() === '' ? {} : { ph: pH }),
  };
  const { result } = await entryFor(filesOf(texts), wishes, on);
  const { entry, text } = withEntry(texts['journal.csv'] ?? '', result.draft, 'journal.csv');
  const { title, blocks } = journalEntrySheet({ ...result, entry });
  return { journal: text, title, blocks };
}
