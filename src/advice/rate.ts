import { type Checked, checked, nearest, type Problem, problem, type Where } from '../problem.js';
import { unitNamed } from '../units/index.js';
import { refusedUnit, unitNames } from '../units/table.js';
import type { AdviceNeed, AdviceNote, MeasureSense, OpenMeasure } from './findings.js';
import type { Advice, Rate, Span } from './types.js';

/** What a rate comes to in one sense of its words. */
export interface RateReading {
  /** The unit of the water. */
  per: string;
  gramsPerLitre: Span;
}

/** A rate in every sense of its words, with what was taken for granted and what would settle it. */
export interface RateReadings {
  readings: RateReading[];
  notes: AdviceNote[];
  needed: AdviceNeed[];
}

/**
 * A rate as g of product per litre. A gallon that is not named is read both ways, a spoon by whose kitchen it may be from, a powder by
 * what a millilitre may weigh. Adding amounts together is never needed, so every reading is a span of its own.
 */
export function readRate(
  rate: Rate,
  advice: Pick<Advice, 'form' | 'grade'>,
  where: Where = {},
  known: Weighing = {},
): Checked<RateReadings> {
  const problems: Problem[] = [];
  const tops = sensesOf(rate.unit, 'top', advice.form, where, problems);
  const waters = sensesOf(rate.per, 'under', null, where, problems).filter((w) => w.kind === 'volume');
  const liquid = isLiquid(rate, advice, tops);
  const weigh = { ...(liquid ? LIQUID : POWDER), ...known };
  const readings = waters.map((water): RateReading => {
    const senses = tops.filter((top) => !top.from || !water.from || top.from === water.from);
    const ends = senses.flatMap((top) => {
      const grams = top.kind === 'volume' ? weigh.perMillilitre : weigh.perGram;
      const litres = (rate.count * water.size.low) / 1000;
      return [
        (rate.amount.low * top.size.low * grams.low) / litres,
        (rate.amount.high * top.size.high * grams.high) / litres,
      ];
    });
    return { per: nameOf(water), gramsPerLitre: { low: Math.min(...ends), high: Math.max(...ends) } };
  });
  const spoons = tops.some((top) => top.kind === 'volume');
  const meant = tops.filter((top) => waters.some((water) => !top.from || !water.from || top.from === water.from));
  const several = meant.length > 1 || meant.some((top) => top.size.low < top.size.high);
  return checked(
    {
      readings,
      notes: [
        ...(waters.length > 1 ? [{ kind: 'volume', written: rate.per, units: waters.map(nameOf) } as const] : []),
        ...(several ? [{ kind: 'measure', written: rate.unit, senses: meant.map((top) => top.is) } as const] : []),
        ...(spoons || liquid ? [{ kind: liquid ? 'liquid' : 'powder' } as const] : []),
      ],
      needed: [
        ...(waters.length > 1 ? [{ kind: 'which gallon' } as const] : []),
        ...(spoons ? [{ kind: liquid ? 'density of the liquid' : 'weight of ten spoons' } as const] : []),
      ],
    },
    problems,
  );
}

/** What a millilitre and a gram of a product count for, where that is known. */
export interface Weighing {
  perMillilitre?: Span;
  perGram?: Span;
}

/** g/mL of levelled powders, from memory; see the catalog for products that are known. */
const POWDER = {
  perMillilitre: { low: 0.6, high: 1.4 },
  perGram: { low: 1, high: 1 },
};
/** Labels by volume count g per 100 mL; by weight, a millilitre counts for its density, 1 to 1.4 g/mL (from memory). */
const LIQUID = {
  perMillilitre: { low: 1, high: 1.4 },
  perGram: { low: 1 / 1.4, high: 1 },
};
/** A clear liquid holds no more than this of N, P2O5 and K2O together, in % (from memory). */
export const LIQUID_MOST = 45;

function isLiquid(rate: Rate, { form, grade }: Pick<Advice, 'form' | 'grade'>, tops: readonly Sense[]): boolean {
  if (form !== null) return form === 'liquid';
  const metric = /^m(l|illilit)/i.test(rate.unit) || tops.some((top) => top.drops);
  const total = Object.values(grade?.percent ?? {}).reduce((sum, x) => sum + x, 0);
  return metric && total <= LIQUID_MOST;
}

/** One sense of a unit: g or mL in one of it, and whose measure it is. */
interface Sense {
  kind: 'mass' | 'volume';
  size: Span;
  from: 'US' | 'imperial' | null;
  is: MeasureSense;
  drops?: boolean;
}

function sensesOf(
  written: string,
  place: 'top' | 'under',
  form: Advice['form'],
  where: Where,
  problems: Problem[],
): Sense[] {
  const name = written
    .toLowerCase()
    .replace(/^level\s+|\s+level$/g, '')
    .replace(/\.$/, '')
    .replace(/\s+/g, ' ')
    .trim();
  for (const [pattern, senses] of OPEN)
    if (pattern.test(name) && place === 'top')
      return senses.map(([kind, size, from, measure]) => one(kind, size, from, open(measure)));
  if (place === 'top' && /^drops?$/.test(name))
    return [
      {
        kind: 'volume',
        size: { low: 0.03, high: 0.06 },
        from: null,
        is: open('drop'),
        drops: true,
      },
    ];
  const bare = BARE.find(([pattern]) => pattern.test(name));
  if (bare)
    return (['US', 'imperial'] as const).map((from) =>
      one('volume', unitNamed(`${from} ${bare[1]}`)!.times / unitNamed(`${from} ${bare[1]}`)!.over, from, {
        kind: 'unit',
        name: `${from} ${bare[1]}`,
      }),
    );
  const unit = unitNamed(name);
  if (unit && (unit.dimension === 'volume' || (unit.dimension === 'mass' && place === 'top'))) {
    const size = unit.times / unit.over;
    const from = SYSTEM_OF.get(unit.name) ?? null;
    const plain = one(unit.dimension, size, from, { kind: 'unit', name: unit.name });
    if (unit.name === 'oz' && form === 'liquid')
      return [
        { ...plain, is: open('ounce of weight') },
        one('volume', 29.5735295625, 'US', open('US fluid ounce')),
        one('volume', 28.4130625, 'imperial', open('imperial fluid ounce')),
      ];
    return [plain];
  }
  const refused = refusedUnit(name);
  const heaped = /^(heaped|heaping|rounded|scant|generous)\b/.test(name);
  const guess = nearest(name, unitNames(), 1)[0];
  const known = 'Write tsp, tbsp, g, oz, mL or drops, per US gal or per L.';
  problems.push(
    problem(
      'advice-unit',
      where,
      `"${written}"`,
      heaped ? 'a level spoon' : (refused?.expected ?? 'a unit that is known'),
      heaped
        ? 'Ask how much that weighs; a heap may hold twice the level spoon.'
        : (refused?.fix ?? (guess ? `Did you mean ${guess}?` : known)),
    ),
  );
  return [];
}

const one = (kind: Sense['kind'], size: number, from: Sense['from'], is: MeasureSense): Sense => ({
  kind,
  size: { low: size, high: size },
  from,
  is,
});

const open = (measure: OpenMeasure): MeasureSense => ({ kind: 'open', measure });

/** Of a volume of water, which is never an open measure. */
const nameOf = ({ is }: Sense): string => (is.kind === 'unit' ? is.name : is.measure);

/** Spoons and cups whose kitchen is not named. The Australian tablespoon of 20 mL and the metric cup: from memory. */
const OPEN: readonly [RegExp, [Sense['kind'], number, Sense['from'], OpenMeasure][]][] = [
  [
    /^(tsp|teaspoon)s?$/,
    [
      ['volume', 4.92892159375, 'US', 'US teaspoon'],
      ['volume', 5, 'imperial', 'metric teaspoon'],
    ],
  ],
  [
    /^(tbsp|tbs|tablespoon)s?$/,
    [
      ['volume', 14.78676478125, 'US', 'US tablespoon'],
      ['volume', 15, 'imperial', 'metric tablespoon'],
      ['volume', 20, 'imperial', 'Australian tablespoon'],
    ],
  ],
  [
    /^cups?$/,
    [
      ['volume', 236.5882365, 'US', 'US cup'],
      ['volume', 250, 'imperial', 'metric cup'],
    ],
  ],
];

/** Whose measure a named unit is. */
const SYSTEM_OF: ReadonlyMap<string, 'US' | 'imperial'> = new Map([
  ...['gal', 'qt', 'pt', 'cup', 'fl oz', 'tbsp', 'tsp'].map((unit) => [`US ${unit}`, 'US'] as const),
  ...['gal', 'qt', 'pt', 'fl oz'].map((unit) => [`imperial ${unit}`, 'imperial'] as const),
]);

const BARE: readonly [RegExp, 'gal' | 'qt' | 'pt' | 'fl oz'][] = [
  [/^gal(lon)?s?$/, 'gal'],
  [/^(qt|quart)s?$/, 'qt'],
  [/^(pt|pint)s?$/, 'pt'],
  [/^(fl\.? ?oz|fluid (oz|ounce)|floz)s?\.?$/, 'fl oz'],
];
