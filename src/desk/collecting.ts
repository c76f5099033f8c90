import { type Problem, Refusal } from '../problem.js';
import type { BenchFiles } from './bench-files.js';
import { Collected } from './collected.js';
import type { Option } from './options/option.js';
import { OPTIONS } from './options/table.js';
import type { Wishes } from './wishes.js';
import { isObject, wrongType } from '../wrong-type.js';

/**
 * What a question begins with: its texts and wishes, as they have to be, with what went wrong in getting them. Callers without types are
 * told everything that is of a wrong type, or no wish at all, at once.
 * @throws Refusal where anything is
 */
export function collecting(files: BenchFiles, wishes: Wishes): Collected {
  const problems = [...fileFaults('files', files), ...wishFaults('wishes', wishes)];
  if (problems.length > 0) throw new Refusal(problems);
  return new Collected(files.problems);
}

const FILES: readonly string[] = ['bench', 'shelf', 'market', 'against', 'journal'];

function fileFaults(name: string, files: unknown): Problem[] {
  if (!isObject(files)) return [wrongType(name, files, '{ bench, shelf, … }')];
  return FILES.flatMap((key) => {
    const file = files[key];
    if (file === undefined || file === null) return [];
    const right = isObject(file) && typeof file.name === 'string' && typeof file.text === 'string';
    return right ? [] : [wrongType(`${name}.${key}`, file, '{ name, text }, two texts')];
  });
}

function wishFaults(name: string, wishes: unknown): Problem[] {
  if (!isObject(wishes)) return [wrongType(name, wishes, 'an object')];
  return Object.entries(wishes).flatMap(([key, said]) => {
    const where = `${name}.${key}`;
    if (key === 'products' || key === 'oneFeedFor')
      return said === undefined || isTexts(said) ? [] : [wrongType(where, said, 'a list of texts')];
    if (said === undefined) return [];
    if (!Object.hasOwn(OPTIONS, key)) return [wrongType(where, said, 'a wish that is known')];
    const { value, repeatable }: Option = OPTIONS[key as keyof typeof OPTIONS];
    if (value === undefined) return typeof said === 'boolean' ? [] : [wrongType(where, said, 'true or false')];
    if (repeatable) return isTexts(said) ? [] : [wrongType(where, said, 'a list of texts')];
    return typeof said === 'string' ? [] : [wrongType(where, said, 'a text, as a person types it')];
  });
}

const isTexts = (value: unknown): boolean => Array.isArray(value) && value.every((one) => typeof one === 'string');
