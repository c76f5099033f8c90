import { isFile, readText } from '../files/index.js';
import type { Io } from './io.js';

/** What was written, or what stands in the file of that name. */
export const textOf = (text: string, io: Io): string =>
  text.length < 200 && isFile(text, io.cwd) ? readText(text, io.cwd).text : text;
