import { closeSync, fstatSync, fsyncSync, ftruncateSync, readSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import { isStill, openBoth } from './change.js';
import { refusalOf } from './faults.js';
import { withLock } from './lock.js';
import { sweep } from './parts.js';
import { shown } from './read.js';
import { flushFolder, placeOf } from './write.js';

/** Lines for the end of a file, without their ends. */
export interface Lines {
  /** What a new file begins with. */
  head: readonly string[];
  /** Told what stands in the file, under its lock, where they hang on that: a number one more than the last. */
  lines: readonly string[] | ((standing: Standing) => readonly string[]);
  /**
   * True where a last line without an end is whole (the grower's editor leaves the end out); else it was cut short, and goes.
   * @param head as in `Standing`
   */
  isWhole: (line: string, head: string) => boolean;
}

/** What stands in a file that lines are added to. */
export interface Standing {
  /** Its first line that is neither empty nor a comment (`#`); empty where it has none, or where that is the last line without an end. */
  head: string;
  /** Whole lines from its end, a hundred at most, without their ends. */
  tail: readonly string[];
}

/**
 * Appends lines to a file named from `cwd`; when it returns they are on the disk. Where it fails, the file is as it was.
 * @returns the half line that an earlier process left and that was cut off; null where there was none
 * @throws Refusal where it cannot be written to
 */
export function appendLines(path: string, { head, lines, isWhole }: Lines, cwd: string): string | null {
  const name = shown(path, cwd);
  try {
    const { full } = placeOf(path, cwd);
    sweep(dirname(full));
    return withLock(full, name, () => {
      for (;;) {
        const file = openBoth(full);
        try {
          const { size } = fstatSync(file);
          const { bytes: halfBytes, tail } = endOf(file, size);
          const half = halfBytes.toString('utf8');
          const first = firstOf(file, size - halfBytes.length);
          const cut = half !== '' && !isWhole(half, first);
          const from = cut ? size - halfBytes.length : size;
          const standing = half === '' || cut ? { head: first, tail } : { head: first || half, tail: [...tail, half] };
          const more = typeof lines === 'function' ? lines(standing) : lines;
          const text = [...(from === 0 ? head : []), ...more].map((line) => `${line}\n`).join('');
          put(file, from, size, `${half !== '' && !cut ? '\n' : ''}${text}`);
          // an editor may have put another file in its place meanwhile
          if (!isStill(file, full)) continue;
          if (size === 0) flushFolder(dirname(full));
          return cut ? half : null;
        } finally {
          closeSync(file);
        }
      }
    });
  } catch (fault) {
    throw refusalOf(name, fault, 'write');
  }
}

/** The bytes are written and flushed, or the file is again as long as it was. */
function put(file: number, from: number, size: number, text: string): void {
  const bytes = Buffer.from(text);
  const was = Buffer.alloc(size - from);
  readSync(file, was, 0, was.length, from);
  try {
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done, bytes.length - done, from + done);
    ftruncateSync(file, from + bytes.length);
    fsyncSync(file);
  } catch (fault) {
    ftruncateSync(file, from);
    if (was.length > 0) writeSync(file, was, 0, was.length, from);
    throw fault;
  }
}

/** Lines of the end that are told. */
const TAIL = 100;

/** What stands behind the last end of a line, as the bytes that it is, and the whole lines before it. */
function endOf(file: number, size: number): { bytes: Buffer; tail: string[] } {
  for (let span = 16_384; ; span *= 4) {
    const from = Math.max(0, size - span);
    const bytes = Buffer.alloc(size - from);
    readSync(file, bytes, 0, bytes.length, from);
    const end = bytes.lastIndexOf(0x0a);
    if (end < 0 && from > 0) continue;
    // the first piece is whole only where the file begins with it
    const lines =
      end < 0
        ? []
        : bytes
            .toString('utf8', 0, end)
            .split('\n')
            .slice(from === 0 ? 0 : 1);
    if (lines.length === 0 && from > 0) continue;
    return { bytes: bytes.subarray(end + 1), tail: lines.slice(-TAIL).map(withoutReturn) };
  }
}

/** The first line that is neither empty nor a comment, within the first `size` bytes. */
function firstOf(file: number, size: number): string {
  for (let span = 4096; ; span *= 4) {
    const bytes = Buffer.alloc(Math.min(span, size));
    readSync(file, bytes, 0, bytes.length, 0);
    const lines = bytes.toString('utf8').split('\n');
    const found = lines.slice(0, -1).find((line) => !/^\uFEFF?(?:\s*$|#)/.test(line));
    if (found !== undefined) return withoutReturn(found);
    if (bytes.length === size) return '';
  }
}

const withoutReturn = (line: string): string => line.replace(/\r$/, '');
