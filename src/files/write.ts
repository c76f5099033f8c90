import {
  accessSync,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fchownSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  writeSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Problem, Refusal } from '../problem.js';
import { faultOf, refusalOf } from './faults.js';
import { partIn, sweep } from './parts.js';
import { shown, statOf } from './read.js';

/** A file to be written: named from the folder the grower is in. */
export interface NewFile {
  path: string;
  content: string | Uint8Array;
  /** True where what stood there stays beside as `NAME.before`. */
  keep?: boolean;
}

/**
 * Writes files: all of them, or none. What stood there is replaced in one step.
 * @throws Refusal where a place cannot be written to; every file is then as it was
 */
export function writeFiles(files: readonly NewFile[], cwd: string): void {
  const made: Made[] = [];
  try {
    for (const file of files) made.push(madeBeside(file, cwd));
    for (const one of made) putInPlace(one);
  } catch (fault) {
    for (const one of made.toReversed()) takenBack(one);
    throw fault;
  }
  for (const one of made) settled(one);
}

/** What keeps a file from being written there; null where nothing does. */
export function placeProblem(path: string, cwd: string): Problem | null {
  const name = shown(path, cwd);
  try {
    const { full, old } = placeOf(path, cwd);
    const code = (old ? standing(old) : '') || standingFolder(dirname(full));
    return code === '' ? null : faultOf(name, code, 'write');
  } catch (fault) {
    return refusalOf(name, fault, 'write').problems[0]!;
  }
}

/** A file that is ready beside its place. */
interface Made {
  name: string;
  full: string;
  part: string;
  /** A second name of what stood there, until all are in place. */
  before: string | null;
  keep: boolean;
  placed: boolean;
}

function madeBeside({ path, content, keep = false }: NewFile, cwd: string): Made {
  const name = shown(path, cwd);
  const unable = placeProblem(path, cwd);
  if (unable) throw new Refusal([unable]);
  const { full, old } = placeOf(path, cwd);
  sweep(dirname(full));
  const part = partIn(dirname(full));
  try {
    writeDown(part, typeof content === 'string' ? Buffer.from(content) : content, old);
    return { name, full, part, before: null, keep, placed: false };
  } catch (fault) {
    rmSync(part, { force: true });
    throw refusalOf(name, fault, 'write');
  }
}

/** Bytes on the disk, with the rights and the owner of what stood there. */
function writeDown(part: string, bytes: Uint8Array, old: Stats | undefined): void {
  const file = openSync(part, 'wx', old === undefined ? 0o666 : old.mode & 0o777);
  try {
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    if (old !== undefined) {
      fchmodSync(file, old.mode & 0o7777);
      keepOwner(file, old);
    }
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function keepOwner(file: number, { uid, gid }: Stats): void {
  if (process.getuid === undefined || (uid === process.getuid() && gid === process.getgid?.())) return;
  try {
    fchownSync(file, uid, gid);
  } catch {
    throw Object.assign(new Error('another owner'), { code: 'owner' });
  }
}

function putInPlace(one: Made): void {
  try {
    if (statOf(one.full, '/') !== undefined) one.before = secondName(one.full);
    renameSync(one.part, one.full);
    one.placed = true;
  } catch (fault) {
    throw refusalOf(one.name, fault, 'write');
  }
}

/** What stands there under a second name; as a copy on a disk without such names. */
function secondName(full: string): string {
  const before = partIn(dirname(full));
  try {
    linkSync(full, before);
  } catch {
    copyFileSync(full, before, constants.COPYFILE_EXCL);
  }
  return before;
}

function takenBack({ full, part, before, placed }: Made): void {
  rmSync(part, { force: true });
  if (before !== null && placed) renameSync(before, full);
  else if (before !== null) rmSync(before, { force: true });
  else if (placed) rmSync(full, { force: true });
}

function settled({ full, before, keep }: Made): void {
  if (before !== null && keep) renameSync(before, `${full}.before`);
  else if (before !== null) rmSync(before, { force: true });
  flushFolder(dirname(full));
}

/** So that the new name is on the disk too; some systems flush no folders. */
export function flushFolder(folder: string): void {
  try {
    const open = openSync(folder, 'r');
    try {
      fsyncSync(open);
    } finally {
      closeSync(open);
    }
  } catch {
    // the file itself was flushed
  }
}

/** The real path behind links, even where the last one leads to nothing yet; what stands there. */
export function placeOf(path: string, cwd: string): { full: string; old: Stats | undefined } {
  let full = resolve(cwd, path);
  for (let hops = 0; hops < 40; hops += 1) {
    const link = lstatSync(full, { throwIfNoEntry: false });
    if (link === undefined) return { full: join(realpathSync(dirname(full)), nameIn(full)), old: undefined };
    if (!link.isSymbolicLink()) return { full: realpathSync(full), old: link };
    full = resolve(dirname(full), readlinkSync(full));
  }
  throw Object.assign(new Error('a loop of links'), { code: 'ELOOP' });
}

const nameIn = (full: string): string => full.slice(dirname(full).length).replace(/^[/\\]/, '');

function standing(old: Stats): string {
  if (old.isDirectory()) return 'EISDIR';
  if (!old.isFile()) return 'no plain file';
  return (old.mode & 0o222) === 0 ? 'no leave' : '';
}

function standingFolder(folder: string): string {
  const found = statOf(folder, '/');
  if (found === undefined) return 'ENOENT';
  if (!found.isDirectory()) return 'ENOTDIR';
  // what the all-powerful user could override was still meant
  if ((found.mode & 0o222) === 0) return 'EACCES';
  try {
    accessSync(folder, constants.W_OK);
    return '';
  } catch (fault) {
    return (fault as { code?: string }).code ?? 'EACCES';
  }
}
