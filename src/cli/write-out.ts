import { chmodSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Problem, problem, Refusal } from '../problem.js';

/**
 * The one place that writes. An old file is replaced in one step, with its rights kept, so that a fault half-way leaves it as it was.
 * @param path named from `cwd`
 * @throws Refusal where the place cannot be written to
 */
export function writeOut(path: string, content: string | Uint8Array, cwd: string, fix = 'Name another file.'): void {
  const old = statOf(path, cwd);
  if (old?.isDirectory()) throw new Refusal([cannotWrite(path, 'EISDIR', fix)!]);
  const full = old ? realpathSync(resolve(cwd, path)) : resolve(cwd, path);
  const beside = `${full}.${crypto.randomUUID().slice(0, 8)}.new`;
  try {
    writeFileSync(beside, content, { flag: 'wx' });
    if (old) chmodSync(beside, old.mode);
    renameSync(beside, full);
  } catch (fault) {
    rmSync(beside, { force: true });
    const found = cannotWrite(path, (fault as { code?: string }).code ?? '', fix);
    throw found ? new Refusal([found]) : fault;
  }
}

/** What stands at that path; undefined where nothing does. */
export function statOf(path: string, cwd: string) {
  try {
    return statSync(resolve(cwd, path), { throwIfNoEntry: false });
  } catch {
    // a file where a folder should be
    return undefined;
  }
}

/** A fault of the file system that the grower can mend. */
export function cannotWrite(path: string, code: string, fix: string): Problem | undefined {
  const why = REASONS.get(code);
  return why === undefined ? undefined : problem('cannot-write', { file: path }, why, 'a place to write to', fix);
}

const REASONS = new Map([
  ['ENOENT', 'a folder that is not there'],
  ['ENOTDIR', 'a file where a folder should be'],
  ['EISDIR', 'a folder of that name'],
  ['no plain file', 'a pipe or a device'],
  ['EACCES', 'a place that may not be written to'],
  ['EPERM', 'a place that may not be written to'],
  ['EROFS', 'a place that may not be written to'],
  ['ENOSPC', 'no room left'],
]);
