import { mixingSheets } from '../../desk/mixing-sheets.js';
import { renderHtml } from '../../report/html.js';
import { labelHtml, sheetHtml } from '../../report/sheet-page/index.js';
import { EXAMPLE } from '../example.js';
import { keyOf } from '../key.js';
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
  const sink = { ...feed, mix: '', by: '' as const };
  const { results } = await mixingSheets(filesOf(EXAMPLE), {});
  const sheets = results.flatMap((sheet) => (sheet.status === 'cannot' ? [] : [sheet]));
  const styles = [sheetHtml(sheets), labelHtml(sheets), renderHtml([])].map(
    (html) => /<style>([\s\S]*?)<\/style>/.exec(html)![1]!,
  );
  return {
    answers: {
      [keyOf('salts', {})]: await saltsQuestion({}),
      [keyOf('printed', { label: '' })]: null,
      [keyOf('shelf', bench)]: await shelfQuestion(bench),
      [keyOf('words', {})]: await wordsQuestion({}),
      [keyOf('bench', bench)]: await benchQuestion(bench),
      [keyOf('feed', feed)]: await feedQuestion(feed),
      [keyOf('sink', sink)]: await sinkQuestion(sink),
    },
    styles,
  };
}
