import { parse } from 'csv-parse/browser/esm/sync';

/** How a text that may be long is gone through. */
export interface RecordsAsked {
  delimiter: ',' | ';' | '\t';
  /** Records without this word are passed over. */
  having?: string;
  /** A record and the line it begins at, counted from 1. Nothing of it is kept. */
  on: (cells: readonly string[], line: number) => void;
  /** A line in which quotes do not close, or stand where none may. */
  onFault: (line: number, text: string) => void;
}

/**
 * Goes through the records of a CSV text one by one, keeping none: blank lines and lines that begin with `#` are passed over. A line
 * without a quote is split where it stands, which is what makes a long text quick; the others go to csv-parse, many at a time.
 */
export function eachRecord(text: string, { delimiter, having, on, onFault }: RecordsAsked): void {
  const quoted = new QuotedRecords(delimiter, on, onFault);
  let line = 0;
  for (let at = text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0; at < text.length; ) {
    line += 1;
    const record = recordAt(text, at);
    if (record === null) {
      quoted.flush();
      const end = endOfLine(text, at);
      onFault(line, text.slice(at, end));
      at = end + 1;
      continue;
    }
    const from = at;
    at = record.end + 1;
    const body = text.slice(from, text.charCodeAt(record.end - 1) === RETURN ? record.end - 1 : record.end);
    const passed = body === '' || body.charCodeAt(0) === HASH || (having !== undefined && !body.includes(having));
    if (!passed && record.quotes > 0) quoted.put(body, line);
    else if (!passed) {
      quoted.flush();
      on(body.split(delimiter), line);
    }
    line += record.lines - 1;
  }
  quoted.flush();
}

const BYTE_ORDER_MARK = 0xfeff;
const RETURN = 13;
const HASH = 35;
const QUOTE = '"';
/** More lines than these are no one record: a quote was left open. */
const MOST_LINES = 40;
/** Records that csv-parse is given at once. */
const AT_ONCE = 256;

function endOfLine(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end < 0 ? text.length : end;
}

/** Where the record that begins here ends; null where its quotes do not close within a few lines. */
function recordAt(text: string, from: number): { end: number; lines: number; quotes: number } | null {
  let quotes = 0;
  let start = from;
  for (let lines = 1; lines <= MOST_LINES; lines += 1) {
    const end = endOfLine(text, start);
    for (let at = text.indexOf(QUOTE, start); at >= 0 && at < end; at = text.indexOf(QUOTE, at + 1)) quotes += 1;
    if (quotes % 2 === 0) return { end, lines, quotes };
    if (end === text.length) return null;
    start = end + 1;
  }
  return null;
}

/** Records with quotes, handed to csv-parse in bunches; where a bunch cannot be read, one by one. */
class QuotedRecords {
  private bodies: string[] = [];
  private lines: number[] = [];

  constructor(
    private readonly delimiter: string,
    private readonly on: RecordsAsked['on'],
    private readonly onFault: RecordsAsked['onFault'],
  ) {}

  put(body: string, line: number): void {
    this.bodies.push(body);
    this.lines.push(line);
    if (this.bodies.length === AT_ONCE) this.flush();
  }

  flush(): void {
    const { bodies, lines } = this;
    if (bodies.length === 0) return;
    [this.bodies, this.lines] = [[], []];
    const all = this.read(bodies.join('\n'));
    if (all?.length === bodies.length) {
      for (const [i, cells] of all.entries()) this.on(cells, lines[i]!);
      return;
    }
    bodies.forEach((body, i) => {
      const [cells, ...more] = this.read(body) ?? [];
      if (cells === undefined || more.length > 0) this.onFault(lines[i]!, body);
      else this.on(cells, lines[i]!);
    });
  }

  private read(text: string): string[][] | null {
    try {
      return parse(text, { delimiter: this.delimiter, record_delimiter: '\n', relax_column_count: true });
    } catch {
      // told by the caller with its line
      return null;
    }
  }
}
