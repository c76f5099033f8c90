import { describe, expect, it } from 'vitest';
import { parseRecipe } from '../../src/advice/recipe.js';
import { liquid, powder } from '../feed/fixtures.js';

const base = powder('base', { 'NO3-N': 10 });
const calPart = powder('cal-part', { Ca: 19 }, { bulkDensity: 1.1 });
const kelp = liquid('kelp', { K: 2 });
const shelf = [base, calPart, kelp];

describe('parseRecipe', () => {
  it('reads spoons, grams and millilitres in a gallon that is named', () => {
    const read = parseRecipe('1/4 tsp cal-part + 1.2 g base + 3 mL kelp in 1 US gal', shelf);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    // a US teaspoon is 4.92892159375 mL (exact by definition), a US gallon 3.785411784 L
    expect(read.value.volumeLitres).toBeCloseTo(3.785411784, 12);
    expect(read.value.lines.map((l) => [l.product.id, l.amount])).toEqual([
      ['cal-part', expect.closeTo((4.92892159375 / 4) * 1.1, 12)],
      ['base', 1.2],
      ['kelp', 3],
    ]);
  });

  it('finds a product by a name in other case, with spaces for hyphens', () => {
    const read = parseRecipe('2 g of Cal Part in 4 L', shelf);
    expect(read.ok && read.value.lines[0]!.product.id).toBe('cal-part');
  });

  it('tells every problem at once', () => {
    const read = parseRecipe('1/4 tsp base + 2 g klep + 5 drops kelp in 1 gal', shelf);
    const problems = read.ok ? [] : read.problems;
    expect(problems).toHaveLength(4);
    expect(problems.map((p) => p.fix).join('\n')).toMatch(/Did you mean kelp/);
    expect(problems.map((p) => p.fix).join('\n')).toMatch(/Weigh ten level spoonfuls/);
  });

  it('asks for parts and a volume', () => {
    const read = parseRecipe('2 g base', shelf);
    expect(read.ok ? [] : read.problems.map((p) => p.expected)).toEqual(['parts joined by + and a volume after "in"']);
  });

  it('refuses a plus without a part, and an amount that no can holds', () => {
    const plus = parseRecipe('2 g base + in 4 L', shelf);
    expect(plus.ok ? [] : plus.problems.map((p) => p.found)).toEqual(['nothing beside a +']);
    const huge = parseRecipe('1e9 g base in 1 L', shelf);
    expect(huge.ok ? [] : huge.problems.map((p) => p.expected)).toEqual(['at most 1000 g or mL in a litre']);
  });
});
