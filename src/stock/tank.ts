import type { Solubility } from '../catalog/solubility.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { saltsOf } from '../chemistry/salts.js';
import {
  type IonSource,
  type Chemistry,
  MINERALS,
  type Mineral,
  pairOf,
  partsOf,
  type SolutionIons,
  THRESHOLDS,
  times,
  totalOf,
  unbalanced,
} from '../can/clouding.js';
import type { StockLimit } from './findings.js';
import { type Ceiling, ceilingOf, ceilingsAt, fullness } from './solubility.js';
import { powerOfTen } from '../units/elementary.js';

/** One product of a feed: g or mL in a litre of the can, and the ions it brings there. */
export interface StockItem {
  product: ClosedProduct;
  perLitre: number;
  brings: IonSource;
}

/** What stock bottles are judged by. */
export interface StockSetting {
  chemistry: Chemistry;
  ceilings: readonly Ceiling[];
  /** °C of the coldest place the bottle will stand in. */
  coldest: number;
  /** Ions of the water the bottle is filled with. */
  water: SolutionIons;
  /** Index of each mineral in that water alone: what is there already is not the products' doing. */
  waterIndex: Record<Mineral, number>;
}

export function stockSetting(
  chemistry: Chemistry,
  table: readonly Solubility[],
  coldest: number,
  water: SolutionIons,
): StockSetting {
  const bare = { chemistry, ceilings: ceilingsAt(table, coldest), coldest, water };
  return { ...bare, waterIndex: indices([unbalanced(water)], bare) };
}

/** One limit of a bottle; `share` above 1 violates it (for a mineral the index itself decides). */
export interface TankLimit {
  limit: StockLimit;
  share: number;
  holds: boolean;
}

/** Every limit of one bottle in which these items stand at `factor` times their strength in the can; minerals last. */
export function tankLimits(items: readonly StockItem[], factor: number, setting: StockSetting): TankLimit[] {
  return [...solubleLimits(items, factor, setting), ...mineralLimits(items, factor, setting)];
}

/** The limits that only grow with the strength and need no chemistry. */
export function solubleLimits(items: readonly StockItem[], factor: number, setting: StockSetting): TankLimit[] {
  const water = waterGrams(items, factor);
  const room: TankLimit = {
    limit: { kind: 'room' },
    share: water > 0 ? LEAST_WATER / water : Number.MAX_VALUE,
    holds: water >= LEAST_WATER,
  };
  if (!room.holds) return [room];
  const ions = times(totalOf(items.map((item) => item.brings.most ?? item.brings.ions)), factor);
  const molality = (ion: keyof SolutionIons): number => ions[ion] / water;
  const salts = setting.ceilings.map((ceiling) =>
    judged({ kind: 'salt', name: ceiling.name, celsius: setting.coldest }, fullness(ceiling, molality) / IN_HAND),
  );
  const products = items.flatMap((item) => productLimit(item, factor, water, setting));
  return [room, ...salts.filter((salt) => salt.share > 0), ...products];
}

/** Each mineral against clear, the more cautious of the coldest and of 25 °C, and of the likeliest and the fullest make-up. */
function mineralLimits(items: readonly StockItem[], factor: number, setting: StockSetting): TankLimit[] {
  if (!canCloud(items, setting)) return [];
  const worst = indices(solutionsOf(items, factor, setting), setting);
  const sources = [
    ...items.map(({ brings }) => brings),
    // the water is not concentrated
    { kind: 'water' as const, id: ' water', name: '', ions: times(setting.water, 1 / factor) },
  ];
  return MINERALS.filter((mineral) => worst[mineral] > -LOWEST).map((mineral): TankLimit => {
    const index = worst[mineral];
    const most = mostIndex(mineral, setting);
    return {
      limit: { kind: 'mineral', mineral, between: pairOf(mineral, sources), index, most },
      share: powerOfTen(index - most),
      holds: index <= most,
    };
  });
}

/** The same as a plain yes or no, which stops at the first violation. */
export function mineralsHold(items: readonly StockItem[], factor: number, setting: StockSetting): boolean {
  if (!canCloud(items, setting)) return true;
  return solutionsOf(items, factor, setting).every((ions) =>
    temperaturesOf(setting).every((temperatureC) => {
      const { saturation } = setting.chemistry(ions, { temperatureC, air: false });
      return MINERALS.every((mineral) => (saturation[mineral] ?? -LOWEST) <= mostIndex(mineral, setting));
    }),
  );
}

/** Up to which index a mineral stays clear; what the water brings by itself is not the products' doing. */
const mostIndex = (mineral: Mineral, setting: StockSetting): number =>
  Math.max(THRESHOLDS[mineral].clear, setting.waterIndex[mineral] + 1e-9);

function solutionsOf(items: readonly StockItem[], factor: number, { water }: StockSetting): SolutionIons[] {
  const likely = items.map(({ brings }) => brings.ions);
  const fullest = items.map(({ brings }) => brings.most ?? brings.ions);
  const versions = items.some(({ brings }) => brings.most) ? [likely, fullest] : [likely];
  return versions.map((parts) => unbalanced(totalOf([times(totalOf(parts), factor), water])));
}

const temperaturesOf = ({ coldest }: Pick<StockSetting, 'coldest'>): number[] =>
  coldest === 25 ? [25] : [25, coldest];

/** True where a mineral has all its parts in the bottle; chemistry need not be asked otherwise. */
export function canCloud(items: readonly StockItem[], setting: StockSetting): boolean {
  const ions = totalOf([...items.map((item) => item.brings.most ?? item.brings.ions), setting.water]);
  const has = (ion: keyof SolutionIons): boolean => ions[ion] > 0;
  const calcium = has('Ca') && (has('SO4') || has('P') || has('HCO3'));
  return calcium || partsOf('struvite').every(has);
}

function indices(
  solutions: readonly SolutionIons[],
  { chemistry, coldest }: Pick<StockSetting, 'chemistry' | 'coldest'>,
): Record<Mineral, number> {
  const worst = { gypsum: -LOWEST, brushite: -LOWEST, calcite: -LOWEST, struvite: -LOWEST };
  for (const ions of solutions) {
    for (const temperatureC of temperaturesOf({ coldest })) {
      const { saturation } = chemistry(ions, { temperatureC, air: false });
      for (const mineral of MINERALS) {
        const index = saturation[mineral];
        if (index !== null && index > worst[mineral]) worst[mineral] = index;
      }
    }
  }
  return worst;
}

/** Stands for an index of minus infinity. */
const LOWEST = 1e6;

/** A tenth below saturation, for the table's error and a spoon's. */
const IN_HAND = 0.9;

/** g of water without which a litre of stock is no solution any more. */
const LEAST_WATER = 300;

/**
 * g of water in a litre of stock. A gram of dissolved salt takes up 0.3 to 0.6 mL (from memory); 0.6 is on the safe side, and crystal
 * water is not counted as water. A liquid counts as half water.
 */
function waterGrams(items: readonly StockItem[], factor: number): number {
  const taken = items.reduce(
    (sum, { product, perLitre }) => sum + factor * perLitre * (product.form === 'powder' ? 0.6 : 0.5),
    0,
  );
  const poured = items.reduce(
    (sum, { product, perLitre }) => sum + (product.form === 'liquid' ? factor * perLitre : 0),
    0,
  );
  return poured > 1000 ? 0 : 1000 - taken;
}

/** What a product's own solubility, or a ceiling of convention, allows. Liquids are dissolved already. */
function productLimit(item: StockItem, factor: number, water: number, setting: StockSetting): TankLimit[] {
  const { product } = item;
  if (product.form === 'liquid') return [];
  const grams = factor * item.perLitre;
  const own = ceilingOf(product, setting.ceilings);
  if (own) {
    if (own.ceiling.ions !== null) return [];
    const molality = (1000 * grams) / own.molarMass / water;
    const limit = { kind: 'product', name: item.brings.name, celsius: setting.coldest } as const;
    return [judged(limit, molality / own.ceiling.molality / IN_HAND)];
  }
  const { gramsPerLitre, known } = ceilingByConvention(product);
  return [judged({ kind: 'powder', name: item.brings.name, gramsPerLitre, known }, grams / gramsPerLitre)];
}

/**
 * Powders that the table does not hold. Common practice, no source: labels of soluble feeds whose salts are all known seldom go past
 * 250 g/L; nothing is known of the rest, so a careful guess.
 */
export function ceilingByConvention(product: ClosedProduct): { gramsPerLitre: number; known: boolean } {
  const { known, unknown } = saltsOf(product.derivedFrom);
  return product.formula !== undefined || (known.length > 0 && unknown.length === 0)
    ? { gramsPerLitre: 250, known: true }
    : { gramsPerLitre: 100, known: false };
}

const judged = (limit: StockLimit, share: number): TankLimit => ({ limit, share, holds: share <= 1 + 1e-9 });
