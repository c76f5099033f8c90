import type { Law } from '../label/law.js';
import type { Medium, Phase } from '../programme/programme.js';
import type { Rule } from '../programme/rule.js';
import type { Strength } from '../programme/strength.js';
import type { DropsPerMillilitre, Grams, Litres, Millilitres } from '../units/index.js';
import type { Where } from '../problem.js';
import type { Water } from '../label/product.js';

/** A grower's bench: water, kit, pen and feeds, as `bench.yaml` tells them. */
export interface Bench {
  name: string;
  /** Three-letter code or whatever the grower writes; empty where the file is silent. */
  currency: string;
  /** Whose law says what the labels of its shelf may be off by; absent = that of the US. */
  law?: Law;
  /** At least one; several may be blended. */
  waters: Water[];
  kit: Kit;
  pen: Pen;
  /** True where the bench itself says what its pen shows. */
  namesPen?: boolean;
  /** In the order of the file; names are unique. */
  feeds: FeedSpec[];
  /** Where it stands and how light and warm it is; absent = not said. */
  season?: SeasonFigures;
}

export type Hemisphere = 'north' | 'south';

/** What a grower says of his year; what is absent was not said. */
export interface SeasonFigures {
  hemisphere?: Hemisphere;
  /** Twelve figures, January first, that grow with light: mol/m² and day, lux at noon, hours. Only their ratios count. */
  light?: readonly number[];
  /** Mean °C of twelve months, January first. */
  temperature?: readonly number[];
}

/** What a grower says of a feed in one month: none, or another phase, strength or amount. */
export type MonthWords = { fed: false } | { fed: true; phase?: Phase; strength?: Strength; weeklyLitres?: Litres };

/** One mix for one set of plants. */
export interface FeedSpec {
  name: string;
  /** Id of a plant group of the catalog. */
  plants: string;
  medium: Medium;
  phase: Phase;
  strength: Strength;
  /** Litres mixed at a time; absent = not said. */
  batchLitres?: Litres;
  /** Litres used in a week; absent = not said. */
  weeklyLitres?: Litres;
  /** How many pots it is for; absent = not said. */
  pots?: number;
  /** What one of them holds when it is empty. */
  potLitres?: Litres;
  /** What all of them take at one watering. */
  wateringLitres?: Litres;
  /** By month, 1 to 12, where it is not as the season has it. */
  months?: ReadonlyMap<number, MonthWords>;
  /** The grower's own rules. */
  rules: Rule[];
  where: Where;
}

/** What the grower measures with. An empty kit is no kit. */
export interface Kit {
  spoons: Spoon[];
  /** Smallest step of the scale, g. */
  scaleStepGrams?: Grams;
  /** How far the scale is off in practice (nineteen weighings of twenty lie within), g; absent = not said. */
  scaleErrorGrams?: Grams;
  /** Capacity of the syringe, mL. */
  syringeMillilitres?: Millilitres;
  /** Its smallest mark, mL; absent = the usual one of its size. */
  syringeStepMillilitres?: Millilitres;
  dropsPerMillilitre?: DropsPerMillilitre;
  /** Cans and jugs for the water; absent = not said. */
  cans?: Vessel[];
}

/** A can or jug, named as the grower names it, with which gallon it is. */
export interface Vessel {
  label: string;
  millilitres: Millilitres;
}

/** A level spoon, named as the grower names it. */
export interface Spoon {
  label: string;
  millilitres: Millilitres;
}

/** What the pen meter shows: EC in mS/cm, or ppm at so many per mS/cm. */
export type Pen = { reads: 'EC' } | { reads: 'ppm'; scale: number };
