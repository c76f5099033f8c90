import { readFileSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import type { TextFile } from '../desk/bench-files.js';
import { problem, Refusal } from '../problem.js';
import { decode } from './utf8.js';

/** Reads a UTF-8 file named from `cwd`. @throws Refusal where it is missing, a folder, or in another encoding. */
export function readText(path: string, cwd: string): TextFile {
  const full = resolve(cwd, path);
  const name = shown(full, cwd);
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(full);
  } catch (fault) {
    throw new Refusal([unreadable(name, fault)]);
  }
  return { name, text: decode(bytes, name) };
}

/** True where a file of that name is there to be read. */
export function isFile(path: string, cwd: string): boolean {
  return statSync(resolve(cwd, path), { throwIfNoEntry: false })?.isFile() ?? false;
}

/** True where a folder of that name is there. */
export function isFolder(path: string, cwd: string): boolean {
  return statSync(resolve(cwd, path), { throwIfNoEntry: false })?.isDirectory() ?? false;
}

function unreadable(name: string, fault: unknown) {
  const code = (fault as { code?: string }).code;
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return problem(
      'no-such-file',
      { file: name },
      'no such file',
      'a file to read',
      'Check the name and the folder you are in.',
    );
  }
  if (code === 'EISDIR') return problem('not-a-file', { file: name }, 'a folder', 'a file', 'Name the file inside it.');
  if (code === 'EACCES' || code === 'EPERM') {
    return problem(
      'not-readable',
      { file: name },
      'a file that may not be read',
      'leave to read it',
      'Change its permissions.',
    );
  }
  throw fault;
}

function shown(full: string, cwd: string): string {
  const near = relative(cwd, full);
  return near === '' || near.startsWith('..') || isAbsolute(near) ? full : near;
}
