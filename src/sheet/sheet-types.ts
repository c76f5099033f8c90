import type { MilliSiemensPerCm } from '../units/index.js';
import type { Pen } from '../catalog/bench-types.js';
import type { Caution } from '../can/cautions.js';
import type { Sequence } from '../can/sequence.js';
import type { BlendResult, FeedHeader } from '../feed/results.js';
import type { DoseNote, DoseOffer } from '../dose/findings.js';
import type { DosePlan, Violation } from '../dose/plan-types.js';
import type { MeasuredStep } from '../dose/by-pen-types.js';
import type { Bottle } from '../dose/measure.js';
import type { DoseProof } from '../dose/proof.js';
import type { Given, Sure } from '../blend/given-types.js';
import type { Learned } from '../chance/learned.js';
import type { Sureness } from '../chance/sure.js';
import type { Keeping } from '../can/keeping.js';
import type { Slip } from './off.js';
import type { Reading } from './steps.js';
import type { Unseen } from './unseen.js';

/** What there is to say besides the plan. */
export interface SheetOptions {
  pen: Pen;
  /** As the grower wants it printed; null leaves a line to fill in. */
  date: string | null;
  /** What the meter reads in the water alone, mS/cm at 25 °C. */
  waterMSPerCm?: MilliSiemensPerCm;
  /** What good batches have told of the readings of this feed; absent where there are too few. */
  learned?: Learned;
  /** What hands, jars and water do to the doses. */
  sureness?: Sureness;
  /** How sure they were meant to be; null where nobody asked. */
  sure?: Sure | null;
  /** How feeds are made of it, where it is a mix for several. */
  dilutions?: readonly Dilution[];
  /** Litres to the brim of the largest can; absent where nobody says. */
  brimLitres?: number;
}

/** A feed as so many parts of a mix with so many parts of water. */
export interface Dilution {
  feed: string;
  parts: { mix: number; water: number; share: number };
  /** Litres of it that are mixed at a time. */
  litres: number;
}

/** One product on the sheet. */
export interface SheetStep {
  id: string;
  name: string;
  /** g for the batch; null for a liquid of unknown density. */
  grams: number | null;
  /** mL for the batch; null for a powder. */
  millilitres: number | null;
  /** The chosen one first, then the others. */
  measures: [SheetMeasure, ...SheetMeasure[]];
  /** g or mL that the blend (or the nearest feed) wants. */
  wanted: number;
  /** The bottle that it is taken from, where it is too little for the kit; null where it is measured as it is. */
  bottle: Bottle | null;
  /** True where nothing in the kit measures it: the amount is one for a borrowed scale or syringe. */
  borrowed: boolean;
  /** How the pen steers it, where doses go by the pen; null where all go by measure. */
  byPen: StepOfPen | null;
  /** Litres in the can while it goes in. */
  litres: number;
  reading: Reading;
}

/** A step of a can that is dosed by the pen: more until it shows a figure, or by measure and why. */
export type StepOfPen =
  | { by: 'pen'; start: string | null; until: number; tolerance: number; unit: 'ppm' | 'mS/cm' }
  | { by: 'measure'; why: MeasuredStep['why'] };

export interface SheetMeasure {
  tool: string;
  words: string;
  amount: number;
  unit: 'g' | 'mL';
  actions: number;
  keeps: boolean;
}

/** A sheet to mix by, or why there is none. */
export type SheetOfFeed = MixingSheet | NoSheet;

/** Everything a mixing sheet says; text, page, label, CSV and JSON are drawn from it and cannot disagree. */
export type MixingSheet = SheetOfDoses & SheetStatus;

export type SheetStatus =
  /** Every limit holds as measured. */
  | { status: 'kept'; offers: DoseOffer[] }
  /** The kit cannot measure it so that every limit holds: the nearest doses, and what would make it possible. */
  | { status: 'violated'; violations: Violation[]; offers: DoseOffer[] }
  /** No feed keeps every limit: the nearest one. */
  | { status: 'infeasible'; violations: Violation[] }
  /** The blend is not proved. */
  | { status: 'uncertified'; violations: Violation[] };

export interface SheetOfDoses {
  feed: FeedHeader;
  date: string | null;
  /** The batch in letters to be read aloud (`code.ts`): feed, litres, doses; null for a mix of which no feed is given undiluted. */
  code: string | null;
  litres: number;
  /** Litres to begin with; `litres` is the mark at the end. */
  firstLitres: number;
  water: { parts: { name: string; share: number }[]; reading: Reading; measured: boolean };
  /** ppm per mS/cm of the grower's pen, or EC. */
  pen: 'EC' | number;
  nitrogen: { mgPerLitre: number; aim: number | null; ammoniumShare: number | null };
  steps: [SheetStep, ...SheetStep[]];
  /** How the order keeps the can clear, or cannot. */
  order: Pick<Sequence, 'verdict' | 'avoiding' | 'cloudy'>;
  end: {
    reading: Reading;
    atTemperature: (Reading & { celsius: number }) | null;
    ph: { value: number; low: number; high: number; asMixed: number };
  };
  /** Where the readings are those of good batches before: how many, from when to when, and what was predicted of the full can without them. */
  learned: { batches: number; from: string; to: string; predicted: Reading } | null;
  slips: Slip[];
  unseen: Unseen[];
  keeps: Keeping;
  elements: DosePlan['mix']['elements'];
  leftOut: LeftOut[];
  /** Share of batches that keep every limit, with 90 % intervals; null where it was not worked out. */
  sureness: Sureness | null;
  sure: Sure | null;
  notes: SheetNotes;
  cautions: Caution[];
  /** GHS codes of the finished can, by the most that its products may hold. */
  hazards: string[];
  given: Given | null;
  /** Where this is a mix that is diluted for several feeds: how each is made of it. */
  dilutions?: readonly Dilution[];
  proof: { blend: BlendResult['proof']; doses: DoseProof };
}

/** There is nothing to mix by. */
export interface NoSheet {
  status: 'cannot';
  feed: FeedHeader;
  date: string | null;
  why: /** No feed keeps every limit, and the nearest to it is the bare water. */
    | { kind: 'no feed' }
    /** No feed keeps every limit, and none nearest to it was found. */
    | { kind: 'no nearest' }
    | { kind: 'not proved' }
    /** The water by itself keeps every limit. */
    | { kind: 'water alone' }
    /** The kit can measure none of the items. */
    | { kind: 'too little to measure'; leftOut: LeftOut[]; offers: DoseOffer[] };
  notes: SheetNotes;
  proof: BlendResult['proof'];
}

/** An item of the blend that is not measured out. */
export interface LeftOut {
  id: string;
  name: string;
  wanted: number;
  unit: 'g' | 'mL';
}

/** Notes on the doses, on counting drops, on the blend. */
export interface SheetNotes {
  doses: DoseNote[];
  drops: DropNote | null;
  /** Names of products whose salts are not declared, where that makes the readings wide. */
  undeclared: string[];
  blend: BlendResult['notes'];
}

/** So many drops are taken as 1 mL of these products (by name). */
export interface DropNote {
  products: string[];
  perMillilitre: number;
}
