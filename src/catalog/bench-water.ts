import { type Problem, problem } from '../problem.js';
import { BOUNDS, otherCurrency, mgCaCO3PerLitre, mgPerLitre } from '../units/index.js';
import { rangedMoney, rangedNumber } from './cells.js';
import { type Catalog, findWater } from './catalog.js';
import type { Water } from '../label/product.js';
import { anything, describe, optional, readSection, type Section, sectionOf, words, wordsOf } from './section.js';
import { childOf, contentOf, isListSpot, isMapSpot, itemsOf, type Spot, whereIs } from './yaml.js';
import { MOST_IN_WATER, WATER_NUTRIENTS } from './waters.js';

/**
 * Reads the water of a bench: `rain`, `{ use: rain }`, an analysis in mg/L (`{ Ca: 40, alkalinity: 120 }`), or a list of these,
 * each with a `price_per_litre` of its own. What an analysis leaves out is unknown and counts as none.
 */
export function readBenchWaters(spot: Spot, catalog: Catalog, currency: string, problems: Problem[]): Water[] {
  const items = itemsOf(spot);
  if (items.length === 0)
    problems.push(
      problem('water-none', whereIs(spot), 'an empty list', 'at least one water', 'Write water: { use: rain }.'),
    );
  const waters = items.flatMap((item) => {
    const water = isMapSpot(item)
      ? ownWater(item, items.length, catalog, currency, problems)
      : named(item, catalog, problems);
    return water ? [{ water, item }] : [];
  });
  waters.forEach(({ water, item }, i) => {
    if (waters.findIndex((other) => other.water.id === water.id) < i) {
      problems.push(
        problem(
          'water-twice',
          whereIs(item),
          `"${water.id}" again`,
          'each water once',
          'Give each of your own waters a name of its own.',
        ),
      );
    }
  });
  return waters.map(({ water }) => water);
}

function named(spot: Spot, catalog: Catalog, problems: Problem[]): Water | undefined {
  const content = contentOf(spot);
  if (typeof content !== 'string') {
    problems.push(
      problem(
        'water-kind',
        whereIs(spot),
        describe(content),
        'the name of a water, or an analysis',
        'Write water: { use: rain }.',
      ),
    );
    return undefined;
  }
  return taken(content, spot, catalog, problems);
}

function taken(name: string, at: Spot, catalog: Catalog, problems: Problem[]): Water | undefined {
  const found = findWater(catalog, name, whereIs(at));
  if (!found.ok) {
    problems.push(...found.problems);
    return undefined;
  }
  const { synonyms: _synonyms, where: _where, ...water } = found.value;
  // what a water costs only the grower knows
  return { ...water, pricePerLitre: 0 };
}

function ownWater(
  spot: Spot,
  count: number,
  catalog: Catalog,
  currency: string,
  problems: Problem[],
): Water | undefined {
  const given = readSection(spot, WATER, problems);
  if (!given) return undefined;
  const number = (key: string, most: number, unit?: string): number | undefined => {
    const at = childOf(spot, key);
    if (at.node === null) return undefined;
    return rangedNumber(
      wordsOf(contentOf(at)),
      { least: 0, most, ...(unit ? { unit } : {}) },
      whereIs(at),
      false,
      problems,
    );
  };
  const pricePerLitre =
    priceOf(childOf(spot, 'price_per_litre'), currency, problems) ??
    priceOf(childOf(spot, 'price'), currency, problems);
  if (given.price !== undefined && given.price_per_litre !== undefined) {
    problems.push(
      problem(
        'water-price',
        whereIs(childOf(spot, 'price')),
        'price and price_per_litre',
        'one of them',
        'Keep price_per_litre.',
      ),
    );
  }
  const analysis = ANALYSIS.filter((key) => given[key] !== undefined);
  if (given.use !== undefined) {
    const several = isListSpot(childOf(spot, 'use')) || isMapSpot(childOf(spot, 'use'));
    if (several || analysis.length > 0) {
      const found = analysis.length > 0 ? `use with ${analysis.join(', ')}` : `${describe(given.use)} under use`;
      problems.push(
        problem(
          'water-use',
          whereIs(spot),
          found,
          'one name under use, or an analysis',
          'Write several waters as a list: water: [{ use: rain }, { use: soft-tap }].',
        ),
      );
      return undefined;
    }
    const water = taken(String(given.use), childOf(spot, 'use'), catalog, problems);
    return (
      water && {
        ...water,
        ...(given.name === undefined ? {} : { name: String(given.name) }),
        ...(pricePerLitre === undefined ? {} : { pricePerLitre }),
      }
    );
  }
  if (analysis.length === 0) {
    problems.push(
      problem(
        'water-empty',
        whereIs(spot),
        'a water without use and without an analysis',
        'the name of a water, or an analysis in mg/L',
        'Write use: rain, or what your supplier states, such as Ca: 40.',
      ),
    );
    return undefined;
  }
  const milligrams = WATER_NUTRIENTS.flatMap((nutrient) => {
    const value = number(nutrient, MOST_IN_WATER, 'mg/L');
    return value === undefined ? [] : [[nutrient, mgPerLitre(value)] as const];
  });
  const pH = number('pH', 12);
  const name = String(given.name ?? (count === 1 ? 'own water' : `own water (line ${spot.line})`));
  return {
    id: name,
    name,
    mgPerLitre: Object.fromEntries(milligrams),
    alkalinity: mgCaCO3PerLitre(number('alkalinity', MOST_IN_WATER, 'mg/L CaCO3') ?? 0),
    ...(pH === undefined ? {} : { pH }),
    pricePerLitre: pricePerLitre ?? 0,
    source: `${spot.page.file}:${spot.line}`,
    evidence: 'grower',
  };
}

/** Money for a litre, in the currency of the bench. */
function priceOf(at: Spot, currency: string, problems: Problem[]): number | undefined {
  if (at.node === null) return undefined;
  const text = wordsOf(contentOf(at));
  const price = rangedMoney(text, BOUNDS.waterPrice, whereIs(at), false, problems);
  if (price && otherCurrency(price.currency, currency))
    problems.push(
      problem('price-currency', whereIs(at), `"${text}"`, `a price in ${currency}`, `Write what it is in ${currency}.`),
    );
  return price?.amount;
}

const ANALYSIS: readonly string[] = [...WATER_NUTRIENTS, 'alkalinity', 'pH'];

/** The keys of a water of one’s own. */
export const WATER = sectionOf({
  use: optional(anything, 'a water of the catalog, such as rain'),
  name: optional(words, 'a name for the water'),
  price_per_litre: optional(words, 'money for a litre'),
  price: optional(words, 'money for a litre'),
  ...Object.fromEntries(ANALYSIS.map((key) => [key, optional(words, `${key === 'pH' ? 'the pH' : `${key} in mg/L`}`)])),
} as Section['shape']);
