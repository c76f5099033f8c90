import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { decode } from './utf8.js';
import { writeOut } from './write-out.js';

/**
 * Changes the text of a file named from `cwd`, keeping its byte-order mark and its rights.
 * @throws Refusal where it cannot be read or written to, and what `change` throws
 */
export function rewriteText(path: string, change: (text: string) => string, cwd: string): void {
  const bytes = readFileSync(resolve(cwd, path));
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? '\uFEFF' : '';
  writeOut(path, mark + change(decode(bytes, path)), cwd, 'Change its permissions.');
}
