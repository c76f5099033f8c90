import { resolve } from 'node:path';
import { placeOf, placeProblem } from '../files/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Form, Outputs } from './forms.js';
import type { Io } from './io.js';
import { isOurs } from './our-mark.js';

/** What keeps the files from being written: a folder that is not there, a file that is not ours, one that was read as input, one named twice. */
export function targetProblems({ files, replace }: Outputs, io: Io): Problem[] {
  const named = new Map<string, string>();
  return files.flatMap(({ path, form }) => {
    const unable = placeProblem(path, io.cwd);
    if (unable) return [unable];
    const { full, old } = placeOf(path, io.cwd);
    const one = old === undefined ? full.normalize('NFC').toLowerCase() : `${old.dev} ${old.ino}`;
    const first = named.get(one);
    // those of one name are told where the names are read
    if (first !== undefined) return resolve(first) === resolve(path) ? [] : [writtenTwice(first, path)];
    named.set(one, path);
    if (old === undefined) return [];
    if (io.inputs.has(full)) return [wasRead(path)];
    return replace || known(path, form, io.cwd) ? [] : [notOurs(path)];
  });
}

function known(path: string, form: Form, cwd: string): boolean {
  try {
    return isOurs(path, form, cwd);
  } catch (fault) {
    // what may not be read is not known to be ours
    if (fault instanceof Refusal) return false;
    throw fault;
  }
}

/** True where what stands there is the grower's own: it stays beside when it is replaced. */
export const isGrowers = (path: string, form: Form, io: Io): boolean =>
  placeOf(path, io.cwd).old !== undefined && !known(path, form, io.cwd);

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

export const writtenTwice = (first: string, path: string): Problem =>
  problem(
    'written-twice',
    { field: '--to' },
    first === path ? `"${path}" twice` : `"${first}" and "${path}", which are one file`,
    'each file once',
    'Keep one of them.',
  );
