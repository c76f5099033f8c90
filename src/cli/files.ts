import { readFileSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve } from 'node:path';
import { problem, Refusal } from '../problem.js';

/** A text file as read: its name as the grower would write it, and its text without a byte-order mark. */
export interface TextFile {
  name: string;
  text: string;
}

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

/** UTF-8 bytes as text. @throws Refusal naming the line of the first byte that is not UTF-8. */
export function decode(bytes: Uint8Array, name: string): string {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    throw new Refusal([problem('not-utf-8', { file: name, line: 1 }, 'a UTF-16 file', 'UTF-8 text', SAVE_AS)]);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const line = lineOfFirstBadByte(bytes);
    const sample = new TextDecoder('latin1').decode(bytes).split(/\r?\n/)[line - 1] ?? '';
    const found = `bytes that are not UTF-8 (read as Latin-1 the line says "${sample.trim().slice(0, 60)}")`;
    throw new Refusal([problem('not-utf-8', { file: name, line }, found, 'UTF-8 text', SAVE_AS)]);
  }
}

const SAVE_AS = 'Save the file again as UTF-8 (a spreadsheet calls it "CSV UTF-8").';

function lineOfFirstBadByte(bytes: Uint8Array): number {
  const strict = new TextDecoder('utf-8', { fatal: true });
  let line = 1;
  let start = 0;
  for (let i = 0; i <= bytes.length; i += 1) {
    if (i < bytes.length && bytes[i] !== 0x0a) continue;
    try {
      strict.decode(bytes.subarray(start, i));
    } catch {
      return line;
    }
    start = i + 1;
    line += 1;
  }
  return 1;
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
