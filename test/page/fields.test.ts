import { describe, expect, it } from 'vitest';
import { BENCH } from '../../src/catalog/bench-keys.js';
import { FEED } from '../../src/catalog/bench-feeds.js';
import { KIT, PEN } from '../../src/catalog/bench-kit.js';
import { SEASON } from '../../src/catalog/bench-season.js';
import { readBench } from '../../src/catalog/bench.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { setValue, shownAt, typedAs } from '../../src/page/edit/bench.js';
import {
  BENCH_FIELDS,
  type BenchField,
  FEED_FIELDS,
  KIT_FIELDS,
  OWN_CONTROLS,
  PENS,
  POT_FIELDS,
  SEASON_FIELDS,
} from '../../src/page/edit/bench-fields.js';
import { startOf } from '../../src/page/state.js';
import { waterQuestion } from '../../src/page/work/water.js';
import { Refusal } from '../../src/problem.js';

const keys = (fields: readonly BenchField[], ...others: string[]): string[] =>
  [...fields.map(({ key }) => key), ...others].sort();
const keysOf = ({ shape }: { shape: object }): string[] => Object.keys(shape).sort();

const BENCH_TEXT = `# ours
name: cool room
water: { use: rain }  # roof
kit: { spoons: [1 tsp] }
pen: EC
feeds:
  moss: { plants: pleurothallid, medium: sphagnum }
`;

const written = (text: string, path: string[], value: string | null): string =>
  setValue(startOf({ 'bench.yaml': text }), path, value, '2026-11-28T12:00').kept.texts['bench.yaml']!;

/** What a grower types in each field, beside what the file then says of it. */
const TYPED: [above: string[], key: string, typed: string, yaml: string][] = [
  [[], 'name', 'Öl & Moos', 'name: Öl & Moos'],
  [[], 'currency', 'USD', 'currency: USD'],
  [[], 'law', 'eu', 'law: eu'],
  [['kit'], 'spoons', '1 tsp, 1/4 tsp', 'kit: { spoons: [1 tsp, 1/4 tsp] }'],
  [['kit'], 'scale', '0.01 g ± 0.02 g', 'kit: { spoons: [1 tsp], scale: 0.01 g ± 0.02 g }'],
  [['kit'], 'syringe', '5 mL by 0.2 mL', 'kit: { spoons: [1 tsp], syringe: 5 mL by 0.2 mL }'],
  [['kit'], 'dropper', '20 drops/mL', 'kit: { spoons: [1 tsp], dropper: 20 drops/mL }'],
  [['kit'], 'cans', '1 US gal, 1,5 L', 'kit: { spoons: [1 tsp], cans: [1 US gal, "1,5 L"] }'],
  [['season'], 'hemisphere', 'south', 'season: { hemisphere: south }'],
  [['season'], 'light', '3, 4, 6, 8, 9, 10, 10, 9, 7, 5, 3, 3', 'season: { light: [3, 4, 6, 8, 9'],
  [
    ['season'],
    'temperature',
    '16; 16,5; 17; 19; 21; 23; 24; 24; 22; 19; 17; 16',
    'season: { temperature: [16, "16,5", 17',
  ],
  [['feeds', 'moss'], 'strength', '60 %', 'sphagnum, strength: 60 % }'],
  [['feeds', 'moss'], 'batch', '1 US gal', 'sphagnum, batch: 1 US gal }'],
  [['feeds', 'moss'], 'weekly', '2 US gal', 'sphagnum, weekly: 2 US gal }'],
  [['feeds', 'moss'], 'rules', 'NH4 <= 0.1 * N\nP >= 5', 'rules: [NH4 <= 0.1 * N, P >= 5]'],
  [['feeds', 'moss'], 'pots', '24', 'pots: 24'],
  [['feeds', 'moss'], 'pot', '0.5 L', 'pot: 0.5 L'],
  [['feeds', 'moss'], 'watering', '6 L', 'watering: 6 L'],
  [['feeds', 'moss'], 'months', 'Dec: rest\nJan: none\nMay: growth, 60 %', 'months: { Dec: rest, Jan: none, May:'],
];

describe('the fields of the place of plants', () => {
  it('leave no key of bench.yaml without one', () => {
    expect(keys(BENCH_FIELDS, ...OWN_CONTROLS.bench)).toEqual(keysOf(BENCH));
    expect(keys(KIT_FIELDS)).toEqual(keysOf(KIT));
    expect(keys(SEASON_FIELDS)).toEqual(keysOf(SEASON));
    expect(keys([...FEED_FIELDS, ...POT_FIELDS], ...OWN_CONTROLS.feed)).toEqual(keysOf(FEED));
    expect(TYPED.map(([, key]) => key).sort()).toEqual(
      keys([...BENCH_FIELDS, ...KIT_FIELDS, ...SEASON_FIELDS, ...FEED_FIELDS, ...POT_FIELDS]),
    );
    expect(keysOf(PEN)).toEqual(['scale']);
  });

  it.each(TYPED)(
    '%j %s: what is typed is what the bench reads, and the field shows it again',
    (above, key, typed, yaml) => {
      const all = [...BENCH_FIELDS, ...KIT_FIELDS, ...SEASON_FIELDS, ...FEED_FIELDS, ...POT_FIELDS];
      const field = all.find((one) => one.key === key)!;
      const path = [...above, key];
      const text = written(BENCH_TEXT, path, typedAs(typed, field));
      expect(text).toContain(yaml);
      expect(text).toContain('# roof');
      expect(text.startsWith('# ours\n')).toBe(true);
      const read = readBench(text, 'bench.yaml', shippedCatalog());
      expect(read.ok ? [] : read.problems).toEqual([]);
      const shown = shownAt(text, path, field);
      expect(written(text, path, typedAs(shown, field))).toBe(text);
      const gone = written(text, path, typedAs('', field));
      expect(shownAt(gone, path, field)).toBe('');
      expect(readBench(gone, 'bench.yaml', shippedCatalog()).ok).toBe(true);
    },
  );

  it.each(PENS)('the pen $id is one that the bench reads', ({ id }) => {
    const read = readBench(written(BENCH_TEXT, ['pen'], id), 'bench.yaml', shippedCatalog());
    expect(read.ok && read.value.pen).toEqual(
      id === 'EC' ? { reads: 'EC' } : { reads: 'ppm', scale: Number(/\d+/.exec(id)![0]) },
    );
  });

  it('take the water by a pen, in ppm of its own scale or in µS, as the bench names it', async () => {
    const on640 = { 'bench.yaml': BENCH_TEXT.replace('pen: EC', 'pen: { scale: 640 }') };
    expect((await waterQuestion({ texts: on640, reading: '300' })).id).toBe('hard-tap');
    expect(await waterQuestion({ texts: on640, reading: '300 ppm' })).toEqual(
      await waterQuestion({ texts: on640, reading: '469 µS' }),
    );
    const { id, says } = await waterQuestion({ texts: { 'bench.yaml': BENCH_TEXT }, reading: '20 µS' });
    expect([id, says]).toEqual(['rain', expect.stringMatching(/^0\.02 mS\/cm: .* rain water/i)]);
    const text = written(BENCH_TEXT, ['water'], `{ use: ${id} }`);
    expect(text).toBe(BENCH_TEXT);
    await expect(waterQuestion({ texts: { 'bench.yaml': BENCH_TEXT }, reading: 'wet' })).rejects.toThrow(Refusal);
  });
});
