import type { Kit, Spoon } from '../catalog/bench-types.js';
import { formatNumber, parseAmount } from '../units/index.js';

/**
 * One thing that hands measure with. Spreads are standard deviations: the delivered amount varies by `spread` (relative) and `error`
 * (absolute) anew with each action, and by `common` (relative) once for all actions with this tool.
 */
export interface Tool {
  /** `pen`: more goes in until it shows a figure (`by-pen.ts`); no kit makes one by itself. */
  kind: 'spoon' | 'dropper' | 'syringe' | 'scale' | 'pen';
  /** `1/4 US tsp`, `1 mL syringe`, `dropper of 20 drops/mL`, `0.01 g scale` */
  label: string;
  /** One scoop, drop or mark: mL, or g for a scale. */
  step: number;
  /** mL of a full syringe. */
  capacity?: number;
  spread: number;
  error: number;
  common: number;
  /** True where no kit was given and this is only a way of writing amounts down. */
  assumed?: boolean;
}

/** What the kit measures with, spoons from large to small; an empty kit stands for amounts to 0.01 g and 0.1 mL. */
export function toolsOf(kit: Kit): Tool[] {
  const tools: Tool[] = [...kit.spoons].sort((a, b) => b.millilitres - a.millilitres).map(spoonTool);
  if (kit.dropsPerMillilitre !== undefined) tools.push(dropperTool(kit.dropsPerMillilitre));
  if (kit.syringeMillilitres !== undefined)
    tools.push(syringeTool(kit.syringeMillilitres, kit.syringeStepMillilitres ?? usualMark(kit.syringeMillilitres)));
  if (kit.scaleStepGrams !== undefined) tools.push(scaleTool(kit.scaleStepGrams, kit.scaleErrorGrams));
  return tools.length > 0 ? tools : [...paperTools];
}

/**
 * Spreads with source and grade. Level spoons repeat within 5 to 15 % (facts of the trade, from memory); that the small ones are the
 * worse ones is our judgement. Rows: mL from which it holds, relative sd of one scoop.
 */
const SPOON_SPREADS: readonly (readonly [mL: number, sd: number])[] = [
  [4, 0.05],
  [2, 0.06],
  [1, 0.08],
  [0.5, 0.1],
  [0.25, 0.12],
  [0, 0.15],
];
/** Filling habit of one pair of hands, all scoops alike: from memory, 5 % (up to 20 % between people). */
const SPOON_COMMON = 0.05;
/** Drops of one dropper, held alike: from memory, 10 %; the count per mL is the grower's own, taken as good to 5 %. */
const DROP = { spread: 0.1, common: 0.05 };
/** A syringe is read to half a mark; its scale is good to 2 % (common practice, no source; the norm for syringes allows 5 %, from memory). */
const SYRINGE = { marks: 0.5, common: 0.02 };
/** A 0.01 g scale is within 0.02 to 0.03 g in practice (from memory): 2.5 steps, taken as two standard deviations. */
const SCALE_STEPS_OFF = 2.5;
/** Relative sd of the water in the can, filled to a mark: 2 % (common practice, no source). */
export const FILLING_SPREAD = 0.02;

function spoonTool({ label, millilitres }: Spoon): Tool {
  const spread = SPOON_SPREADS.find(([from]) => millilitres >= from)![1];
  return { kind: 'spoon', label: spoonName(label), step: millilitres, spread, error: 0, common: SPOON_COMMON };
}

function dropperTool(dropsPerMillilitre: number): Tool {
  const label = `dropper of ${formatNumber(dropsPerMillilitre, 4)} drops/mL`;
  return { kind: 'dropper', label, step: 1 / dropsPerMillilitre, error: 0, ...DROP };
}

function syringeTool(capacity: number, mark: number): Tool {
  return {
    kind: 'syringe',
    label: `${formatNumber(capacity, 4)} mL syringe`,
    step: mark,
    capacity,
    spread: 0,
    error: SYRINGE.marks * mark,
    common: SYRINGE.common,
  };
}

/** @param off within which nineteen of twenty weighings lie, g */
function scaleTool(step: number, off = SCALE_STEPS_OFF * step): Tool {
  return { kind: 'scale', label: `${formatNumber(step, 4)} g scale`, step, spread: 0, error: off / 2, common: 0 };
}

/** The smallest mark that syringes of a size usually carry, mL (common practice, no source). */
export function usualMark(capacity: number): number {
  return USUAL_MARKS.find(([upTo]) => capacity <= upTo)?.[1] ?? capacity / 50;
}

const USUAL_MARKS: readonly (readonly [capacity: number, mark: number])[] = [
  [1, 0.01],
  [3, 0.1],
  [6, 0.2],
  [12, 0.5],
  [30, 1],
  [60, 1],
];

/** Amounts to 0.01 g and 0.1 mL, where nothing is known of the tools. */
export const paperTools: readonly Tool[] = [
  { kind: 'scale', label: 'a scale', step: 0.01, spread: 0, error: 0.0125, common: 0, assumed: true },
  { kind: 'syringe', label: 'a syringe', step: 0.1, capacity: 10, spread: 0, error: 0.05, common: 0.02, assumed: true },
];

/** `1/4 tsp` says which teaspoon: `1/4 US tsp`; a single whole spoon goes without its 1. */
function spoonName(label: string): string {
  const read = parseAmount(label);
  if (!read.ok) return label;
  const number =
    label
      .trim()
      .match(/^(?:level\s+)?([\d\s./,¼½¾⅓⅔⅛]+)/i)?.[1]
      ?.trim() ?? '1';
  return number === '1' ? read.value.unit : `${number} ${read.value.unit}`;
}
