import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBench, readProducts } from '../../src/catalog/index.js';
import type { Checked } from '../../src/problem.js';
import { LITTLE, littleCatalog, withFiles } from './little.js';

const SHELF =
  'id,name,form,basis,N,NO3-N,K2O,density,on_hand,pack,price,max_rate\na,A,powder,w/w,5,5,20,,450 g,1 kg,"12,5",2 g/L\nb,B,liquid,w/v,,,10,1.1,1 L,2 L,3,1 mL/L\n';
const BENCH =
  'name: x\nwater: [{ use: rain }, { Ca: 40 }]\nkit: { spoons: [1 tsp], scale: 0.01 g }\npen: { scale: 500 }\nfeeds:\n  moss: { plants: phal, medium: moss, strength: 80 %, batch: 4 L, rules: ["NH4 <= 0 * N"] }\n';

/** A text with a piece cut out and another put in, as a slip of the hand or of a program would. */
const slipped = (text: string) =>
  fc
    .tuple(
      fc.nat(text.length),
      fc.oneof(fc.nat(1), fc.nat(20)),
      fc.oneof(
        fc.string({ unit: 'binary', maxLength: 8 }),
        fc.constantFrom(',', ';', '"', '\n', '\t', ': ', '{', '[', '*', '&a ', '-', '%', '1e999', 'NaN', '\r'),
      ),
    )
    .map(([at, cut, put]) => text.slice(0, at) + put + text.slice(at + cut));

const mostly = (texts: fc.Arbitrary<string>) =>
  fc.oneof({ weight: 4, arbitrary: texts }, { weight: 1, arbitrary: fc.string({ unit: 'binary' }) });

/** How many of the texts were read: a generator that makes only nonsense tries little. */
let read = 0;

/** Refused with whole problems, or read with finite numbers only. */
function answers(result: Checked<unknown>): void {
  for (const p of result.ok ? result.warnings : result.problems) {
    for (const words of [p.code, p.found, p.expected, p.fix]) expect(words.length).toBeGreaterThan(0);
    expect(p.where.file).toBeDefined();
  }
  if (!result.ok) expect(result.problems.some((p) => p.severity === 'error')).toBe(true);
  else {
    read += 1;
    JSON.stringify(result.value, (_key, value) => {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      return value;
    });
  }
}

describe('any text', () => {
  const catalog = littleCatalog();

  it('is read or refused as a shelf, never thrown at the grower', () => {
    fc.assert(
      fc.property(mostly(slipped(SHELF)), (text) => answers(readProducts(text, 'shelf.csv'))),
      { numRuns: 500, seed: 1 },
    );
  });

  it('is read or refused as a bench', () => {
    fc.assert(
      fc.property(mostly(slipped(BENCH)), (text) => answers(readBench(text, 'bench.yaml', catalog))),
      { numRuns: 500, seed: 2 },
    );
  });

  it('is read or refused as a file of the catalog', () => {
    const names = Object.keys(LITTLE) as (keyof typeof LITTLE)[];
    const file = fc.constantFrom(...names).chain((name) => slipped(LITTLE[name]).map((text) => ({ [name]: text })));
    fc.assert(
      fc.property(file, (files) => answers(withFiles(files))),
      { numRuns: 500, seed: 3 },
    );
  });

  it('is sometimes read', () => {
    expect(read).toBeGreaterThan(100);
  });
});
