import type { MixingSheet, SheetOfFeed } from '../../sheet/sheet-types.js';
import { formatNumber } from '../../units/index.js';
import { renderCsv } from '../csv.js';
import { effectSays, waterNames } from '../says/sheet.js';
import { type Sheet, table } from '../sheet.js';
import { noSheetBlocks } from './no-sheet.js';
import { pageOf, type SheetPage } from './page.js';
import { refuseUnlike } from '../../wrong-type.js';

/** The steps, the readings to expect and the ladder of slips as CSV; numbers in full, for reckoning on. */
export const sheetCsv = (sheet: SheetOfFeed): string => {
  refuseUnlike({ sheet }, { sheet: { status: 'text', feed: { name: 'text' } } });
  return renderCsv(sheet.status === 'cannot' ? noSheetBlocks(sheet) : csvBlocks(sheet, pageOf(sheet)));
};

function csvBlocks(sheet: MixingSheet, page: SheetPage): Sheet {
  const n = (value: number | null): string => (value === null ? '' : formatNumber(value, 8));
  const reading = (r: { mSPerCm: number; pen: number | null; low: number; high: number }): string[] =>
    [r.mSPerCm, r.low, r.high, r.pen].map(n);
  // numbered as on the sheet: the water is the first
  const rows = sheet.steps.map((step, i) => [
    String(i + 2),
    step.id,
    step.name,
    step.measures[0].words,
    n(step.grams),
    n(step.millilitres),
    step.measures
      .slice(1)
      .filter((m) => m.keeps)
      .map((m) => m.words)
      .join('; '),
    n(step.wanted),
    effectSays(step),
    n(step.litres),
    ...reading(step.reading),
  ]);
  const none = ['', '', '', '', '', ''];
  const water = ['1', '', waterNames(sheet.water), ...none, n(sheet.firstLitres), ...reading(sheet.water.reading)];
  const end = ['end', '', 'at the mark', '', '', '', '', '', '', n(sheet.litres), ...reading(sheet.end.reading)];
  const heads = 'step,id,product,amount,g,mL,or,wanted,effect,litres in the can,mS/cm,low,high,pen'.split(',');
  return {
    title: page.title,
    blocks: [
      { kind: 'heading', text: 'steps' },
      table(heads, [water, ...rows, end]),
      { kind: 'heading', text: 'if the reading is off' },
      table(
        [page.pen, 'mS/cm', 'what it may be'],
        page.ladder.map(({ pen, ec, says }) => [pen, ec, says]),
      ),
      { kind: 'heading', text: 'what the can holds' },
      { kind: 'bars', unit: 'mg/L', bars: page.bars },
    ],
  };
}
