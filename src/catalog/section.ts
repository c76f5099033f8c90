import * as z from 'zod/mini';
import { nearest, type Problem, problem } from '../problem.js';
import { ionHint } from './columns.js';
import { childOf, entriesOf, isMapSpot, type Spot, contentOf, whereIs } from './yaml.js';

/** Text or a number: what a grower writes as a value. */
export const words = z.union([z.string(), z.number()]);
/** Anything, read further on. */
export const anything = z.unknown();
/** One value, or a list of them. */
export const oneOrMore = z.union([words, z.array(words)]);

/** A key that has to be there, and what is expected of it. */
export const required = <S extends z.ZodMiniType>(shape: S, says: string): S => shape.check(z.describe(says));
/** A key that may be left out, and what is expected of it. */
export const optional = <S extends z.ZodMiniType>(shape: S, says: string): z.ZodMiniOptional<S> =>
  z.optional(shape).check(z.describe(says));

/** A section of the page: each key with its shape. zod/mini, for the whole of zod takes ten times as long to load. */
export type Section = z.ZodMiniObject<Record<string, z.ZodMiniType>>;
/** A section; a key that it does not know is refused. */
export const sectionOf = z.strictObject;

/**
 * Checks a section against its shape. Unknown, misspelt and missing keys and values of the wrong kind are Problems at their
 * lines. @returns the values of the keys that are right, or null where the section is no map
 */
export function readSection<S extends Section>(
  spot: Spot,
  section: S,
  problems: Problem[],
): Partial<z.infer<S>> | null {
  if (!isMapSpot(spot)) {
    problems.push(
      problem(
        'yaml-not-keys',
        whereIs(spot),
        describe(contentOf(spot)),
        `keys: ${keysOf(section).join(', ')}`,
        `Write ${spot.name || 'the file'} as keys with values.`,
      ),
    );
    return null;
  }
  const given = entriesOf(spot);
  const values: Record<string, unknown> = Object.create(null);
  for (const { key, at, keyLine } of given) {
    const shape = Object.hasOwn(section.shape, key) ? section.shape[key] : undefined;
    if (!shape) problems.push(unknownKey(key, keyLine, spot, section));
    else {
      const read = shape.safeParse(contentOf(at));
      if (read.success) values[key] = read.data;
      else
        problems.push(
          problem(
            'value-wrong-kind',
            whereIs(at),
            describe(contentOf(at)),
            expected(shape, key),
            `Write ${key} as ${expected(shape, key)}.`,
          ),
        );
    }
  }
  for (const [key, shape] of Object.entries(section.shape)) {
    if (!given.some((e) => e.key === key) && !shape.safeParse(undefined).success) {
      problems.push(
        problem(
          'key-missing',
          whereIs(childOf(spot, key)),
          `no ${key}`,
          expected(shape, key),
          `Add ${key} to ${spot.name || 'the file'}.`,
        ),
      );
    }
  }
  return values as Partial<z.infer<S>>;
}

/** A value as its reader takes it: what is no word is told by its kind, and refused there. */
export const wordsOf = (value: unknown): string =>
  typeof value === 'object' && value !== null ? describe(value) : String(value ?? '');

/** A value in a few words. */
export function describe(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'keys and values';
  const text = String(value);
  return `"${text.length > 60 ? `${text.slice(0, 57)}…` : text}"`;
}

function unknownKey(key: string, line: number, spot: Spot, section: Section): Problem {
  const known = keysOf(section);
  const guesses = key.length > 40 ? [] : nearest(key, known);
  const ion = ionHint(key, (name) => known.includes(name));
  const fix = ion ?? (guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Known: ${known.join(', ')}.`);
  const place = spot.name === '' ? 'a key of this file' : `a key of ${spot.name}`;
  return problem(
    'key-unknown',
    { file: spot.page.file, line, field: spot.name === '' ? key : `${spot.name}.${key}` },
    `key "${key.slice(0, 40)}"`,
    place,
    fix,
  );
}

const keysOf = (section: Section): string[] => Object.keys(section.shape);
const expected = (shape: z.ZodMiniType, key: string): string => z.globalRegistry.get(shape)?.description ?? key;
