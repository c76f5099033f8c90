import type { JournalShown } from '../year/journal/results.js';
import { renderHtml } from './html.js';
import { journalSvg } from './journal-svg.js';
import type { Sheet } from './sheet.js';

/** The journal as a page with its picture below the tables; nothing runs in it. */
export const journalPage =
  (sheet: Sheet, { feeds, scale }: JournalShown) =>
  (set: { full?: boolean }): string =>
    renderHtml([sheet], set, [journalSvg(feeds, scale)]);
