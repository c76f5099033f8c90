import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseAdvice } from '../../src/advice/parse.js';
import { translate } from '../../src/advice/translate.js';
import { problemLine } from '../../src/problem.js';

/** Advice, and every line that is said about it. */
const CASES: readonly [text: string, said: string[]][] = [
  [
    'quater strength 20-20-20',
    [
      'advice-unread: found "quater" in "quater strength 20-20-20"; expected advice of which every word is understood. Did you mean quarter?',
    ],
  ],
  [
    '1 heaped tsp/gal of 20-20-20',
    [
      'advice-unit: found "heaped tsp"; expected a level spoon. Ask how much that weighs; a heap may hold twice the level spoon.',
    ],
  ],
  ['2 capfuls/US gal of 3-1-2', ['advice-unit: found "capfuls"; expected the size of the cap. Write the cap in mL.']],
  [
    '-1 tsp/US gal of 20-20-20',
    [
      'advice-negative: found "-1"; expected an amount above zero. Leave the minus out; for a range write 70-80 ppm N or 70 to 80 ppm N.',
    ],
  ],
  [
    '1 g/L of 20-20-20 above the water',
    [
      'advice-above-water: found "1 g/L of 20-20-20 above the water"; expected a reading of a meter beside "above the water". Leave the water out; what it brings is counted anyway.',
    ],
  ],
  [
    '1 g/L of 20-20-20 in a 1:1 injector',
    ['advice-dilution: found "in a 1:1 injector"; expected one part of stock in two or more. Write for example 1:100.'],
  ],
  [
    '1 tsp/US gal',
    [
      'advice-product: found "1 tsp/US gal" of a product that is not named; expected the grade of the product. Add it, for example: of 20-20-20. For a product on the shelf write a recipe: 1 g base in 4 L.',
    ],
  ],
  [
    'half strength',
    [
      'advice-base: found "half strength"; expected a strength, or a share of one. Say of what, and what its label calls full strength: half strength 20-10-20 at 1 tsp/US gal.',
    ],
  ],
  [
    'weakly, weekly',
    [
      'advice-weakly: found "weakly, weekly"; expected how weak. Many mean by it a quarter strength of the label or less (common practice, no source): write quarter strength 20-20-20, or 50 ppm N.',
    ],
  ],
  [
    '20-20-20',
    ['advice-base: found "20-20-20"; expected how much of it. Add the rate: 1/4 tsp per US gal of 14-4-17.'],
  ],
  [
    '125 ppm N and EC 0.8',
    [
      'advice-two-strengths: found "125 ppm N and EC 0.8"; expected one strength: a rate, or one figure. Translate the one and then the other.',
    ],
  ],
  [
    '1,500 ppm N',
    [
      'advice-number: found "1,500"; expected a number that can be read one way only. Write it without thousands marks, with a point before decimals.',
    ],
  ],
  [
    'EC 0.001',
    [
      'advice-ec: found "EC 0.001"; expected an EC of a feed, from 0.02 to 20 mS/cm. Write the unit: mS/cm (the same as dS/m) or µS/cm.',
    ],
  ],
  [
    '200 ppm N on a 500 pen',
    [
      'advice-scale: found "200 ppm N on a 500 pen"; expected a reading in ppm beside the scale of a pen. Write for example 200 ppm on a 500 pen, without an element; or leave the pen out.',
    ],
  ],
  [
    '800 % strength of 20-20-20 at 1 g/L',
    [
      'advice-share: found "800 % strength of"; expected a share of full strength from 0 to 4. Write for example: quarter strength, 1/4 strength or 25 % strength',
    ],
  ],
  [
    '0 g/L of 20-20-20',
    ['advice-rate: found "0 g/L"; expected an amount and a volume above zero. Write for example: 1/4 tsp per US gal'],
  ],
  [
    '100 ppm N of 0-10-10',
    ['advice-no-nitrogen: found "100 ppm N of 0-10-10"; expected a product with nitrogen. A 0-10-10 holds none.'],
  ],
  [
    '100 ppm K of 10-10-10',
    [
      'advice-two-strengths: found "100 ppm K of 10-10-10"; expected mg/L N beside a grade, or K without one. Leave the grade out, or give ppm N.',
    ],
  ],
  [
    '200 ppm NO3',
    [
      'advice-unread: found "NO3" in "200 ppm NO3"; expected advice of which every word is understood. Write for example "1/4 tsp per US gal of 14-4-17", "half strength 20-10-20 at 1 tsp/US gal", "125 ppm N", "EC 0.8 mS/cm" or "200 ppm on a 500 pen".',
    ],
  ],
  [
    '60-60-60 at 1 g/L',
    [
      'analysis-over-100: found figures that need at least 189.5 g in 100 g; expected an analysis that fits into the product. Check for a slipped decimal point, or for figures of oxides (P2O5, K2O, CaO, MgO, SO3) under the headers of elements.',
    ],
  ],
  [
    '1 tsp/gall of 20-20-20',
    [
      'advice-unread: found "gall" in "1 tsp/gall of 20-20-20"; expected advice of which every word is understood. Did you mean gallon?',
    ],
  ],
  [
    '1 sachet per 5 L of 20-20-20',
    [
      'advice-unit: found "sachet"; expected a unit that is known. Write tsp, tbsp, g, oz, mL or drops, per US gal or per L.',
    ],
  ],
  ['0 ppm N', ['advice-rate: found "0 ppm N"; expected a strength above zero. Plain water needs no translation.']],
  [
    'half strenght 20-20-20 at 1 tsp/gal',
    [
      'advice-unread: found "strenght" in "half strenght 20-20-20 at 1 tsp/gal"; expected advice of which every word is understood. Did you mean strength?',
    ],
  ],
  [
    '0.4 mS/m',
    [
      'advice-unread: found "m" in "0.4 mS/m"; expected advice of which every word is understood. Write for example "1/4 tsp per US gal of 14-4-17", "half strength 20-10-20 at 1 tsp/US gal", "125 ppm N", "EC 0.8 mS/cm" or "200 ppm on a 500 pen".',
    ],
  ],
];

/** What is said about advice, as `code: line`. */
function say(text: string): string[] {
  const advice = parseAdvice(text);
  const read = advice.ok ? translate(advice.value) : advice;
  return (read.ok ? [] : read.problems).map((p) => `${p.code}: ${problemLine(p)}`);
}

describe('what is said about advice that cannot be read', () => {
  it.each(CASES)('%j', (text, said) => {
    expect(say(text)).toEqual(said);
  });

  it('reads no more than a sentence', () => {
    expect(say(`${'1 tsp '.repeat(40)}ppm`)).toEqual([
      'advice-unread: found 243 characters; expected advice in one sentence. Write only the amount, the product and the strength.',
    ]);
  });

  it('has a case above for every code of its own', () => {
    const room = new URL('../../src/advice/', import.meta.url);
    const source = readdirSync(room)
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(new URL(name, room), 'utf8'))
      .join('\n');
    const codes = new Set([...source.matchAll(/'(advice-[a-z-]+)'/g)].map((match) => match[1]!));
    const tried = new Set(CASES.flatMap(([, said]) => said.map((line) => line.split(':')[0]!)));
    expect(codes.size).toBeGreaterThan(8);
    expect([...codes].filter((code) => !tried.has(code))).toEqual([]);
  });
});
