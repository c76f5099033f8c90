import { closeSync, constants, fstatSync, openSync, statSync } from 'node:fs';
import { problem, Refusal } from '../problem.js';
import { refusalOf } from './faults.js';
import { withLock } from './lock.js';
import { readBytes, shown } from './read.js';
import { decode } from './utf8.js';
import { placeOf, writeFiles } from './write.js';

/**
 * Changes the text of a file named from `cwd`, keeping its byte-order mark, its rights and its owner; the text before stays beside as
 * `NAME.before`. What another wrote meanwhile is never lost: the change is then made to the new text.
 * @throws Refusal where it cannot be read or written to, and what `change` throws
 */
export function changeText(path: string, change: (text: string) => string, cwd: string): void {
  const name = shown(path, cwd);
  try {
    const { full } = placeOf(path, cwd);
    withLock(full, name, () => {
      for (let tries = 0; tries < 20; tries += 1) {
        const seen = stampOf(full);
        const bytes = readBytes(full, cwd);
        const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? '\uFEFF' : '';
        const content = Buffer.from(mark + change(decode(bytes, name)));
        if (Buffer.compare(content, bytes) === 0) return;
        if (stampOf(full) !== seen) continue;
        writeFiles([{ path: full, content, keep: true }], cwd);
        return;
      }
      throw new Refusal([restless(name)]);
    });
  } catch (fault) {
    throw refusalOf(name, fault, 'write');
  }
}

/** What changes when anybody writes to a file. */
function stampOf(full: string): string {
  const { ino, size, mtimeNs, ctimeNs } = statSync(full, { bigint: true });
  return `${ino} ${size} ${mtimeNs} ${ctimeNs}`;
}

/** True where the open file is what now goes by that name. */
export function isStill(file: number, full: string): boolean {
  const now = statSync(full, { throwIfNoEntry: false });
  const { ino, dev } = fstatSync(file);
  return now !== undefined && now.ino === ino && now.dev === dev;
}

/** A regular file to read and write, made where there is none. */
export function openBoth(full: string): number {
  const file = openSync(full, constants.O_RDWR | constants.O_CREAT | (constants.O_NONBLOCK ?? 0), 0o666);
  const found = fstatSync(file);
  if (found.isFile() && (found.mode & 0o222) !== 0) return file;
  closeSync(file);
  throw Object.assign(new Error('no file to write to'), { code: found.isFile() ? 'no leave' : 'no plain file' });
}

const restless = (name: string) =>
  problem(
    'in-use',
    { file: name },
    'a file that changes again and again while it is read',
    'a file at rest',
    'Close what writes to it, then try again.',
  );
