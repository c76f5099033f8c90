import { Ajv } from 'ajv';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readBench } from '../../src/catalog/bench.js';
import { BENCH } from '../../src/catalog/bench-keys.js';
import { FEED } from '../../src/catalog/bench-feeds.js';
import { KIT, PEN } from '../../src/catalog/bench-kit.js';
import { benchSchema } from '../../src/catalog/bench-schema.js';
import { SEASON } from '../../src/catalog/bench-season.js';
import { WATER } from '../../src/catalog/bench-water.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';

const catalog = shippedCatalog();
const schema = benchSchema(catalog);
const valid = new Ajv({ strict: true, allowUnionTypes: true }).compile(schema);
const examples = join(import.meta.dirname, '../../examples');
/** A bench that says all of its year. */
const YEAR = `water: rain
season: { hemisphere: south, light: [3, 4, 7, 9, 10, 11, 11, 10, 8, 6, 3, 2], temperature: "14 14 16 18 20 22 23 23 20 18 15 14" }
feeds:
  moss: { plants: pleurothallid, medium: sphagnum, pots: 24, pot: 0.3 L, watering: 4 L, months: { Jan: none, sept.: rest, 12: "growth, 50 %, 3 L" } }
`;
const benches = [
  ...readdirSync(examples).map((name) => [name, readFileSync(join(examples, name, 'bench.yaml'), 'utf8')] as const),
  ['a year', YEAR] as const,
];

/** Problems of form: a key that is not known, missing, or holds a value of another kind. */
const FORM = [
  'key-unknown',
  'key-missing',
  'value-wrong-kind',
  'yaml-not-keys',
  'feeds-not-keys',
  'months-not-keys',
  'month',
  'water-kind',
  'water-none',
];

/** What the reader says of a bench: whether it is taken, and whether its form is right, whatever units and names there are. */
function readerOf(bench: unknown): { taken: boolean; wellFormed: boolean } {
  const read = readBench(JSON.stringify(bench), 'bench.yaml', catalog);
  const codes = read.ok ? [] : read.problems.map(({ code }) => code);
  return { taken: read.ok, wellFormed: !codes.some((code) => FORM.includes(code)) };
}

/** Every place in a bench, as keys from the top. */
function placesIn(value: unknown, at: readonly string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => [[...at, key], ...placesIn(part, [...at, key])]);
}

/** The bench with one place changed. */
function changed(
  bench: object,
  place: readonly string[],
  change: (holder: Record<string, unknown>, key: string) => void,
) {
  const copy = structuredClone(bench) as Record<string, unknown>;
  const holder = place.slice(0, -1).reduce((part, key) => part[key] as Record<string, unknown>, copy);
  change(holder, place.at(-1)!);
  return copy;
}

describe('the schema of bench.yaml', () => {
  it.each(benches)('holds the bench of %s', (_, text) => {
    expect(valid(parse(text)), JSON.stringify(valid.errors)).toBe(true);
  });

  it('has every key of the reader, each with what is expected, and no other', () => {
    type Part = { properties: Record<string, Part>; anyOf?: Part[]; description?: string; additionalProperties: Part };
    const top = schema as Part;
    const objectIn = (part: Part): Part => part.anyOf!.flatMap((p) => p.anyOf ?? [p]).find((p) => p.properties)!;
    const feeds = top.properties.feeds!.anyOf![0]!;
    for (const [section, part] of [
      [BENCH, top],
      [KIT, objectIn(top.properties.kit!)],
      [PEN, objectIn(top.properties.pen!)],
      [WATER, objectIn(top.properties.water!)],
      [SEASON, objectIn(top.properties.season!)],
      [FEED, feeds.additionalProperties],
    ] as const) {
      expect(Object.keys(part.properties)).toEqual(Object.keys(section.shape));
      for (const key of Object.keys(section.shape)) expect(part.properties[key]!.description, key).toMatch(/\w/);
    }
  });

  it('refuses a misspelt key wherever it stands', () => {
    for (const [, text] of benches) {
      const bench = parse(text) as object;
      const keys = placesIn(bench).filter((place) => place[0] !== 'feeds' || place.length > 2);
      const misspelt = keys
        .filter((place) => !/^\d+$/.test(place.at(-1)!))
        .map((place) =>
          changed(bench, place, (holder, key) => {
            holder[`${key}z`] = holder[key];
            delete holder[key];
          }),
        );
      expect(misspelt.length).toBeGreaterThan(5);
      expect(misspelt.filter((one) => valid(one))).toEqual([]);
    }
  });

  it('takes all that the reader takes, and refuses all whose form the reader refuses, of every change of one value', () => {
    const values = [null, true, 5, 'words', ['rain'], [], { scale: 500 }, { N: '90 mg/L' }, [['x']], [{ use: 'rain' }]];
    let [right, wrong] = [0, 0];
    for (const [, text] of benches) {
      const bench = parse(text) as object;
      for (const place of placesIn(bench)) {
        for (const value of values) {
          const other = changed(bench, place, (holder, key) => {
            holder[key] = value;
          });
          const said = valid(other);
          const { taken, wellFormed } = readerOf(other);
          expect(said, `${place.join('.')} = ${JSON.stringify(value)}`).toBe(taken || (said && wellFormed));
          if (said) right += 1;
          else wrong += 1;
        }
      }
    }
    expect(Math.min(right, wrong)).toBeGreaterThan(50);
  });
});
