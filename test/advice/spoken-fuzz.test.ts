import { expect, it } from 'vitest';
import { readRecipe } from '../../src/advice/read-recipe.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { TSP, UK_GAL, US_GAL } from './plain-sentences.js';
import { seeds } from '../seeds.js';

const SENTENCES = seeds(1000, 3000);

/** A small generator with a seed: the same sentences on every run. */
function drawing(seed: number) {
  let state = seed;
  const next = (n: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * n);
  };
  return {
    next,
    of: <T>(all: readonly T[]): T => all[next(all.length)]!,
    chance: (p: number) => next(1000) < 1000 * p,
  };
}
type Draw = ReturnType<typeof drawing>;

const { products, salts } = shippedCatalog();
const AMONG = [...products, ...salts];
const ON_SHELF = new Set(['sample-base', 'sample-calcium', 'sample-kelp', 'magnesium-sulfate', 'sample-balanced']);

/** Names that people use, and what they mean. */
const POWDERS: readonly (readonly [string, string[]])[] = [
  ['magnesium-sulfate', ['Epsom salt', 'epsom salts', 'Epsom', 'magnesium sulfate', 'magnesium sulphate heptahydrate']],
  ['calcium-nitrate', ['calcium nitrate tetrahydrate', 'calcium-nitrate']],
  ['potassium-nitrate', ['potassium nitrate', 'KNO3', 'saltpetre']],
  ['monopotassium-phosphate', ['monopotassium phosphate', 'MKP']],
  ['sample-base', ['sample base', 'the base powder B', 'sample-base']],
  ['sample-calcium', ['sample calcium powder A', 'sample-calcium']],
];
const LIQUIDS: readonly (readonly [string, string[]])[] = [
  ['sample-kelp', ['kelp', 'kelp liquid', 'the kelp']],
  ['sample-calcium-magnesium', ['cal-mag', 'cal mag', 'CalMag', 'calcium and magnesium liquid']],
];
const NUMBERS: readonly (readonly [string, number])[] = [
  ['1', 1],
  ['one', 1],
  ['two', 2],
  ['2', 2],
  ['1/2', 0.5],
  ['½', 0.5],
  ['1 1/2', 1.5],
  ['0.25', 0.25],
  ['three', 3],
];
const FRACTIONS: readonly (readonly [string, number])[] = [
  ['half a', 0.5],
  ['a half', 0.5],
  ['a quarter', 0.25],
  ['a quarter of a', 0.25],
  ['one quarter', 0.25],
  ['three quarters of a', 0.75],
  ['a', 1],
];
const WATERS: readonly (readonly [string, number])[] = [
  ['litre', 1],
  ['L', 1],
  ['liter', 1],
  ['US gallon', US_GAL],
  ['US gal', US_GAL],
  ['imperial gallon', UK_GAL],
  ['UK gallon', UK_GAL],
];
const KINDS = ['', '', ' of water', ' of RO water', ' of rainwater', ' of distilled water', ' water'];
const OFTEN = [
  '',
  '',
  ', weekly',
  ' once a week',
  ' every other watering',
  ', twice a month',
  ' every 2 weeks',
  ' in summer',
];
const LEADS = ['', '', '', 'I use ', 'Use ', 'Dissolve ', 'Mix ', 'my recipe is ', 'just add '];

interface Portion {
  id: string;
  amount: string;
  name: string;
  /** g or mL. */
  size: number;
}

function portion(d: Draw): Portion {
  const liquid = d.chance(0.25);
  const [id, names] = d.of(liquid ? LIQUIDS : POWDERS);
  const name = d.of(names);
  const product = AMONG.find((p) => p.id === id)!;
  if (!liquid && d.chance(0.5)) {
    const spoon = TSP * product.bulkDensity!;
    if (d.chance(0.5)) {
      const [words, value] = d.of(FRACTIONS);
      return { id, name, amount: `${words} ${d.of(['teaspoon', 'tsp', 'level teaspoon'])}`, size: value * spoon };
    }
    const [words, value] = d.of(NUMBERS);
    return { id, name, amount: `${words} ${d.of(['tsp', 'teaspoons', 'level tsp'])}`, size: value * spoon };
  }
  const [words, value] = d.of(NUMBERS);
  const unit = liquid ? d.of(['mL', 'ml', 'millilitres']) : d.of(['g', 'grams', 'gram']);
  return { id, name, amount: `${words} ${unit}`, size: value };
}

/** A sentence of the grammar with g or mL a litre of each product that it means. */
function sentence(d: Draw): { text: string; means: Map<string, number> } {
  const parts: Portion[] = [];
  for (let count = 1 + d.next(3); parts.length < count; ) {
    const one = portion(d);
    if (parts.every(({ id }) => id !== one.id)) parts.push(one);
  }
  const [water, litres] = d.of(WATERS);
  const [count, times] = d.chance(0.6) ? ['', 1] : d.of([['2 ', 2] as const, ['4 ', 4] as const, ['10 ', 10] as const]);
  const kind = d.of(KINDS);
  const means = new Map(parts.map(({ id, size }) => [id, size / (litres * times)]));
  const lead = d.of(LEADS);
  const often = d.of(OFTEN);
  const joint = (i: number): string =>
    i === 0 ? '' : d.of([' + ', ', ', ' and ', ', and ', '; ', ' plus ', ' & ', ', then ']);
  const amountFirst = ({ amount, name }: Portion): string => `${amount} ${d.chance(0.4) ? 'of ' : ''}${name}`;
  const plural = times > 1 && water !== 'L' && !water.endsWith('gal') && d.chance(0.5) ? 's' : '';
  switch (d.next(4)) {
    case 0: {
      // the water in front
      const front = d.of([
        `per ${count}${water}`,
        `In ${count || 'one '}${water}${plural}${kind}`,
        `For each ${count}${water}`,
      ]);
      return { text: `${front}: ${parts.map((p, i) => joint(i) + amountFirst(p)).join('')}${often}`, means };
    }
    case 1: {
      // each with its own, the name behind or in front
      const each = `/${water}`;
      const own = new Map(parts.map(({ id, size }) => [id, size / litres]));
      const behind = d.chance(0.5);
      const text = parts
        .map((p, i) => joint(i) + (behind ? `${p.amount}${each} ${p.name}` : `${p.name} ${p.amount}${each}`))
        .join('');
      return { text: `${behind ? lead : ''}${text}${often}`, means: own };
    }
    case 2: {
      const own = new Map(parts.map(({ id, size }) => [id, size / litres]));
      const text = parts
        .map((p, i) => `${joint(i)}${p.name} ${d.of(['at ', ': ', ''])}${p.amount} per ${water}`)
        .join('');
      return { text: `${text}${often}`, means: own };
    }
    default: {
      const back = d.of([
        `per ${count}${water}${plural}${kind}`,
        `in ${count || '1 '}${water}${plural}${kind}`,
        `to ${count || 'a '}${water}${plural}${kind}`,
        `for every ${count}${water}${plural}`,
      ]);
      return { text: `${lead}${parts.map((p, i) => joint(i) + amountFirst(p)).join('')} ${back}${often}`, means };
    }
  }
}

it(`sentences of the grammar are read as what they mean, ${SENTENCES} of them`, () => {
  const d = drawing(20261128);
  const wrong: string[] = [];
  const refused: string[] = [];
  for (let i = 0; i < SENTENCES; i += 1) {
    const { text, means } = sentence(d);
    const read = readRecipe(text, AMONG, { onShelf: ON_SHELF });
    if (!read.ok) {
      refused.push(
        `${text}   ← ${read.problems
          .filter((p) => p.severity === 'error')
          .map((p) => `${p.found}: ${p.expected}`)
          .join(' | ')}`,
      );
      continue;
    }
    const { lines, volumeLitres } = read.value;
    const got = new Map(lines.map((line) => [line.product.id, line.amount! / volumeLitres]));
    const same = got.size === means.size && [...means].every(([id, x]) => Math.abs((got.get(id) ?? 0) / x - 1) < 1e-9);
    if (!same) wrong.push(`${text}   ← ${JSON.stringify([...got])}`);
  }
  expect(wrong).toEqual([]);
  expect(refused).toEqual([]);
});
