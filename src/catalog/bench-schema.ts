import * as z from 'zod/mini';
import { MOST } from '../units/index.js';
import { BENCH } from './bench-keys.js';
import { FEED } from './bench-feeds.js';
import { KIT, PEN } from './bench-kit.js';
import { SEASON } from './bench-season.js';
import { WATER } from './bench-water.js';
import type { Catalog } from './catalog.js';
import { MONTH_WORDS } from './season-values.js';
import { oneOrMore, type Section, words } from './section.js';

type Schema = { [key: string]: unknown };

/**
 * bench.yaml as JSON Schema (draft 7, which editors of YAML know), made of the very sections that the reader checks: keys, the kinds of their
 * values, and what is expected of each; names of the catalog are offered. What only the reader can tell (units, names, rules) is left to it.
 */
export function benchSchema(catalog: Pick<Catalog, 'plants' | 'media' | 'phases' | 'waters'>): object {
  const offered = (rows: readonly { id: string }[]): Schema => offering(rows.map(({ id }) => id));
  const feed = objectOf(FEED, {
    plants: offered(catalog.plants),
    medium: offered(catalog.media),
    phase: offered(catalog.phases),
    strength: {
      anyOf: [plain(words), { type: 'object', properties: { N: plain(words) }, additionalProperties: true }],
    },
    months: {
      type: 'object',
      properties: MONTHS,
      additionalProperties: plain(oneOrMore),
      propertyNames: { pattern: MONTH_NAMED },
    },
  });
  const ownWater = objectOf(WATER, { use: offered(catalog.waters) });
  const water = { anyOf: [{ type: 'string', enum: catalog.waters.map(({ id }) => id) }, { type: 'string' }, ownWater] };
  const bench = objectOf(BENCH, {
    law: { anyOf: [{ enum: ['us', 'eu'] }, { type: 'string', pattern: '^([Ee][Uu]|[Uu][Ss])$' }] },
    water: { anyOf: [...water.anyOf, { type: 'array', items: water, minItems: 1 }] },
    kit: objectOf(KIT, {}),
    pen: { anyOf: [offering(['EC', 500, 640, 700]), objectOf(PEN, { scale: offering(['EC', 500, 640, 700]) })] },
    season: objectOf(SEASON, { hemisphere: { anyOf: [{ enum: ['north', 'south'] }, { type: 'string' }] } }),
    feeds: { type: 'object', additionalProperties: feed, maxProperties: MOST.feeds },
  });
  return { $schema: 'http://json-schema.org/draft-07/schema#', title: 'bench.yaml', ...bench };
}

/** The schema of a section; `nested` says what the reader reads further on. @throws where such a key is left out */
function objectOf(section: Section, nested: Readonly<Record<string, Schema>>): Schema {
  const properties = Object.fromEntries(
    Object.entries(section.shape).map(([key, shape]) => {
      const description = z.globalRegistry.get(shape)?.description;
      const own = nested[key] ?? plain(shape);
      if (Object.keys(own).every((name) => name === 'description'))
        throw new Error(`the schema of bench.yaml does not say what may stand under ${key}`);
      const mayBeEmpty = shape.safeParse(undefined).success;
      // a key without a value is not said
      const value = mayBeEmpty ? { anyOf: [own, { type: 'null' }] } : own;
      return [key, { ...value, ...(description === undefined ? {} : { description }) }];
    }),
  );
  const required = Object.entries(section.shape).flatMap(([key, shape]) =>
    shape.safeParse(undefined).success ? [] : [key],
  );
  return { type: 'object', properties, additionalProperties: false, ...(required.length > 0 ? { required } : {}) };
}

/** A plain shape as zod tells it, without the number of the draft. */
function plain(shape: z.ZodMiniType): Schema {
  const { $schema, ...schema } = z.toJSONSchema(shape, { target: 'draft-7' }) as Schema;
  return schema;
}

/** Words that an editor offers, and any others. */
const offering = (offers: readonly (string | number)[]): Schema => ({ anyOf: [{ enum: offers }, plain(words)] });

/** Months as an editor offers them, with what may be fed in each. */
const MONTHS: Schema = Object.fromEntries(
  MONTH_WORDS.map((name) => [
    `${name.charAt(0).toUpperCase()}${name.slice(1, 3)}`,
    { anyOf: [{ enum: ['none', 'growth', 'bloom', 'rest'] }, plain(oneOrMore)] },
  ]),
);

/** A month by three letters of its name or more, in any case, or by its number; patterns of a schema know no other way to say so. */
const MONTH_NAMED = (() => {
  const either = (letter: string): string => `[${letter.toUpperCase()}${letter}]`;
  const names = MONTH_WORDS.map((name) => {
    const more = [...name.slice(3)].reduceRight((rest, letter) => `(?:${either(letter)}${rest})?`, '');
    return [...name.slice(0, 3)].map(either).join('') + more;
  });
  return `^\\s*(?:${[...names, '[Ss][Ee][Pp][Tt]', '0?[1-9]', '1[0-2]'].join('|')})\\.?\\s*$`;
})();
