import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { problem, Refusal } from '../problem.js';

/** Writes a text file named from `cwd`, over an old one. @throws Refusal where the place cannot be written to. */
export function writeText(path: string, text: string, cwd: string): void {
  try {
    writeFileSync(resolve(cwd, path), text);
  } catch (fault) {
    throw asRefusal(fault, path);
  }
}

/** A fault of the file system as a refusal, where the grower can mend it; else the fault itself. */
export function asRefusal(fault: unknown, path: string, fix = 'Name another file.'): unknown {
  const why = REASONS.get((fault as { code?: string }).code ?? '');
  if (why === undefined) return fault;
  return new Refusal([problem('cannot-write', { file: path }, why, 'a place to write to', fix)]);
}

const REASONS = new Map([
  ['ENOENT', 'a folder that is not there'],
  ['ENOTDIR', 'a file where a folder should be'],
  ['EISDIR', 'a folder of that name'],
  ['EACCES', 'a place that may not be written to'],
  ['EPERM', 'a place that may not be written to'],
  ['EROFS', 'a place that may not be written to'],
  ['ENOSPC', 'no room left'],
]);
