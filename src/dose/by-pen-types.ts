import type { Blend } from '../can/part.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import type { Litres, MilliSiemensPerCm } from '../units/index.js';
import type { Measure } from './measure.js';
import type { Tool } from './tools.js';

/** A pen by which doses are steered, and how far it is off. */
export interface SteeringPen {
  /** ppm per mS/cm; null for a pen that shows mS/cm. */
  scale: number | null;
  /** One step of its last digit, in what it shows: 1 ppm, 0.01 mS/cm. */
  digit: number;
  /** Relative standard deviation that all its readings share (its calibration), and that of each dip by itself. */
  common: number;
  each: number;
}

/** A pen to steer doses by, and what it shows in the water alone where somebody read it, mS/cm. */
export interface PenInHand {
  pen: SteeringPen;
  waterMSPerCm?: MilliSiemensPerCm;
}

/** A can that is to be dosed by the pen: all of its water in from the start, filled to the mark. */
export interface CanByPen {
  /** In the order in which they go in. */
  items: readonly ItemByPen[];
  waters: readonly Blend[];
  litres: Litres;
  pen: SteeringPen;
  /** What hands start a dose with. */
  tools: readonly Tool[];
  /** Products whose bulk densities stand in where the shelf knows none. */
  known?: readonly PowderKnown[];
  /** What this very pen shows in the water alone, mS/cm at 25 °C; absent: what its analysis says. */
  waterMSPerCm?: MilliSiemensPerCm;
  /** °C, for what may cloud; default 25. */
  temperatureC?: number;
}

export interface ItemByPen {
  product: ClosedProduct;
  /** g or mL wanted for the whole can. */
  amount: number;
  /** How it is measured without the pen; absent: nobody chose. */
  measure?: Measure;
}

/** One item going in. */
export type StepByPen = SteeredStep | MeasuredStep;

interface StepTold {
  product: ClosedProduct;
  /** g or mL for the can: what was wanted of a measured item, what the reading comes to of a steered one. */
  amount: number;
  /** What the can has before and after it, mS/cm at 25 °C. */
  before: MilliSiemensPerCm;
  after: MilliSiemensPerCm;
}

/** An item of which more goes in until the pen shows a figure. */
export interface SteeredStep extends StepTold {
  by: 'pen';
  wanted: number;
  /** The largest level measure that surely stays below the dose; null where the kit has none. */
  start: Measure | null;
  /** What the pen shows once it is in, in its own unit and to its own digit; within `tolerance` of it nobody needs to go on. */
  until: { shown: number; tolerance: number };
  /** Standard deviation of what is in the water that is really there, g or mL for `litres` of it. */
  sd: number;
  /** What moves the amount, g or mL of a standard normal deviate of the factor; parts of one factor move together. */
  parts: PenPart[];
  /** How it is measured without the pen, where that was told. */
  measure: Measure | null;
}

/** An item that the pen cannot steer. */
export interface MeasuredStep extends StepTold {
  by: 'measure';
  /** `organic`: what it shows is not told by its label. `too little`: its whole dose is next to the error of the pen. */
  why: 'does not conduct' | 'organic' | 'too little';
  measure: Measure | null;
}

/** One independent standard normal deviate and what a unit of it does to a dose, g or mL. */
export interface PenPart {
  /** `pen`: its calibration; `pen after ID`: one dip; `measured ID`: a dose before it that no pen steered; `filling`: the water. */
  factor: string;
  by: number;
}
