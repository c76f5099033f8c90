/** The mixing sheet in all its forms. */
export { sheetCsv } from './csv.js';
export { sheetHtml } from './html.js';
export { labelHtml, labelText } from './label.js';
export { pageOf, type SheetPage } from './page.js';
export { PAPERS, type Paper } from './style.js';
export { sheetReports } from './several.js';
export { sheetReport, sheetText } from './text.js';
