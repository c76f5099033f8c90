import { describe, expect, it } from 'vitest';
import { type CodedBatch, onBench, readSheetCode, sheetCode } from '../../src/sheet/code.js';
import { readLetters, spelledOut } from '../../src/sheet/letters.js';
import { seeded } from '../../src/meter/matrix.js';

const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const WHERE = { field: '--sheet' };

const BATCH: CodedBatch = {
  feed: 'Moss, Südfenster',
  strength: 0.8,
  litres: 3.785,
  items: [
    { id: 'base', amount: 12.35, tool: 'scale' },
    { id: 'part-c', amount: 1.234567, tool: 'spoon' },
    { id: 'trace', amount: 0.35, tool: 'syringe' },
  ],
  beforeFull: 2,
  waters: [],
};
const KNOWN = { feeds: ['bark', BATCH.feed], products: ['part-c', 'kelp', 'base', 'trace'], waters: ['rain'] };

function read(text: string) {
  const code = readSheetCode(text, WHERE);
  if (!code.ok) throw new Error(code.problems[0]!.fix);
  return code.value;
}

describe('letters to be read aloud', () => {
  it('stand in groups of four, without I, L, O and U; case, spaces and dashes do not count', () => {
    const code = sheetCode(BATCH);
    expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4})*$/);
    const said = code.toLowerCase().replaceAll('-', ' ').replaceAll('0', 'o').replaceAll('1', 'l');
    expect(read(` ${said} `)).toEqual(read(code));
    expect(read(code.replaceAll('-', '–').replaceAll('1', 'I'))).toEqual(read(code));
  });

  it('every one wrong letter and every swap of neighbours is found, in long and short codes', () => {
    const random = seeded(3);
    let [wrong, swapped] = [0, 0];
    for (let bits = 3; bits < 400; bits += 37) {
      let number = 0n;
      for (let i = 0; i < bits; i += 1) number = number * 2n + (random.uniform() < 0.5 ? 1n : 0n);
      const word = spelledOut(number).replaceAll('-', '');
      expect(readLetters(word)).toEqual({ ok: true, number });
      for (let i = 0; i < word.length; i += 1) {
        for (const letter of LETTERS) {
          if (letter === word[i]) continue;
          expect(readLetters(word.slice(0, i) + letter + word.slice(i + 1)).ok).toBe(false);
          wrong += 1;
        }
        const [a, b] = [word[i], word[i + 1]];
        if (b === undefined || a === b) continue;
        expect(readLetters(word.slice(0, i) + b + a + word.slice(i + 2)).ok).toBe(false);
        swapped += 1;
      }
    }
    expect(wrong).toBeGreaterThan(10_000);
    expect(swapped).toBeGreaterThan(300);
  });

  it('a letter too few, too many or strange is told as that', () => {
    const code = sheetCode(BATCH);
    for (const text of [code.slice(1), `${code}7`, code.replace(/.$/, 'U'), '', 'phalaenopsis'])
      expect(readSheetCode(text, WHERE)).toMatchObject({ ok: false, problems: [{ code: 'sheet-code' }] });
  });
});

describe('a batch comes back from its code', () => {
  it('feed, strength, litres, doses in their order', () => {
    const found = onBench(read(sheetCode(BATCH)), KNOWN);
    const items = BATCH.items.map((item) => ({ ...item, amount: item.id === 'part-c' ? 1.23 : item.amount }));
    expect(found).toEqual({ kind: 'found', batch: { ...BATCH, items } });
  });

  it('names are compared as everywhere: case and width do not count', () => {
    const renamed = { ...KNOWN, feeds: ['MOSS, SÜDFENSTER'], products: ['BASE', 'Part-C', 'trace'] };
    expect(onBench(read(sheetCode(BATCH)), renamed)).toMatchObject({ kind: 'found' });
  });

  it('shares of several waters come back to a thousandth', () => {
    const waters = [
      { id: 'rain', share: 0.625 },
      { id: 'tap', share: 0.375 },
    ];
    const found = onBench(read(sheetCode({ ...BATCH, waters })), { ...KNOWN, waters: ['tap', 'rain'] });
    expect(found).toMatchObject({ kind: 'found', batch: { waters } });
  });

  it('what the bench does not hold is told: feed, product, water, or another bench', () => {
    const code = read(sheetCode({ ...BATCH, waters: [{ id: 'rain', share: 1 }] }));
    expect(onBench(code, { ...KNOWN, feeds: ['bark'] })).toEqual({ kind: 'no feed' });
    expect(onBench(code, { ...KNOWN, products: ['base', 'trace'] })).toEqual({ kind: 'no product', items: [1] });
    expect(onBench(code, { ...KNOWN, waters: ['well'] })).toEqual({ kind: 'no water' });
  });

  it('among many products whose marks are alike, all names together tell which', () => {
    const crowd = Array.from({ length: 3000 }, (_, i) => `jar ${i}`);
    const found = onBench(read(sheetCode(BATCH)), { ...KNOWN, products: [...crowd, ...KNOWN.products] });
    expect(found).toMatchObject({ kind: 'found', batch: { items: BATCH.items.map(({ id }) => ({ id })) } });
    // without the right ones, such as are alike are not taken for them
    expect(onBench(read(sheetCode(BATCH)), { ...KNOWN, products: crowd }).kind).not.toBe('found');
  });

  it('every amount that tools print comes back: steps of scales and syringes from 0.01 g to 500 g', () => {
    const random = seeded(5);
    for (let i = 0; i < 2000; i += 1) {
      const step = [0.001, 0.01, 0.1, 1][i % 4]!;
      const amount = Number((step * Math.ceil(random.uniform() * 99_999)).toFixed(3));
      const one = { ...BATCH, items: [{ id: 'base', amount, tool: 'scale' as const }], beforeFull: 1 };
      expect(read(sheetCode(one)).items[0]!.amount).toBe(amount);
    }
  });
});
