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
  lines: readonly string[];
  /** True where a last line without an end is whole (the grower's editor leaves the end out); else it was cut short, and goes. */
  isWhole: (line: string) => boolean;
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
          const half = size === 0 ? '' : lastOf(file, size);
          const cut = half !== '' && !isWhole(half);
          const from = cut ? size - Buffer.byteLength(half) : size;
          const text = [...(from === 0 ? head : []), ...lines].map((line) => `${line}\n`).join('');
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

/** What stands behind the last end of a line. */
function lastOf(file: number, size: number): string {
  for (let span = 4096; ; span *= 4) {
    const from = Math.max(0, size - span);
    const bytes = Buffer.alloc(size - from);
    readSync(file, bytes, 0, bytes.length, from);
    const end = bytes.lastIndexOf(0x0a);
    if (end >= 0 || from === 0) return bytes.subarray(end + 1).toString('utf8');
  }
}
