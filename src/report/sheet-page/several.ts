import type { SheetOfFeed } from '../../sheet/sheet-types.js';
import { severalSheets } from '../several.js';
import { list, type Sheet } from '../sheet.js';
import { volumeText } from '../volume.js';
import { sheetReport } from './text.js';

/** Mixing sheets for the terminal: an overview first where there are several, and the cautions once. */
export const sheetReports = (sheets: readonly SheetOfFeed[]): Sheet[] => severalSheets(sheets, sheetReport, overview);

function overview(sheets: readonly SheetOfFeed[]): Sheet {
  const mixed = sheets.filter(({ status }) => status !== 'cannot').length;
  return {
    title:
      mixed === sheets.length ? `${mixed} mixing sheets` : `${mixed} of ${sheets.length} feeds have a mixing sheet`,
    blocks: [
      list(
        sheets.map((sheet) =>
          sheet.status === 'cannot'
            ? `${sheet.feed.name}: nothing to mix`
            : `${sheet.feed.name}: ${sheet.steps.map(({ measures, name }) => `${measures[0].words} ${name}`).join(' + ')} in ${volumeText(sheet.litres)}`,
        ),
      ),
    ],
  };
}
