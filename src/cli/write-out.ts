import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  closeSync,
  openSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { resolve } from 'node:path';
import { type Problem, problem, Refusal } from '../problem.js';
import type { Form } from './forms.js';

/**
 * The one place that writes. An old file is replaced in one step, with its rights kept, so that a fault half-way leaves it as it was.
 * @param path named from `cwd`
 * @throws Refusal where the place cannot be written to
 */
export function writeOut(path: string, content: string | Uint8Array, cwd: string, fix = 'Name another file.'): void {
  const old = statOf(path, cwd);
  if (old?.isDirectory()) throw new Refusal([cannotWrite(path, 'EISDIR', fix)!]);
  const full = old ? realpathSync(resolve(cwd, path)) : resolve(cwd, path);
  const beside = `${full}.${randomBytes(4).toString('hex')}.new`;
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

/**
 * An answer as it stands in a file: with a last line, in the manner of its form, by which velamen knows it again as its own. JSON needs
 * none: its first line names a schema of velamen.
 */
export function marked(content: string | Uint8Array, form: Form): string | Uint8Array {
  const mark = MARKS[form];
  if (mark === '') return content;
  return typeof content === 'string' ? `${content}${mark}` : Buffer.concat([content, Buffer.from(mark)]);
}

const SAID = 'written by velamen';

/** The last line of a file of ours. Readers of HTML, SVG and PDF skip it; in CSV it is a line like those that name the tables. */
const MARKS: Readonly<Record<Form, string>> = {
  txt: `\n(${SAID})\n`,
  csv: `\r\n# ${SAID}\r\n`,
  html: `<!-- ${SAID} -->\n`,
  svg: `<!-- ${SAID} -->\n`,
  pdf: `\n% ${SAID}\n`,
  json: '',
};

/** True where the file carries the mark of its form. */
export function isOurs(path: string, form: Form, cwd: string): boolean {
  const { head, tail } = endsOf(resolve(cwd, path));
  return form === 'json' ? /^\{\s*"(schema|\$id)": "velamen\./.test(head) : tail.endsWith(MARKS[form].trimStart());
}

/** The first and the last hundred bytes of a file. */
function endsOf(full: string): { head: string; tail: string } {
  const file = openSync(full, 'r');
  try {
    const { size } = statSync(full);
    const part = (from: number): string => {
      const bytes = Buffer.alloc(100);
      return bytes.subarray(0, readSync(file, bytes, 0, 100, from)).toString('utf8');
    };
    return { head: part(0), tail: part(Math.max(0, size - 100)) };
  } finally {
    closeSync(file);
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
