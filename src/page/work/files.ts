import type { BenchFiles, TextFile } from '../../desk/bench-files.js';
import type { BenchTexts, FileName } from '../state.js';

/** The texts as the desk takes them; a byte-order mark stays in the file and is not read. */
export function filesOf(texts: BenchTexts): BenchFiles {
  const file = (name: FileName): TextFile | undefined => {
    const text = texts[name];
    return text === undefined ? undefined : { name, text: text.replace(/^\uFEFF/, '') };
  };
  const [bench, shelf, journal] = [file('bench.yaml'), file('shelf.csv'), file('journal.csv')];
  return {
    ...(bench ? { bench } : {}),
    ...(shelf ? { shelf } : {}),
    ...(journal ? { journal } : {}),
    shelfPlace: 'shelf.csv',
    journalPlace: 'journal.csv',
  };
}
