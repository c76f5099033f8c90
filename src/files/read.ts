import { accessSync, closeSync, constants, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import { type Problem, problem, Refusal } from '../problem.js';
import { faultOf, refusalOf } from './faults.js';
import { decode } from './utf8.js';

/** No text of a bench is near it: a journal of 100,000 batches has some 15 MB. */
const LARGEST = 64 * 2 ** 20;

/** Reads a UTF-8 file named from `cwd`. @throws Refusal where it is missing, no regular file, too large, or in another encoding. */
export function readText(path: string, cwd: string): { name: string; text: string } {
  const name = shown(path, cwd);
  return { name, text: decode(readBytes(path, cwd), name) };
}

/** The bytes of a regular file named from `cwd`. @throws Refusal as for `readText` */
export function readBytes(path: string, cwd: string): Uint8Array {
  const name = shown(path, cwd);
  let file: number | undefined;
  try {
    // a pipe without a writer would keep us waiting at its opening
    file = openSync(resolve(cwd, path), constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const found = fstatSync(file);
    if (found.isDirectory()) throw new Refusal([faultOf(name, 'EISDIR', 'read')]);
    if (!found.isFile()) throw new Refusal([faultOf(name, 'no plain file', 'read')]);
    if (found.size > LARGEST) throw new Refusal([tooLarge(name, found.size)]);
    return bytesOf(file, found.size);
  } catch (fault) {
    throw refusalOf(name, fault, 'read');
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

/** All bytes of an open regular file, at least `size`. */
export function bytesOf(file: number, size: number): Uint8Array {
  const bytes = Buffer.alloc(size);
  let read = 0;
  while (read < size) {
    const more = readSync(file, bytes, read, size - read, read);
    if (more === 0) break;
    read += more;
  }
  return bytes.subarray(0, read);
}

/** The first and the last hundred bytes of a regular file, as text. @throws Refusal as for `readText` */
export function endsOf(path: string, cwd: string): { head: string; tail: string } {
  const bytes = readBytes(path, cwd);
  const text = (part: Uint8Array): string => new TextDecoder().decode(part);
  return { head: text(bytes.subarray(0, 100)), tail: text(bytes.subarray(-100)) };
}

/** True where something that may be read as a file goes by that name; a folder, or nothing, is none. */
export function isFile(path: string, cwd: string): boolean {
  const found = statOf(path, cwd);
  return found !== undefined && !found.isDirectory();
}

/** True where anything goes by that name, be it something that cannot be read; a link that leads to nothing is nothing. */
export function isThere(path: string, cwd: string): boolean {
  try {
    return statSync(resolve(cwd, path), { throwIfNoEntry: false }) !== undefined;
  } catch {
    // a loop of links, a folder without leave to look into: told where it is opened
    return true;
  }
}

/** Why a path cannot be looked at, as the grower can mend it; null where it can, or where nothing is there. */
export function unseen(path: string, cwd: string): Problem | null {
  try {
    statSync(resolve(cwd, path), { throwIfNoEntry: false });
    return null;
  } catch (fault) {
    return refusalOf(shown(path, cwd), fault, 'read').problems[0]!;
  }
}

/** True where a folder of that name is there. */
export const isFolder = (path: string, cwd: string): boolean => statOf(path, cwd)?.isDirectory() ?? false;

/** What stands at that path; undefined where nothing does or nothing can be known of it. */
export function statOf(path: string, cwd: string) {
  try {
    return statSync(resolve(cwd, path), { throwIfNoEntry: false });
  } catch {
    // told where it is opened
    return undefined;
  }
}

/** True where the file may be run. */
export function mayRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** A path as the grower would write it. */
export function shown(path: string, cwd: string): string {
  const full = resolve(cwd, path);
  const near = relative(cwd, full);
  return near === '' || near.startsWith('..') || isAbsolute(near) ? full : near;
}

const tooLarge = (name: string, size: number) =>
  problem(
    'file-too-large',
    { file: name },
    `a file of ${Math.round(size / 2 ** 20)} MB`,
    `at most ${LARGEST / 2 ** 20} MB`,
    'Check that it is the file you mean.',
  );
