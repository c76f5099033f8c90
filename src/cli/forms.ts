import { renderCsv } from '../report/csv.js';
import { renderHtml } from '../report/html.js';
import type { Sheet } from '../report/sheet.js';
import { renderText } from '../report/text.js';
import type { TextSetting } from './io.js';
import { jsonText } from '../report/json-text.js';

/** The forms of an answer; each is the ending of a file. */
export const FORMS = ['txt', 'json', 'csv', 'html', 'svg', 'pdf', 'ics'] as const;
export type Form = (typeof FORMS)[number];

/** An answer in the forms that it can take; `pdf` asks the browser of the machine. */
export type Forms = { [F in Form]?: (set: TextSetting) => string | Promise<Uint8Array> };

/** What is printed, and the files that are written beside it. */
export interface Outputs {
  print: Form;
  files: readonly { path: string; form: Form }[];
  replace: boolean;
}

/** The forms of sheets, with the object behind them. */
export const ofSheets = (json: object, sheets: readonly Sheet[]): Forms => ({
  txt: (set) => textOf(sheets, set),
  json: () => jsonText(json),
  csv: () =>
    sheets
      .map(renderCsv)
      .filter((tables) => tables !== '')
      .join('\r\n'),
  html: (set) => renderHtml(sheets, set),
});

/** Reports one under the other; where something is left out, the option that shows it. */
export function textOf(sheets: readonly Sheet[], set: TextSetting): string {
  const told = sheets.map((sheet) => renderText(sheet, set));
  const hasMore = !set.full && sheets.some((sheet) => sheet.blocks.some((block) => block.full));
  return `${told.join('\n\n')}${hasMore ? '\nMore with --full.\n' : ''}`;
}

/** The forms of any sheet. */
export const SHEET_FORMS: readonly Form[] = ['txt', 'json', 'csv', 'html'];

/** True where the answer is asked for in that form, printed or written. */
export const asks = ({ print, files }: Outputs, form: Form): boolean =>
  print === form || files.some((file) => file.form === form);
