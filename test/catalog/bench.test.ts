import { describe, expect, it } from 'vitest';
import { readBench } from '../../src/catalog/index.js';
import { littleCatalog } from './little.js';
import { clean, codes, problemsOf, taken, told } from './told.js';

const read = (text: string) => readBench(text, 'bench.yaml', littleCatalog());

const WHOLE = `name: Fern Street propagation bench
currency: EUR
water: { use: rain }
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp], scale: 0.01 g, syringe: 1 mL, dropper: 20 drops/mL }
pen: { scale: 500 }
feeds:
  moss: { plants: pleurothallid, medium: sphagnum, phase: growth, strength: 80 %, batch: 4 L, weekly: 1 US gal, rules: ["NH4 <= 0 * N"] }
  moth orchids in bark:
    plants: moth orchid
    medium: fir bark
    phase: winter
    strength: { N: 90 mg/L }
`;

describe('bench.yaml', () => {
  it('is read into a bench', () => {
    const bench = clean(read(WHOLE));
    expect(bench).toMatchObject({
      name: 'Fern Street propagation bench',
      currency: 'EUR',
      pen: { reads: 'ppm', scale: 500 },
    });
    expect(bench.waters).toMatchObject([{ id: 'rain', mgPerLitre: { Ca: 1.5 }, alkalinity: 2, pricePerLitre: 0 }]);
    expect(bench.kit).toMatchObject({ scaleStepGrams: 0.01, syringeMillilitres: 1, dropsPerMillilitre: 20 });
    expect(bench.kit.spoons.map((s) => s.label)).toEqual(['1 tsp', '1/2 tsp', '1/4 tsp', '1/8 tsp']);
    // US teaspoon 231/768 cubic inches = 4.92892159375 mL (NIST Handbook 44, appendix C, from memory)
    expect(bench.kit.spoons[2]!.millilitres).toBeCloseTo(4.92892159375 / 4, 12);
    expect(bench.feeds).toEqual([
      {
        name: 'moss',
        plants: 'pleurothallid',
        medium: 'sphagnum',
        phase: 'growth',
        strength: { kind: 'percent', percent: 80 },
        batchLitres: 4,
        weeklyLitres: 3.785411784,
        rules: [{ kind: 'linear', text: 'NH4 <= 0 * N', terms: { 'NH4-N': 1 }, upper: 0, from: { owner: 'you' } }],
        where: { file: 'bench.yaml', line: 7, field: 'feeds.moss' },
      },
      {
        name: 'moth orchids in bark',
        plants: 'phalaenopsis',
        medium: 'bark',
        phase: 'rest',
        strength: { kind: 'nitrogen', mgPerLitre: 90 },
        rules: [],
        where: { file: 'bench.yaml', line: 9, field: 'feeds.moth orchids in bark' },
      },
    ]);
  });

  it('takes growth and full strength where a feed does not say', () => {
    const { feeds } = clean(read('water: rain\nfeeds: { a: { plants: phal, medium: bark } }\n'));
    expect(feeds[0]).toMatchObject({ phase: 'growth', strength: { kind: 'percent', percent: 100 } });
  });

  it.each([
    ['80 %', { kind: 'percent', percent: 80 }],
    ['80%', { kind: 'percent', percent: 80 }],
    ['"N: 90 mg/L"', { kind: 'nitrogen', mgPerLitre: 90 }],
    ['N 90 mg/L', { kind: 'nitrogen', mgPerLitre: 90 }],
    ['{ N: 0.09 g/L }', { kind: 'nitrogen', mgPerLitre: 90 }],
  ])('reads the strength %s', (text, strength) => {
    expect(
      clean(read(`water: rain\nfeeds: { a: { plants: phal, medium: bark, strength: ${text} } }\n`)).feeds[0]!.strength,
    ).toEqual(strength);
  });

  it.each([
    ['80', 'Say which: 80 %, or "N: 80 mg/L"?'],
    ['0.8', 'Say which: 80 % of full strength?'],
    ['90 ppm', 'Write for example 80 % or "N: 90 mg/L".'],
    ['{ P: 90 mg/L }', 'Write for example 80 % or "N: 90 mg/L".'],
    ['0 %', 'Write for example 80 % or "N: 90 mg/L".'],
    ['900 %', 'Write for example 80 % or "N: 90 mg/L".'],
    ['N 90 g', 'Write for example 80 % or "N: 90 mg/L".'],
  ])('refuses the strength %s', (text, fix) => {
    const result = read(`water: rain\nfeeds:\n  a: { plants: phal, medium: bark, strength: ${text} }\n`);
    expect(problemsOf(result)).toMatchObject([
      { code: 'strength', where: { line: 3, field: 'feeds.a.strength' }, fix },
    ]);
  });

  it('reads an analysis of one’s own', () => {
    const bench = clean(
      read('water: { name: well, Ca: 40 mg/L, NO3-N: 2, alkalinity: 120, pH: 7.1, price_per_litre: 0.002 }\n'),
    );
    expect(bench.waters).toEqual([
      {
        id: 'well',
        name: 'well',
        mgPerLitre: { Ca: 40, 'NO3-N': 2 },
        alkalinity: 120,
        pH: 7.1,
        pricePerLitre: 0.002,
        source: 'bench.yaml:1',
        evidence: 'grower',
      },
    ]);
  });

  it('reads several waters with prices of their own', () => {
    const bench = clean(read('water:\n  - { use: rain, price: 0.1 }\n  - hard\n  - { Ca: 3, name: butt }\n'));
    expect(bench.waters.map((w) => [w.id, w.pricePerLitre])).toEqual([
      ['rain', 0.1],
      ['hard-tap', 0],
      ['butt', 0],
    ]);
  });

  it('reads pens', () => {
    for (const [text, pen] of [
      ['0.5', { reads: 'ppm', scale: 500 }],
      ['{ scale: 0.64 }', { reads: 'ppm', scale: 640 }],
      ['EC', { reads: 'EC' }],
      ['ec', { reads: 'EC' }],
      ['{ scale: EC }', { reads: 'EC' }],
      ['700', { reads: 'ppm', scale: 700 }],
    ] as const) {
      expect(clean(read(`water: rain\npen: ${text}\n`)).pen).toEqual(pen);
    }
  });

  it('keeps feeds called __proto__, constructor or result', () => {
    const feed = '{ plants: phal, medium: bark }';
    const bench = clean(
      read(`water: rain\nfeeds:\n  __proto__: ${feed}\n  constructor: ${feed}\n  result: ${feed}\n  1: ${feed}\n`),
    );
    expect(bench.feeds.map((f) => f.name)).toEqual(['__proto__', 'constructor', 'result', '1']);
  });

  it('follows anchors, and reads CRLF and a byte-order mark', () => {
    const text = '\uFEFFwater: rain\nfeeds:\n  a: &a { plants: phal, medium: bark }\n  b: *a\n'.replaceAll(
      '\n',
      '\r\n',
    );
    expect(clean(read(text)).feeds.map((f) => f.name)).toEqual(['a', 'b']);
  });

  it('reads marks, errors and cans of a kit', () => {
    const bench = read(
      'water: rain\nkit: { scale: 0.01 g ± 0.03 g, syringe: 5 mL by 0.5 mL, cans: [1 US gal, 10 L] }\n',
    );
    expect(taken(bench).kit).toEqual({
      spoons: [],
      scaleStepGrams: 0.01,
      scaleErrorGrams: 0.03,
      syringeMillilitres: 5,
      syringeStepMillilitres: 0.5,
      cans: [
        { label: '1 US gal', millilitres: 3785.411784 },
        { label: '10 L', millilitres: 10_000 },
      ],
    });
  });

  it('says that a decimal comma was read as one', () => {
    const bench = read('water: rain\nkit: { scale: "0,01 g" }\n');
    expect(taken(bench).kit.scaleStepGrams).toBe(0.01);
    expect(told(bench)).toEqual(['bench.yaml:2 (kit.scale): found "0,01"; expected a decimal point. Read as 0.01.']);
  });

  it('tells every problem at once, each with its line, key, and fix', () => {
    const result = read(`nmae: bench
water: { use: rian }
kit:
  spoon: [1 tsp]
  scale: 0.01
  syringe: 5 g
  dropper: 20
pen: { scale: 5 }
feeds:
  moss:
    plants: plurothallid
    medium: sphagmum
    phase: sumer
    strength: 80
    batch: 4 gal
    weekly: 10 g
    rules: ["NH4 <= 0 * N", "K >> 2"]
    strenght: 80 %
  bark: { medium: [bark] }
  clay: phal
`);
    expect(codes(problemsOf(result))).toEqual([
      'key-unknown@1',
      'name-unknown@2',
      'key-unknown@4',
      'amount@5',
      'kit@6',
      'kit@7',
      'pen-scale@8',
      'name-unknown@11',
      'name-unknown@12',
      'name-unknown@13',
      'strength@14',
      'amount@15',
      'volume@16',
      expect.stringMatching(/@17$/),
      'key-unknown@18',
      'value-wrong-kind@19',
      'key-missing@19',
      'yaml-not-keys@20',
    ]);
    expect(told(result)).toEqual(
      expect.arrayContaining([
        'bench.yaml:1 (nmae): found key "nmae"; expected a key of this file. Did you mean name?',
        'bench.yaml:2 (water.use): found "rian"; expected a water of the catalog. Did you mean rain?',
        'bench.yaml:11 (feeds.moss.plants): found "plurothallid"; expected a plant group. Did you mean pleurothallid?',
        'bench.yaml:18 (feeds.moss.strenght): found key "strenght"; expected a key of feeds.moss. Did you mean strength?',
        'bench.yaml:19 (feeds.bark.plants): found no plants; expected a plant group, such as phalaenopsis. Add plants to feeds.bark.',
      ]),
    );
  });

  it.each(
    [
      ['', 'yaml-not-a-map@1'],
      ['# only a comment\n', 'yaml-not-a-map@1'],
      ['just words\n', 'yaml-not-a-map@1'],
      ['- a list\n', 'yaml-not-a-map@1'],
      ['water: rain\nwater: tap\n', 'key-twice@2'],
      ['water: rain\n\tpen: EC\n', 'yaml-syntax@2'],
      ['water: rain\nfeeds: { a: {\n', 'yaml-syntax@3'],
      ['water: rain\nfeeds:\n  a:\n    strength: N: 90 mg/L\n', 'yaml-syntax@4'],
      ['water: rain\n\u0000\n', 'file-binary@2'],
      [`water: rain\nname: ${'['.repeat(20_000)}\n`, 'yaml-nested@2'],
      [`water: rain\nname: ${'['.repeat(20_000)}${']'.repeat(20_000)}\n`, 'yaml-nested@2'],
      [`water: rain\n# ${'x'.repeat(600_000)}\n`, 'file-too-long@-'],
      ['name: no water\n', 'key-missing@1'],
      ['water:\n', 'value-wrong-kind@1'],
    ].map(([text, code]) => ({ start: text!.slice(0, 40), text: text!, code: code! })),
  )('refuses $start', ({ text, code }) => {
    expect(codes(problemsOf(read(text)))).toContain(code);
  });

  it('refuses aliases that grow without end, run in a circle or stand for nothing', () => {
    const layers = Array.from(
      { length: 12 },
      (_, i) =>
        `l${i}: &l${i} [${Array(9)
          .fill(i ? `*l${i - 1}` : 'x')
          .join(', ')}]`,
    );
    for (const text of [`${layers.join('\n')}\nwater: rain\n`, 'water: &w [*w]\n', 'water: *nowhere\n']) {
      expect(codes(problemsOf(read(text)))).toEqual(['yaml-alias@-']);
    }
  });
});
