import { parsePaper } from '../desk/options/paper.js';
import type { Words } from '../desk/options/table.js';
import type { Problem } from '../problem.js';
import { sheetJson } from '../report/json/sheet.js';
import { labelHtml, labelText, type Paper, sheetCsv, sheetHtml, sheetReports } from '../report/sheet-page/index.js';
import type { SheetOfFeed } from '../sheet/mixing-sheet.js';
import { browserOf, noBrowser, pdfOf } from './browser.js';
import type { Io } from './io.js';
import { jsonText } from '../report/json-text.js';
import { asks, type Form, type Forms, type Outputs, textOf } from './forms.js';

/** The forms of a mixing sheet, or of the label for the jug. */
export const formsOfSheet = ({ jugLabel }: Words): readonly Form[] =>
  jugLabel ? ['txt', 'html', 'pdf'] : ['txt', 'json', 'csv', 'html', 'pdf'];

/** The paper to print on, with what stands in the way of printing. */
export function paperOf(
  { paper: word }: Words,
  outputs: Outputs,
  { env }: Io,
): { paper: Paper | null; problems: Problem[] } {
  const read = word === undefined ? undefined : parsePaper(word, { field: '--paper' });
  return {
    paper: read?.ok ? read.value : null,
    problems: [
      ...(read === undefined || read.ok ? [] : read.problems),
      ...(asks(outputs, 'pdf') && browserOf(env) === null ? [noBrowser()] : []),
    ],
  };
}

/** Sheets as text, JSON, CSV, a page and a PDF; or their labels as text, a page and a PDF. Of a feed without a sheet the text says why. */
export function sheetForms(
  sheets: readonly SheetOfFeed[],
  paper: Paper | null,
  { jugLabel }: Words,
  { env }: Io,
): Forms {
  const mixed = sheets.flatMap((sheet) => (sheet.status === 'cannot' ? [] : [sheet]));
  if (mixed.length > 0 && jugLabel) {
    return { txt: () => labelText(mixed), html: () => labelHtml(mixed), pdf: () => pdfOf(labelHtml(mixed), env) };
  }
  const told: Forms = {
    txt: (set) => textOf(sheetReports(sheets), set),
    json: () => jsonText(sheetJson(sheets[0]!)),
  };
  if (jugLabel) return told;
  return {
    ...told,
    csv: () => sheets.map(sheetCsv).join('\r\n'),
    html: () => sheetHtml(sheets, paper),
    pdf: () => pdfOf(sheetHtml(sheets, paper ?? 'a4'), env),
  };
}
