import { mixingSheets } from '../../desk/mixing-sheets.js';
import { renderHtml } from '../../report/html.js';
import { labelHtml, sheetHtml } from '../../report/sheet-page/index.js';
import { EXAMPLE } from '../example.js';
import { benchQuestion } from './bench.js';
import { feedQuestion } from './feed.js';
import { filesOf } from './files.js';
import { saltsQuestion, shelfQuestion } from './shelf.js';
import { wordsQuestion } from './words.js';
import { sinkQuestion } from './sink.js';

/** For the build: what a first visit asks, answered beforehand by the worker's own code, and the styles of what the page prints. */
export async function first(): Promise<{ answers: Record<string, unknown>; styles: string[] }> {
  const bench = { texts: EXAMPLE };
  const feed = { texts: EXAMPLE, feed: null, tuned: { way: 'given' as const } };
  const sink = { ...feed, mix: '' };
  const { results } = await mixingSheets(filesOf(EXAMPLE), {});
  const sheets = results.flatMap((sheet) => (sheet.status === 'cannot' ? [] : [sheet]));
  const styles = [sheetHtml(sheets), labelHtml(sheets), renderHtml([])].map(
    (html) => /<style>([\s\S]*?)<\/style>/.exec(html)![1]!,
  );
  return {
    answers: {
      [JSON.stringify(['salts', {}])]: await saltsQuestion({}),
      [JSON.stringify(['printed', { label: '' }])]: null,
      [JSON.stringify(['shelf', bench])]: await shelfQuestion(bench),
      [JSON.stringify(['words', {}])]: await wordsQuestion({}),
      [JSON.stringify(['bench', bench])]: await benchQuestion(bench),
      [JSON.stringify(['feed', feed])]: await feedQuestion(feed),
      [JSON.stringify(['sink', sink])]: await sinkQuestion(sink),
    },
    styles,
  };
}
