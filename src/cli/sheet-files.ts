import { parsePaper } from '../desk/options/paper.js';
import { type Problem, problem } from '../problem.js';
import { labelHtml, labelText, sheetCsv, sheetHtml } from '../report/sheet-page/index.js';
import type { Sheet } from '../sheet/mixing-sheet.js';
import { browserOf, noBrowser, printPdf } from './browser.js';
import type { Given } from './command.js';
import type { Io } from './io.js';
import { writeText } from './write-file.js';

/** The files that a mixing sheet is written to: page, PDF, CSV and the label for the jug; with what stands in their way. */
export function sheetFiles(
  given: Given,
  io: Io,
): { problems: Problem[]; write: (sheets: readonly Sheet[]) => Promise<void> } {
  const pdf = given.text('pdf');
  const word = given.text('paper');
  const paper = word === undefined ? undefined : parsePaper(word, { field: '--paper' });
  const problems = paper === undefined ? [] : paper.ok ? paper.warnings : paper.problems;
  const size = paper?.ok ? paper.value : null;
  return {
    problems: [
      ...problems,
      ...(word !== undefined && given.text('html') === undefined && pdf === undefined ? [paperAlone()] : []),
      ...(pdf !== undefined && browserOf(io.env) === null ? [noBrowser()] : []),
    ],
    async write(sheets) {
      if (sheets.length === 0) return;
      const write = (name: string, text: (file: string) => string): void => {
        const file = given.text(name);
        if (file !== undefined) writeText(file, text(file), io.cwd);
      };
      write('html', () => sheetHtml(sheets, size));
      write('csv', () => sheets.map(sheetCsv).join('\r\n'));
      const mixed = sheets.flatMap((sheet) => (sheet.status === 'cannot' ? [] : [sheet]));
      if (mixed.length > 0) write('label', (file) => (/\.html?$/i.test(file) ? labelHtml(mixed) : labelText(mixed)));
      if (pdf !== undefined) await printPdf(sheetHtml(sheets, size ?? 'a4'), pdf, io);
    },
  };
}

const paperAlone = (): Problem =>
  problem('paper-alone', { field: '--paper' }, '--paper alone', '--html or --pdf with it', 'Add --html FILE.');
