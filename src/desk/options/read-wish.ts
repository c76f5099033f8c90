import type { Checked, Where } from '../../problem.js';
import { dashed } from './option.js';
import { WISH_OPTIONS } from './wishes-table.js';

type Table = typeof WISH_OPTIONS;

/** Wishes whose words are read; the others are switches and plain names. */
export type ReadKey = { [K in keyof Table]: Table[K] extends { read: unknown } ? K : never }[keyof Table];

/** What the words of a wish are read as. */
export type ValueOf<K extends ReadKey> = ReturnType<Table[K]['read']> extends Checked<infer T> ? T : never;

/** What the words of a wish can't be read without. */
export type Beside<K extends ReadKey> =
  Parameters<Table[K]['read']> extends [string, Where, infer B] ? [beside: B] : [];

/** Reads the words of a wish as the table of options says; problems name the option. */
export function readWish<K extends ReadKey>(key: K, text: string, ...beside: Beside<K>): Checked<ValueOf<K>> {
  const read = WISH_OPTIONS[key].read as (text: string, where: Where, beside?: unknown) => Checked<ValueOf<K>>;
  return read(text, { field: dashed(key) }, beside[0]);
}
