import { parse } from 'csv-parse/sync';

/** The rows of a shelf, read by a parser of the registry. */
export const parseCsv = (text: string): Record<string, string>[] =>
  parse(text, { columns: true, comment: '#', comment_no_infix: true, skip_empty_lines: true });
