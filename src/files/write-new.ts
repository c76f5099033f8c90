import {
  closeSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Problem, problem, Refusal } from '../problem.js';
import { faultOf, refusalOf } from './faults.js';
import { leavings, partIn, sweep } from './parts.js';
import { isFolder, shown, statOf } from './read.js';
import { flushFolder } from './write.js';

/** A file of a new folder, by its name there. */
export interface FileInside {
  name: string;
  content: string;
}

/**
 * Writes new files into a folder, which is made where it is not there: all of them, or none, and never over anything. The last is the one
 * without which the others are nothing: what a process that died left without it is taken away first.
 * @param folder named from `cwd`; the folder that it stands in has to be there
 * @throws Refusal where any of them is there already, or where the place cannot be written to
 */
export function writeNew(folder: string, files: readonly FileInside[], cwd: string): void {
  const full = resolve(cwd, folder);
  try {
    const names = files.map(({ name }) => name);
    if (isFolder(full, '/')) takeAway(full, names);
    const problems = newFolderProblems(folder, names, cwd);
    if (problems.length > 0) throw new Refusal(problems);
    if (isFolder(full, '/')) linkedInto(full, files);
    else renamedTo(full, files);
    flushFolder(full);
    flushFolder(dirname(full));
  } catch (fault) {
    throw refusalOf(shown(folder, cwd), fault, 'write');
  }
}

/** What keeps new files from being written there: those that are there already, or the place itself. */
export function newFolderProblems(folder: string, names: readonly string[], cwd: string): Problem[] {
  const full = resolve(cwd, folder);
  try {
    const found = statSync(full, { throwIfNoEntry: false });
    if (found === undefined && !isFolder(dirname(full), '/'))
      return [faultOf(shown(dirname(full), cwd), 'ENOENT', 'write')];
    if (found !== undefined && !found.isDirectory()) return [faultOf(shown(full, cwd), 'ENOTDIR', 'write')];
    return names.flatMap((name) => {
      const there = lstatSync(join(full, name), { throwIfNoEntry: false });
      return there === undefined || isLeft(full, names, name) ? [] : [isThere(shown(join(full, name), cwd))];
    });
  } catch (fault) {
    return [...refusalOf(shown(folder, cwd), fault, 'write').problems];
  }
}

/** A whole folder at once. */
function renamedTo(full: string, files: readonly FileInside[]): void {
  sweep(dirname(full));
  const part = partIn(dirname(full));
  try {
    mkdirSync(part);
    for (const { name, content } of files) writeDown(join(part, name), content);
    flushFolder(part);
    renameSync(part, full);
  } catch (fault) {
    rmSync(part, { recursive: true, force: true });
    throw fault;
  }
}

/** Each file beside its place, then linked to its name: that fails where the name is taken meanwhile. */
function linkedInto(full: string, files: readonly FileInside[]): void {
  sweep(full);
  const parts: string[] = [];
  const placed: string[] = [];
  try {
    for (const { content } of files) {
      const part = partIn(full);
      parts.push(part);
      writeDown(part, content);
    }
    files.forEach(({ name }, i) => {
      linkSync(parts[i]!, join(full, name));
      placed.push(join(full, name));
    });
  } catch (fault) {
    for (const path of placed) rmSync(path, { force: true });
    throw fault;
  } finally {
    for (const part of parts) rmSync(part, { force: true });
  }
}

/** Files of a start that died before its last one was in place. */
function takeAway(full: string, names: readonly string[]): void {
  for (const name of names) if (isLeft(full, names, name)) rmSync(join(full, name));
}

/** True for a file that a process which is no more put there, without coming to the last of them. */
function isLeft(full: string, names: readonly string[], name: string): boolean {
  if (statOf(join(full, names.at(-1)!), '/') !== undefined) return false;
  const own = statOf(join(full, name), '/');
  return own !== undefined && leavings(full).some((part) => statSync(part).ino === own.ino);
}

function writeDown(path: string, content: string): void {
  const file = openSync(path, 'wx', 0o666);
  try {
    const bytes = Buffer.from(content);
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

const isThere = (name: string): Problem =>
  problem(
    'is-there',
    { file: name },
    'a file that is there already',
    'a folder without it',
    'Name another folder: nothing that is yours is ever written over.',
  );
