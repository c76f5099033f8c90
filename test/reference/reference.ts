import { readFileSync } from 'node:fs';

/** Rows of a reference table as header → cell; its first line is a comment that names the source. */
export function referenceRows(name: string): Map<string, string>[] {
  const lines = readFileSync(new URL(name, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  const [header, ...rows] = lines.filter((line) => !line.startsWith('#')).map((line) => line.split(','));
  return rows.map((cells) => new Map(header!.map((column, i) => [column, cells[i] ?? ''])));
}
