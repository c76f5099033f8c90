import { realpathSync, type Stats } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Problem, problem } from '../problem.js';
import type { Outputs } from './forms.js';
import type { Io } from './io.js';
import { isOurs } from './our-mark.js';
import { cannotWrite, statOf } from './write-out.js';

/** What keeps the files from being written: a folder that is not there, a file that is not ours, a file that was read as input. */
export function targetProblems({ files, replace }: Outputs, io: Io): Problem[] {
  return files.flatMap(({ path, form }) => {
    const old = statOf(path, io.cwd);
    const code = old ? kindOf(old) : folderOf(path, io.cwd);
    const unable = cannotWrite(path, code, 'Name another file.');
    if (unable) return [unable];
    if (!old) return [];
    if (io.inputs.has(realpathSync(resolve(io.cwd, path)))) return [wasRead(path)];
    return replace || isOurs(path, form, io.cwd) ? [] : [notOurs(path)];
  });
}

/** What stands in the way where something stands there already: a folder, a pipe, a device. */
const kindOf = (old: Stats): string => (old.isDirectory() ? 'EISDIR' : old.isFile() ? '' : 'no plain file');

function folderOf(path: string, cwd: string): string {
  const folder = statOf(dirname(resolve(cwd, path)), cwd);
  return folder === undefined ? 'ENOENT' : folder.isDirectory() ? '' : 'ENOTDIR';
}

const notOurs = (path: string): Problem =>
  problem(
    'not-ours',
    { field: '--to', file: path },
    'a file that velamen did not write',
    'a new name, or a file of ours',
    'Name another file, or add --replace to write over it.',
  );

const wasRead = (path: string): Problem =>
  problem(
    'is-input',
    { field: '--to', file: path },
    'a file that this answer was read from',
    'another file',
    'Name another file: what was read is never written over.',
  );
