import { mixingSheets } from '../../desk/mixing-sheets.js';
import { labelHtml, sheetHtml } from '../../report/sheet-page/index.js';
import { filesOf } from './files.js';
import { type SinkAsked, sheetWishes } from './sink.js';

/** A page to print, whole and in one file, as `sheet --to` writes it; null where there is nothing to mix. */
export interface PrintView {
  name: string;
  html: string | null;
}

/** The mixing sheet or the label for the jug. */
export async function printQuestion({ what, ...asked }: SinkAsked & { what: 'sheet' | 'label' }): Promise<PrintView> {
  const { results } = await mixingSheets(filesOf(asked.texts), await sheetWishes(asked));
  if (what === 'sheet') return { name: 'sheet.html', html: sheetHtml(results) };
  const made = results.filter((sheet) => sheet.status !== 'cannot');
  return { name: 'label.html', html: made.length === 0 ? null : labelHtml(made) };
}
