import type { Litres, MilliSiemensPerCm } from '../units/index.js';
import type { GradedMiss } from '../blend/nearest-doses.js';
import type { Caution } from '../can/cautions.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { FeedHeader, Item, Miss, Mix } from '../feed/results.js';
import type { DoseByPen } from './recipe-types.js';
import type { AdviceNeed, AdviceNote, AdviceSense, AssessNote, FigureNote, Limited } from './findings.js';

/** From low to high; both ends equal where nothing is open. */
export interface Span {
  low: number;
  high: number;
}

/** A grade such as 14-4-17: % by weight of N, available phosphate and soluble potash, with what else is named. */
export interface Grade {
  /** As written. */
  text: string;
  percent: Partial<Record<'N' | 'P2O5' | 'P' | 'K2O' | 'K' | 'Ca' | 'Mg' | 'S', number>>;
}

/** So much of a product in so much water, in the adviser's units. */
export interface Rate {
  words: string;
  amount: Span;
  /** tsp, g, mL, oz, … as written. */
  unit: string;
  /** Volumes of water, and which. */
  count: number;
  per: string;
}

/** What a figure without a product counts. */
export type Figure =
  | { kind: 'element'; as: Nutrient; written: string; mgPerLitre: Span }
  | { kind: 'conductivity'; mSPerCm: Span; note: FigureNote | null }
  /** ppm of a pen; a scale of null is not told. */
  | { kind: 'pen'; ppm: Span; scale: PenScaleNamed | null }
  /** ppm of nobody knows what. */
  | { kind: 'ppm'; ppm: Span };

/** ppm per mS/cm, as a span where manuals and pens differ. */
export interface PenScaleNamed {
  name: string;
  ppmPerMilliSiemens: Span;
}

/** What stands around a strength and changes what it means. */
export interface Circumstances {
  /** A reading that the feed adds to that of the water. */
  aboveWater: boolean;
  /** A ceiling, not an aim. */
  atMost: boolean;
  /** True where it is told how often it is given, which says nothing of its strength. */
  howOften: boolean;
  /** Share of a stock in the feed, by an injector or a dilution; null where the rate is that of the feed itself. */
  dilution: Span | null;
}

/** Advice read from words; nothing in it is guessed. */
export interface Advice {
  text: string;
  /** Share of the strength that is named, 1 where none is. */
  share: number;
  /** Whether a rate that follows in brackets may be that share already, not what the share is of. */
  shareMayBeIn: boolean;
  grade: Grade | null;
  rate: Rate | null;
  figures: Figure[];
  form: 'powder' | 'liquid' | null;
  around: Circumstances;
}

/** One way in which the words can be meant. */
export interface AdviceReading {
  sense: AdviceSense;
  /** What it is held against the own feed by: mg/L of an element, or the conductivity of the feed solution in mS/cm. */
  counts: Nutrient | 'EC' | null;
  wanted: Span | null;
  /** g of the product per litre (of a liquid: what its label counts as a gram), where one is named. */
  gramsPerLitre: Span | null;
  elements: ({ element: Nutrient } & Span)[];
  /** mS/cm of the feed in pure water; wide, for a grade does not tell the forms. null where nothing tells. */
  ec: Span | null;
}

/** The own feed at one end of a reading. */
export interface OwnMatch {
  wanted: number;
  reached: number;
  /** Of full strength, as it can be printed; see `strengthText`. */
  percent: number;
  nitrogen: number;
  ec: MilliSiemensPerCm;
  elements: { element: Nutrient; mgPerLitre: number }[];
  ammoniumShare: number | null;
  items: Item[];
  /** What its cautions are told by. */
  can: Pick<Mix, 'ammonia' | 'iron' | 'alkalinity'>;
  /** Why it is not as strong, or as weak, as the advice; null where it is. */
  limitedBy: Limited | null;
}

/** What advice comes to, and the strength at which the own feed follows it. */
export type AdviceResult = AdviceTold & (AdviceHeld | AdviceAlone);

interface AdviceTold {
  /** `range` where words, scales or labels leave something open; `base unknown` where a share of an unknown strength is meant. */
  certainty: 'exact' | 'range' | 'base unknown';
  advice: string;
  /** A ceiling, not an aim. */
  atMost: boolean;
  readings: AdviceReading[];
  notes: AdviceNote[];
  needed: AdviceNeed[];
  cautions: Caution[];
}

/** `within`: the own feed follows every reading; `partly`; `outside`: none of them. */
export interface AdviceHeld {
  status: 'within' | 'partly' | 'outside';
  own: {
    feed: FeedHeader;
    /** mS/cm of the grower's water alone. */
    waterEc: MilliSiemensPerCm;
    /** One per reading, in the same order; null where the reading cannot be held against a feed. */
    matches: ({ low: OwnMatch; high: OwnMatch } | null)[];
  };
}

/** Nothing to hold it against. */
export interface AdviceAlone {
  status: 'no feed';
}

/** A part of a recipe that the pen told, as an amount. */
export interface PartByPen extends Pick<DoseByPen, 'told' | 'low' | 'high' | 'before' | 'after'> {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  /** g or mL for the whole volume, as `low` and `high` are. */
  amount: number;
}

/** What `assess` answers of a recipe. */
export type AssessResult = AssessJudged | AssessUnjudged;

interface AssessTold extends Mix {
  recipe: string;
  volumeLitres: Litres;
  /** The parts of which the pen told how much, in the order told; empty where amounts were. */
  byPen: PartByPen[];
  notes: AssessNote[];
  cautions: Caution[];
}

/** A recipe held against what a feed asks for. */
export interface AssessJudged extends AssessTold {
  status: 'within' | 'outside';
  feed: FeedHeader;
  misses: Miss[];
  /** The same by grade: what hurts, then what plants need, then conventions. */
  graded: GradedMiss[];
  /** The change of one dose that helps most; null where nothing is missed, or none helps. */
  change: ChangeTold | null;
  /** The largest share of the amounts, in steps of 0.01, of which no nutrient and not the EC is too much; null where none is now. */
  mostShare: number | null;
}

/** One dose of a recipe changed, and what it then comes to. */
export interface ChangeTold {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  /** For the whole volume; 0 where it was not in it, or is left out. */
  from: number;
  to: number;
  /** In measures of the kit; null where it is left out. */
  words: string | null;
  graded: GradedMiss[];
  ec: Mix['ec'];
}

/** A recipe read out, held against nothing. */
export interface AssessUnjudged extends AssessTold {
  status: 'no programme';
}
