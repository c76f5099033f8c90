import { describe, expect, it } from 'vitest';
import { readWeighedSpoons } from '../../src/advice/weighed-spoons.js';
import { readProducts } from '../../src/catalog/shelf.js';
import type { Product } from '../../src/label/product.js';

const shelf = readProducts(
  [
    'id,name,form,formula,N,P2O5,K2O',
    'part-c,Calcium Part C,powder,,15.5,,',
    'epsom,"Epsom salt, fine",powder,MgSO4·7H2O,,,',
    'bloom,Bloom Powder 10-30-20,powder,,10,30,20',
    'base-10,Base ten,powder,,10,10,10',
    'cal-mag,Calcium and Magnesium,powder,,13,,',
    '',
  ].join('\n'),
  'shelf.csv',
);
const PRODUCTS: readonly Product[] = shelf.ok ? shelf.value : [];
const TSP = 4.92892; // mL, US customary: 768 to the gallon of 231 cubic inches (15 CFR / NIST Handbook 44, appendix C)
const OZ = 28.3495; // g, international avoirdupois (NIST Handbook 44, appendix C)

// written before the reader was run on them: product, mL of one spoon, count, grams of all, last digit g
const SENTENCES: [words: string, id: string, mL: number, count: number, grams: number, step: number][] = [
  ['ten level 1/4 tsp of part-c weigh 11.2 g', 'part-c', TSP / 4, 10, 11.2, 0.1],
  ['10 x 1/4 tsp part-c = 11.2 g', 'part-c', TSP / 4, 10, 11.2, 0.1],
  ['11.2 g per 10 x 1/4 tsp of part-c', 'part-c', TSP / 4, 10, 11.2, 0.1],
  ['11 g for ten quarter teaspoons of epsom', 'epsom', TSP / 4, 10, 11, 1],
  ['ten quarter-teaspoons of Epsom salt weighed 11.25 grams', 'epsom', TSP / 4, 10, 11.25, 0.01],
  ['a level teaspoon of part-c is 5.1 g', 'part-c', TSP, 1, 5.1, 0.1],
  ['one level tsp of bloom weighs 4.9g', 'bloom', TSP, 1, 4.9, 0.1],
  ['part-c: 10 level 1/4 tsp weigh 11,2 g', 'part-c', TSP / 4, 10, 11.2, 0.1],
  ['10 level tsp of bloom came to 48 g on my kitchen scale', 'bloom', TSP, 10, 48, 1],
  ['10 tsp bloom 48 g', 'bloom', TSP, 10, 48, 1],
  ['twenty level 1/8 tsp of part-c are 11 g', 'part-c', TSP / 8, 20, 11, 1],
  ['ten half teaspoons of epsom weigh 22 g', 'epsom', TSP / 2, 10, 22, 1],
  ['five half a teaspoon of epsom weigh 11 g', 'epsom', TSP / 2, 5, 11, 1],
  ['10 × ¼ tsp of part-c weigh 11.2 g', 'part-c', TSP / 4, 10, 11.2, 0.1],
  ['1/4 tsp part-c x 10 = 11.2 g', 'part-c', TSP / 4, 10, 11.2, 0.1],
  ['10 level 1.25 mL spoons of part-c weigh 11.2 g', 'part-c', 1.25, 10, 11.2, 0.1],
  ['ten level 5 ml spoons of Calcium and Magnesium weigh 45 g', 'cal-mag', 5, 10, 45, 1],
  ['ten level 1/4 tsp of Bloom Powder 10-30-20 weigh 11.2 g', 'bloom', TSP / 4, 10, 11.2, 0.1],
  ['ten level 1/4 tsp of base-10 weigh 11.2 g', 'base-10', TSP / 4, 10, 11.2, 0.1],
  ['ten 1/64 tsp of part-c weigh 0.7 g', 'part-c', TSP / 64, 10, 0.7, 0.1],
  ['ten level metric tsp of bloom weigh 48 g', 'bloom', 5, 10, 48, 1],
  ['ten level teaspoons of bloom weigh 1.7 oz', 'bloom', TSP, 10, 1.7 * OZ, 0.1 * OZ],
  ['ten level 1/4 tsp of part-c weigh 1.1 g each', 'part-c', TSP / 4, 10, 11, 1],
  ['We weighed 10 level spoonfuls of 1/4 tsp part-c: 11.2 g together.', 'part-c', TSP / 4, 10, 11.2, 0.1],
];

// asked back, each with what it asks for
const ASKED: [words: string, about: RegExp][] = [
  ['ten level spoons of part-c weigh 11 g', /which spoon/],
  ['10 1/4 tsp of part-c weigh 11 g', /how many of which spoon.*10 x 1\/4 tsp/],
  ['ten heaped 1/4 tsp of part-c weigh 16 g', /level spoons/],
  ['ten level 1/4 tsp of part-c weigh 11 to 12 g', /one weight/],
  ['ten level 1/4 tsp of part-c weigh __ g', /what they weigh/],
  ['ten level 1/4 tsp of part-c with the bowl weigh 45 g', /powder alone/],
  ['ten level 1/4 tsp of part-d weigh 11 g', /part-c/],
  ['ten level 1/4 tsp weigh 11 g', /of which product/],
  ['ten level 1/4 tsp of part-c and epsom weigh 11 g', /spoons, a product and a weight/],
  ['ten level 1/4 tsp of part-c', /what they weigh/],
  ['ten scoops of part-c weigh 30 g', /which spoon/],
  ['0 x 1/4 tsp of part-c weigh 3 g', /1 to 1000 spoons/],
  ['', /which spoon/],
];

describe('what level spoons weigh, as it is said', () => {
  it.each(SENTENCES)('%s', (words, id, mL, count, grams, step) => {
    const read = readWeighedSpoons(words, PRODUCTS);
    expect(read.ok ? '' : read.problems).toBe('');
    if (!read.ok) return;
    const { product, millilitres, ...told } = read.value;
    expect([product.id, told.count]).toEqual([id, count]);
    expect(millilitres / mL).toBeCloseTo(1, 4);
    expect(told.grams / grams).toBeCloseTo(1, 4);
    expect(told.step / step).toBeCloseTo(1, 4);
  });

  it.each(ASKED)('asked back: %s', (words, about) => {
    const read = readWeighedSpoons(words, PRODUCTS);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.problems.map(({ expected, fix }) => `${expected} | ${fix}`).join(' ')).toMatch(about);
  });
});
