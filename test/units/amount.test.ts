import * as fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type Amount, parseAmount } from '../../src/units/index.js';

/** The one number of an amount, in the base unit of its kind. */
function read(text: string, drops?: number): number {
  const result = parseAmount(text, drops === undefined ? {} : { dropsPerMillilitre: drops });
  if (!result.ok) throw new Error(result.problems.map((p) => p.found).join());
  return number(result.value);
}

function number(amount: Amount): number {
  switch (amount.kind) {
    case 'mass':
      return amount.grams;
    case 'volume':
      return amount.millilitres;
    case 'mass per volume':
      return amount.mgPerLitre;
    case 'volume per volume':
      return amount.millilitresPerLitre;
    case 'share':
      return amount.percent;
    case 'conductivity':
      return amount.mSPerCm;
    case 'dropper':
      return amount.dropsPerMillilitre;
  }
}

function refusal(text: string): string {
  const result = parseAmount(text, { where: { file: 'shelf.csv', line: 3, field: 'on_hand' } });
  if (result.ok) throw new Error(`accepted: ${JSON.stringify(result.value)}`);
  expect(result.problems).toHaveLength(1);
  const [p] = result.problems;
  expect(p).toMatchObject({
    code: 'amount',
    severity: 'error',
    where: { file: 'shelf.csv', line: 3, field: 'on_hand' },
  });
  return `${p!.found} | ${p!.expected} | ${p!.fix}`;
}

describe('amounts as people write them', () => {
  it.each([
    ['450 g', 450],
    ['450g', 450],
    ['70 mg', 0.07],
    ['50 µg', 0.00005],
    ['2 kg', 2000],
    ['2 lb', 907.18474],
    ['3 lbs', 1360.77711],
    ['1 oz', 28.349523125],
    ['500 mL', 500],
    ['500 ml', 500],
    ['1 L', 1000],
    ['250 µL', 0.25],
    ['250 μL', 0.25],
    ['3 cc', 3],
    ['2 g/L', 2000],
    ['90 mg/L', 90],
    ['1.2 g/mL', 1_200_000],
    ['1.5 mL/L', 1.5],
    ['80 %', 80],
    ['80%', 80],
    ['0.8 mS/cm', 0.8],
    ['800 µS/cm', 0.8],
    ['1.2 dS/m', 1.2],
    ['20 drops/mL', 20],
    ['0 g', 0],
    ['.5 g', 0.5],
    ['1e-3 g', 0.001],
  ])('%s', (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  it('says what each amount measures, and in which unit it was written', () => {
    const kinds = ['1 g', '1 mL', '1 g/L', '1 mL/L', '1 %', '1 mS/cm', '20 drops/mL'].map((text) => {
      const result = parseAmount(text);
      return result.ok ? `${result.value.kind} ${result.value.unit}` : 'refused';
    });
    expect(kinds).toEqual([
      'mass g',
      'volume mL',
      'mass per volume g/L',
      'volume per volume mL/L',
      'share %',
      'conductivity mS/cm',
      'dropper drops/mL',
    ]);
  });

  it.each([
    ['1/4 tsp', 0.25],
    ['¼ tsp', 0.25],
    ['1⁄4 tsp', 0.25],
    ['1 1/2 tsp', 1.5],
    ['1½ tsp', 1.5],
    ['1 ½ tsp', 1.5],
    ['1/64 tsp', 1 / 64],
    ['1/8 level teaspoon', 0.125],
    ['level 1/8 US tsp', 0.125],
    ['1 tbsp', 3],
    ['1 US cup', 48],
    ['1 US fl oz', 6],
    ['1 US gal', 768],
    ['1 gal (US)', 768],
  ])('%s in US teaspoons of 4.92892159375 mL (exact by the US gallon of 231 cubic inches)', (text, teaspoons) => {
    expect(read(text)).toBeCloseTo(teaspoons * 4.92892159375, 9);
  });

  it('knows tad, dash, pinch and smidgen as spoon sets are sold: 1/4, 1/8, 1/16, 1/32 US tsp (from memory)', () => {
    const parts = ['tad', 'dash', 'pinch', 'smidgen'].map((name) => read('1 tsp') / read(`1 ${name}`));
    expect(parts).toEqual([4, 8, 16, 32]);
    expect(read('2 dashes')).toBe(read('1/4 tsp'));
    expect(read('3 pinches')).toBe(3 * read('1 pinch'));
  });

  it('reads a decimal comma and says so', () => {
    const result = parseAmount('1,5 kg');
    expect(result).toMatchObject({ ok: true, value: { grams: 1500 } });
    expect(result.ok && result.warnings.map((w) => `${w.code}: ${w.fix}`)).toEqual(['decimal-comma: Read as 1.5.']);
    expect(read('0,125 g')).toBe(0.125);
  });

  it('counts drops only with a dropper', () => {
    expect(refusal('20 drops')).toMatch(/Count the drops in 1 mL/);
    expect(read('20 drops', 20)).toBe(1);
    expect(read('4 drops/L', 20)).toBe(0.2);
  });

  it('reads rates per any volume', () => {
    expect(read('1 tsp per US gal')).toBeCloseTo(1000 / 768, 12);
    expect(read('1 oz/100 US gal')).toBeCloseTo(74.892, 3);
  });
});

describe('amounts that are refused, each with a way out', () => {
  it.each([
    ['5 gal', /US gal or imperial gal/],
    ['1 tsp/gal', /US gal or imperial gal/],
    ['2 gallons', /US gal or imperial gal/],
    ['90 ppm', /of what.*name the element/],
    ['90 ppm N', /of what.*name the element/],
    ['1 fl oz', /US fl oz or imperial fl oz/],
    ['1 cup', /US cup/],
    ['1 T', /tsp.*tbsp/],
    ['2 scoops', /size of the scoop/],
    ['1 heaped tsp', /level/],
    ['1.2 EC', /mS\/cm/],
    ['1,500 g', /one way only/],
    ['1 500 g', /one way only/],
    ["1'500 g", /one way only/],
    ['1.234.567 g', /one way only/],
    ['1,234.5 g', /one way only/],
    ['-5 g', /zero or more/],
    ['−5 g', /zero or more/],
    ['10-20 g', /not a range/],
    ['450', /unit/],
    ['', /amount with its unit/],
    ['g', /a number first/],
    ['1/0 g', /finite/],
    ['1e999 g', /finite/],
    ['NaN g', /a number first/],
    ['450 grms', /Write g/],
    ['450 gramz', /Did you mean gram/],
    ['5 g/kg', /per volume/],
    ['1 g/0 L', /more than nothing/],
    ['5 __proto__', /unit that is known/],
    ['constructor', /a number first/],
  ])('%s', (text, reason) => {
    expect(refusal(text)).toMatch(reason);
  });
});

describe('laws', () => {
  it('never throws and never yields an infinite or negative amount', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 30 }), fc.constantFrom('', ' g', ' tsp', '/L', ' mL/L'), (text, tail) => {
        const result = parseAmount(text + tail);
        if (result.ok) expect(number(result.value)).toSatisfy((x: number) => Number.isFinite(x) && x >= 0);
        else expect(result.problems[0]!.fix).not.toBe('');
      }),
    );
  });

  it('reads what it would print, to the last bit', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (x) => {
        expect(read(`${x} g`)).toBe(x);
      }),
    );
  });
});

describe('against the unit table of mathjs', () => {
  const math = create(all!);
  const theirs = (unit: string, base: string): number => math.unit!(1, unit).toNumber(base);

  it.each([
    ['1 oz', 'ounce', 'g'],
    ['1 lb', 'lb', 'g'],
    ['1 US fl oz', 'fluidounce', 'mL'],
    ['1 US cup', 'cup', 'mL'],
    ['1 US pt', 'pint', 'mL'],
    ['1 US qt', 'quart', 'mL'],
    ['1 US gal', 'gallon', 'mL'],
    ['1 metric tsp', 'teaspoon', 'mL'],
    ['1 metric tbsp', 'tablespoon', 'mL'],
  ])('%s is its %s', (text, unit, base) => {
    // 1e-9: its inch is rounded to 16387.064 mm³ per cubic inch in binary, ours divides the gallon.
    expect(read(text) / theirs(unit, base)).toBeCloseTo(1, 9);
  });

  it('takes another teaspoon: theirs is the metric one of 5 mL, 1.4 % more than the US one', () => {
    expect(theirs('teaspoon', 'mL') / read('1 tsp')).toBeCloseTo(5 / 4.92892159375, 9);
  });
});
