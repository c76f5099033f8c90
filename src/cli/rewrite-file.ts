import { randomBytes } from 'node:crypto';
import { chmodSync, readFileSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { decode } from './files.js';
import { asRefusal } from './write-file.js';

/**
 * Changes the text of a file named from `cwd`, keeping its byte-order mark and its rights. It is replaced in one step, so a fault half-way
 * leaves the old one. @throws Refusal where it cannot be read or written to, and what `change` throws
 */
export function rewriteText(path: string, change: (text: string) => string, cwd: string): void {
  const full = realpathSync(resolve(cwd, path));
  const bytes = readFileSync(full);
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? '\uFEFF' : '';
  replace(full, mark + change(decode(bytes, path)), path);
}

function replace(full: string, text: string, path: string): void {
  const beside = `${full}.${randomBytes(4).toString('hex')}.new`;
  try {
    writeFileSync(beside, text, { flag: 'wx' });
    chmodSync(beside, statSync(full).mode);
    renameSync(beside, full);
  } catch (fault) {
    rmSync(beside, { force: true });
    throw asRefusal(fault, path, 'Change its permissions.');
  }
}
