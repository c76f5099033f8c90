import type { TextFile } from '../../desk/bench-files.js';
import { seasonFor } from '../../desk/season.js';
import type { Problem } from '../../problem.js';
import { renderHtml } from '../../report/html.js';
import { seasonSheet } from '../../report/season.js';
import { seasonCalendar } from '../../report/season-calendar.js';
import type { Block } from '../../report/sheet.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';

/** A year of feed as `season` has it: its report, the page to print, and its dates for a calendar. */
export interface SeasonView {
  title: string;
  blocks: Block[];
  page: string;
  calendar: string;
  met: boolean;
  warnings: readonly Problem[];
}

/**
 * @param asked from: the first day, `2026-12-01`; hemisphere: empty as the bench says; buy: first what every feed of the year can be mixed from;
 * lead: days from an order to its parcel, empty as usual; market: what is for sale, null the catalog
 */
export async function seasonQuestion(asked: {
  texts: BenchTexts;
  from: string;
  hemisphere: string;
  buy: boolean;
  lead: string;
  market: TextFile | null;
}): Promise<SeasonView> {
  const { texts, from, hemisphere, buy, lead, market } = asked;
  const files = { ...filesOf(texts), ...(buy && market ? { market } : {}) };
  const { met, result, warnings } = await seasonFor(files, {
    from,
    ...(hemisphere === '' ? {} : { hemisphere }),
    ...(buy ? { buy } : {}),
    ...(lead.trim() === '' ? {} : { lead }),
  });
  const sheet = seasonSheet(result);
  return { ...sheet, page: renderHtml([sheet]), calendar: seasonCalendar(result), met, warnings };
}
