import { describe, expect, it } from 'vitest';
import { readBench } from '../../../src/catalog/bench.js';
import type { Bench, FeedSpec } from '../../../src/catalog/bench-types.js';
import type { Option } from '../../../src/desk/options/option.js';
import { readWish } from '../../../src/desk/options/read-wish.js';
import { parseWaterWords } from '../../../src/desk/options/water.js';
import { WISH_OPTIONS } from '../../../src/desk/options/wishes-table.js';
import { shippedCatalog } from '../../../src/desk/shipped-catalog.js';
import type { Checked, Problem } from '../../../src/problem.js';

const catalog = shippedCatalog();
const mirrored = Object.entries(WISH_OPTIONS as Record<string, Option>).filter(
  ([, option]) => option.bench !== undefined,
);

/** Words of every kind that a person may write after an option or a key; some right, most wrong for most of them. */
const TEXTS = [
  'phalaenopsis',
  'Moth orchids',
  'moth orchyd',
  'sphagnum',
  'long-fibred moss',
  'bloom',
  'blossom',
  '80 %',
  '80',
  '0.8',
  '600 %',
  'N 90 mg/L',
  'N: 90 mg/L',
  'N = 1,5 g/L',
  '4 L',
  '1 US gal',
  '4 gal',
  '1,5 L',
  '50 mL',
  '31000 L',
  '4 kg',
  'a jugful',
  'EC',
  'ec',
  '500',
  '0.64',
  '5000',
  'EUR',
  'rain',
  'snow',
  'Ca=40, Mg=11, alkalinity=130',
  'Ca=40, Xx=3',
  'Ca=many',
  'Ca >= 3 * Mg',
  'NH4 < 0.1 * N',
  'EC <= 0.6',
  'Ca * Mg <= 3',
  'Xx <= 3',
  'South',
  'southern',
  '3, 4, 6, 8, 9, 10, 10, 9, 7, 5, 3, 3',
  '16; 16,5; 17; 19; 21; 23; 24; 24; 22; 19; 17; 16 °C',
  '3 4 6',
];

/** A bench in which only that key says something of its own. */
function benchOf(key: string, text: string): Checked<Bench> {
  const feed: Record<string, unknown> = { plants: 'phalaenopsis', medium: 'bark' };
  const bench: Record<string, unknown> = { water: 'rain', feeds: { own: feed } };
  const part = key.split('.').at(-1)!;
  if (key.startsWith('feeds.')) feed[part] = text;
  else if (key.includes('.')) bench[key.split('.')[0]!] = { [part]: text };
  else bench[key] = key === 'water' ? asKeys(text) : text;
  return readBench(JSON.stringify(bench), 'bench.yaml', catalog);
}

/** An analysis is keys in bench.yaml and pairs after an option. */
function asKeys(text: string): unknown {
  const words = parseWaterWords(text, {});
  return words.ok ? words.value : text;
}

/** What the bench made of it, as the option would have it. */
const VALUES: Readonly<Record<string, (bench: Bench, feed: FeedSpec, text: string) => unknown>> = {
  'feeds.*.plants': (_, feed) => feed.plants,
  'feeds.*.medium': (_, feed) => feed.medium,
  'feeds.*.phase': (_, feed) => feed.phase,
  'feeds.*.strength': (_, feed) => feed.strength,
  'feeds.*.batch': (_, feed) => feed.batchLitres,
  'feeds.*.rules': (_, feed) => feed.rules,
  'feeds.*.weekly': (_, feed) => feed.weeklyLitres,
  'season.hemisphere': ({ season }) => season?.hemisphere,
  'season.light': ({ season }) => season?.light,
  'season.temperature': ({ season }) => season?.temperature,
  'pen.scale': ({ pen }) => (pen.reads === 'ppm' ? pen.scale : null),
  // where it was read from is told by the place of its own
  water: ({ waters }) => waters.map((water) => ({ ...water, source: expect.anything() })),
};

/** A Problem without its place. */
const said = ({ code, severity, found, expected, fix }: Problem) => ({ code, severity, found, expected, fix });

describe('a key of bench.yaml and its option', () => {
  it('are the keys of a bench that an option can say', () => {
    const keys = mirrored.map(([, { bench }]) => bench);
    expect(keys).toEqual([
      'feeds.*.plants',
      'feeds.*.medium',
      'feeds.*.phase',
      'feeds.*.strength',
      'feeds.*.batch',
      'water',
      'currency',
      'feeds.*.rules',
      'feeds.*.weekly',
      'season.hemisphere',
      'season.light',
      'season.temperature',
      'pen.scale',
    ]);
  });

  it.each(mirrored)('%s are read alike, down to the words of every refusal', (key, option) => {
    const tally = { read: 0, refused: 0 };
    for (const text of TEXTS) {
      // pairs are the option's way to write keys; what is no pair has no like in bench.yaml
      if (option.bench === 'water' && !parseWaterWords(text, {}).ok) continue;
      const bench = benchOf(option.bench!, text);
      if (option.read === undefined) {
        expect(bench.ok && bench.value.currency).toBe(text);
        tally.read += 1;
        continue;
      }
      const own = readWish(key as 'plants', text, { catalog });
      expect((own.ok ? own.warnings : own.problems).map(said)).toEqual(
        (bench.ok ? bench.warnings : bench.problems).map(said),
      );
      expect(own.ok).toBe(bench.ok);
      tally[own.ok ? 'read' : 'refused'] += 1;
      if (own.ok && bench.ok) {
        const expected = VALUES[option.bench!]?.(bench.value, bench.value.feeds[0]!, text);
        expect(own.value).toEqual(expected);
      }
    }
    expect(tally.read).toBeGreaterThan(0);
    expect(option.read === undefined || tally.refused > 0).toBe(true);
  });
});
