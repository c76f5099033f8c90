import { type Checked, type Problem, problem } from '../problem.js';
import { choiceCell, listCell, requiredCell, uniqueIds } from './cells.js';
import { splitCsv } from './csv.js';
import { capped } from './limits.js';
import { Row, readTable } from './table.js';

/** A source that rows of the catalog point to. */
export interface Reference {
  key: string;
  citation: string;
  read: HowMuch;
}

/** How much of a source was seen; a row is graded no higher. */
type HowMuch = (typeof SEEN)[number];

const SEEN = ['paper', 'abstract', 'excerpt', 'table', 'memory'] as const;

/** Keys that stand for no source, and say so. */
export const NO_SOURCE = ['memory', 'common-practice', 'invented', 'computed'] as const;

/** Reads `references.csv`. */
export function readReferences(text: string, file = 'catalog/references.csv'): Checked<Reference[]> {
  const problems: Problem[] = [];
  const rows = readTable(text, file, COLUMNS, problems).rows;
  const references = rows.map((row) => ({
    key: requiredCell(row, 'key', problems),
    citation: requiredCell(row, 'citation', problems),
    read: choiceCell(row, 'read', READ, problems) ?? 'memory',
  }));
  problems.push(...uniqueIds(rows.map((row, i) => ({ id: references[i]!.key, where: row.where('key') }))));
  return capped(references, problems);
}

/**
 * Every row of a file of the catalog that points to nothing, to a key that is not there, or that is graded higher than what was seen of its
 * sources: `trial` and `handbook` need one that was read.
 */
export function unreferenced(text: string, file: string, references: readonly Reference[]): Problem[] {
  const problems: Problem[] = [];
  const known = new Map(references.map((one) => [one.key, one]));
  for (const row of rowsOf(text, file, problems)) {
    const keys = listCell(row, 'refs');
    const missing = keys.filter((key) => !known.has(key));
    if (keys.length === 0)
      problems.push(
        problem('refs-missing', row.where('refs'), 'a row without a key', EXPECTED, 'Point to a source, or to memory.'),
      );
    for (const key of missing)
      problems.push(problem('refs-unknown', row.where('refs'), `"${key}"`, EXPECTED, 'Add its citation there.'));
    const evidence = row.text('evidence') ?? '';
    const read = keys.some((key) => key === 'computed' || (known.get(key)?.read ?? 'memory') !== 'memory');
    if ((evidence === 'trial' || evidence === 'handbook') && missing.length === 0 && !read)
      problems.push(
        problem(
          'refs-unread',
          row.where('evidence'),
          `"${evidence}" by memory alone`,
          'a source that was read',
          'Grade it lower, or cite one.',
        ),
      );
  }
  return problems;
}

const EXPECTED = 'a key of references.csv';

/** The rows of any file of the catalog, by the names in its header. */
function rowsOf(text: string, file: string, problems: Problem[]): Row[] {
  const csv = splitCsv(text, file, () => true, problems);
  if (!csv) return [];
  const names = csv.header.cells;
  return csv.rows.map(({ line, cells }) => {
    const filled = names.flatMap((name, i): [string, string][] => (cells[i] ? [[name, cells[i]]] : []));
    return new Row(file, line, new Map(filled), csv.delimiter === ';', new Set(names));
  });
}

const READ: ReadonlyMap<string, HowMuch> = new Map(SEEN.map((seen) => [seen, seen]));
const COLUMNS = [
  { name: 'key', required: true },
  { name: 'citation', required: true },
  { name: 'read', required: true },
];
