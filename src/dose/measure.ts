import type { PowderKnown } from '../label/product.js';
import { decimalsOf, formatFixed, type Millilitres, roundDigits } from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { type BulkDensity, bulkDensityOf } from './density.js';
import type { Tool } from './tools.js';
import { hypot } from '../units/elementary.js';

/** One way to measure an amount of one product. */
export interface Measure {
  /** `stock`: out of a bottle of the item alone. */
  tool: Tool['kind'] | 'stock';
  /** `2 level 1/4 US tsp + 1 level 1/8 US tsp`, `14 drops`, `0.35 mL`, `0.62 g` */
  words: string;
  /** g (powder) or mL (liquid) that it delivers. */
  amount: number;
  /** Scoops, drops, fills, weighings. */
  actions: number;
  /** Standard deviation of the delivered amount, g or mL. */
  sd: number;
  /** What moves a dose by the pen, g or mL of each factor: doses of one can move together. */
  parts?: readonly { factor: string; by: number }[];
  /** The bottle that a dose of tool `stock` is taken from. */
  bottle?: Bottle;
}

/** A bottle of one item in water, measured once and taken from many times. */
export interface Bottle {
  /** Filled up to so much. */
  millilitres: Millilitres;
  /** What goes in. */
  holds: Measure;
  /** What is taken from it for a can. */
  dose: Measure;
}

/** The tool in the hand: out of a bottle it is what takes the dose. */
export const toolInHand = ({ tool, bottle }: Measure): Tool['kind'] =>
  tool === 'stock' ? toolInHand(bottle!.dose) : tool;

/** At most this many scoops of at most two sizes: more are miscounted. */
const MOST_SCOOPS = 3;
const MOST_DROPS = 40;
const MOST_FILLS = 10;
/** A scale tells nothing below this many steps: its error would be a fifth of the amount. */
const LEAST_SCALE_STEPS = 6;
/** A syringe is read to half a mark: from two marks on. */
const LEAST_MARKS = 2;

/** Every measure of a product from `low` to `high` g or mL, from small to large. */
export function measuresWithin(
  product: ClosedProduct,
  tools: readonly Tool[],
  low: number,
  high: number,
  known: readonly PowderKnown[] = [],
): Measure[] {
  const powder = product.form === 'powder';
  const bulk = bulkDensityOf(product, known);
  const found: Measure[] = [];
  const spoons = tools.filter((t) => t.kind === 'spoon');
  if (!powder || bulk) found.push(...spoonfuls(spoons, bulk));
  for (const tool of tools) {
    if (tool.kind === 'dropper' && !powder) found.push(...drops(tool));
    if (tool.kind === 'syringe' && !powder) found.push(...fills(tool, low, high));
    if (tool.kind === 'scale') found.push(...weighings(tool, product, low, high));
  }
  return found
    .filter((m) => m.amount >= low * (1 - DUST) && m.amount <= high * (1 + DUST))
    .sort((a, b) => a.amount - b.amount || a.actions - b.actions || a.sd - b.sd);
}

/** Volumes of any liquid, mL, from small to large. */
export function volumesWithin(tools: readonly Tool[], low: number, high: number): Measure[] {
  const found = [
    ...spoonfuls(
      tools.filter((tool) => tool.kind === 'spoon'),
      null,
    ),
    ...tools.flatMap((tool) =>
      tool.kind === 'dropper' ? drops(tool) : tool.kind === 'syringe' ? fills(tool, low, high) : [],
    ),
  ];
  return found
    .filter((m) => m.amount >= low && m.amount <= high)
    .sort((a, b) => a.amount - b.amount || a.actions - b.actions);
}

/** The ways near an amount: of each tool the nearest below and above it, nearest first. */
export function measuresOf(
  product: ClosedProduct,
  tools: readonly Tool[],
  around: number,
  known: readonly PowderKnown[] = [],
): Measure[] {
  const all = measuresWithin(product, tools, around / 4, around * 4, known);
  const near = KINDS.flatMap((kind) => {
    const own = all.filter((m) => m.tool === kind);
    const below = own.filter((m) => m.amount <= around).at(-1);
    const above = own.find((m) => m.amount > around);
    return [below, above].filter((m) => m !== undefined);
  });
  return near.sort((a, b) => Math.abs(a.amount - around) - Math.abs(b.amount - around) || a.actions - b.actions);
}

const KINDS: readonly Measure['tool'][] = ['spoon', 'syringe', 'dropper', 'scale'];
const DUST = 1e-9;

/** Up to three scoops of one or two sizes; of several ways to one amount the one with the fewest scoops. */
function spoonfuls(spoons: readonly Tool[], bulk: BulkDensity | null): Measure[] {
  const found = new Map<string, Measure>();
  const add = (counts: readonly (readonly [Tool, number])[]): void => {
    const millilitres = counts.reduce((sum, [spoon, n]) => sum + n * spoon.step, 0);
    const actions = counts.reduce((sum, [, n]) => sum + n, 0);
    const each = counts.reduce((sum, [spoon, n]) => sum + n * (spoon.spread * spoon.step) ** 2, 0);
    const common = counts[0]![0].common;
    const grams = bulk?.gramsPerMillilitre ?? 1;
    const measure: Measure = {
      tool: 'spoon',
      words: counts
        .map(([spoon, n]) => `${n} ${bulk ? 'level' : 'full'} ${n === 1 ? spoon.label : severalOf(spoon.label)}`)
        .join(' + '),
      amount: millilitres * grams,
      actions,
      sd: grams * Math.sqrt(each + millilitres ** 2 * (common ** 2 + (bulk?.spread ?? 0) ** 2)),
    };
    const key = String(roundDigits(millilitres, 9));
    const other = found.get(key);
    if (!other || measure.actions < other.actions) found.set(key, measure);
  };
  spoons.forEach((spoon, i) => {
    for (let n = 1; n <= MOST_SCOOPS; n += 1) add([[spoon, n]]);
    for (const smaller of spoons.slice(i + 1)) {
      for (let n = 1; n < MOST_SCOOPS; n += 1)
        for (let k = 1; n + k <= MOST_SCOOPS; k += 1) {
          add([
            [spoon, n],
            [smaller, k],
          ]);
        }
    }
  });
  return [...found.values()];
}

/** Spoons with a name of their own have a plural; `2 level 1/4 US tsp` goes without. */
const severalOf = (label: string): string =>
  label.replace(/\b(dash|pinch)$/, '$1es').replace(/\b(smidgen|scoop|spoon|cup)$/, '$1s');

function drops(tool: Tool): Measure[] {
  return Array.from({ length: MOST_DROPS }, (_, i) => {
    const n = i + 1;
    return {
      tool: 'dropper',
      words: n === 1 ? '1 drop' : `${n} drops`,
      amount: n * tool.step,
      actions: n,
      sd: tool.step * Math.sqrt(n * tool.spread ** 2 + (n * tool.common) ** 2),
    };
  });
}

function fills(tool: Tool, low: number, high: number): Measure[] {
  const full = tool.capacity ?? tool.step;
  const first = Math.max(LEAST_MARKS, Math.ceil(low / tool.step - DUST));
  const last = Math.floor(Math.min(high, MOST_FILLS * full) / tool.step + DUST);
  const decimals = decimalsOfStep(tool.step);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const amount = tidy((first + i) * tool.step);
    const actions = Math.ceil(amount / full - DUST);
    return {
      tool: 'syringe',
      words: `${formatFixed(amount, decimals)} mL${actions > 1 ? ` (${actions} fills)` : ''}`,
      amount,
      actions,
      sd: Math.sqrt(actions * tool.error ** 2 + (amount * tool.common) ** 2),
    };
  });
}

/** Grams; a liquid of known density can be weighed too, and counts in mL. */
function weighings(tool: Tool, product: ClosedProduct, low: number, high: number): Measure[] {
  const density = product.form === 'powder' ? 1 : product.density;
  if (density === undefined) return [];
  const first = Math.max(LEAST_SCALE_STEPS, Math.ceil((low * density) / tool.step - DUST));
  const last = Math.floor((high * density) / tool.step + DUST);
  const decimals = decimalsOfStep(tool.step);
  return steps(first, last).map((n) => {
    const grams = tidy(n * tool.step);
    return {
      tool: 'scale',
      words: `${formatFixed(grams, decimals)} g`,
      amount: grams / density,
      actions: 1,
      sd: hypot(tool.error, tool.common * grams) / density,
    };
  });
}

/** Steps that hands bother with: each up to 2000, from there every fifth (a 400th of the amount or less), every fiftieth from 20 000 … */
function steps(first: number, last: number): number[] {
  const found: number[] = [];
  let [coarse, end] = [1, 2000];
  for (let n = first; n <= last; n = coarse * (Math.floor(n / coarse) + 1)) {
    for (; n >= end; end *= 10) coarse = coarse === 1 ? 5 : 10 * coarse;
    if (n % coarse === 0) found.push(n);
  }
  return found;
}

/** As many decimals as the step has. */
const decimalsOfStep = (step: number): number => Math.min(6, decimalsOf(step, 6));

/** Without the dust that counting in steps leaves. */
const tidy = (x: number): number => roundDigits(x, 12);
