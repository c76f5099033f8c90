import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import { type DoseLimits, NOTICED, withEc } from './limits.js';
import { type Measure, measuresWithin } from './measure.js';
import { paperTools, type Tool } from './tools.js';

/** An item of the blend with the measures open to it; the first is to leave it out. */
export interface OpenItem {
  product: ClosedProduct;
  wanted: number;
  measures: Measure[];
  /** True where nothing in the kit measures it, and amounts are only written down. */
  unmeasured: boolean;
}

export interface ChooseSettings {
  tools: readonly Tool[];
  known: readonly PowderKnown[];
  /** Levels of the items that a pen steers, by id. */
  steered?: ReadonlyMap<string, readonly Measure[]> | undefined;
}

/** Times the blend's dose, where no limit bounds an item. */
const UNBOUNDED = 10;
/** Every measure from nothing to the most that any mix within the limits could take, or twice the blend's dose if that is more. */
export function openItems(
  products: readonly ClosedProduct[],
  wanted: readonly number[],
  limits: DoseLimits,
  { tools, known, steered }: ChooseSettings,
): OpenItem[] {
  const most = reachOf(limits);
  return products.map((product, i) => {
    const ceiling = limits.ceilings[i]! * (1 + 1e-9);
    const reach = Number.isFinite(most[i]!) ? Math.max(most[i]!, 2 * wanted[i]!) : UNBOUNDED * wanted[i]!;
    const levels = steered?.get(product.id);
    if (levels) {
      const measures = levels.filter((m) => m.amount <= ceiling);
      return { product, wanted: wanted[i]!, measures: [NOTHING, ...measures], unmeasured: false };
    }
    const fit = toolsFor(product, tools, known);
    const unmeasured = fit.length === 0;
    const paper = paperTools.filter((tool) => (tool.kind === 'scale') === (product.form === 'powder'));
    const measures = upTo(product, unmeasured ? paper : fit, reach, known).filter((m) => m.amount <= ceiling);
    return { product, wanted: wanted[i]!, measures: [NOTHING, ...distinct(measures)], unmeasured };
  });
}

const NOTHING: Measure = { tool: 'scale', words: 'leave it out', amount: 0, actions: 0, sd: 0 };

/** The most of each item that any row leaves room for, all others at nothing; where the blend violates a row, as much as it takes itself. */
function reachOf({ rows, ecRow, ceilings, likeBlend }: DoseLimits): number[] {
  const all = withEc(likeBlend ?? { rows, ecRow });
  return ceilings.map((ceiling, i) => {
    let most = ceiling;
    for (const { terms, upper, size, firm } of all) {
      const room = likeBlend && !firm ? upper + NOTICED * size : upper;
      if (terms.every((term) => term >= 0) && terms[i]! > 0) most = Math.min(most, room / terms[i]!);
    }
    return most;
  });
}

/** Measures up to an amount; where the smallest is already more, the smallest alone. */
function upTo(product: ClosedProduct, tools: readonly Tool[], most: number, known: readonly PowderKnown[]): Measure[] {
  for (let reach = most, tries = 0; tries < 16; reach *= 2, tries += 1) {
    const found = measuresWithin(product, tools, 0, reach, known);
    if (found.length > 0) return found;
  }
  return [];
}

/** The tools that measure a product; a liquid is weighed only where nothing else takes it. */
function toolsFor(product: ClosedProduct, tools: readonly Tool[], known: readonly PowderKnown[]): readonly Tool[] {
  const fit = tools.filter((tool) => upTo(product, [tool], 1, known).length > 0);
  const volumetric = fit.filter((tool) => tool.kind !== 'scale');
  return product.form === 'liquid' && volumetric.length > 0 ? volumetric : fit;
}

/** Of several ways to one amount the one with the fewest actions, then the surest. */
function distinct(measures: readonly Measure[]): Measure[] {
  return measures.filter((m, i) => i === 0 || m.amount > measures[i - 1]!.amount * (1 + 1e-9));
}

/** The least of a product that the kit can measure, g or mL; where nothing measures it, what can be written down. */
export function leastMeasured(
  product: ClosedProduct,
  tools: readonly Tool[],
  known: readonly PowderKnown[] = [],
): number {
  const fit = toolsFor(product, tools, known);
  const own =
    fit.length > 0 ? fit : paperTools.filter((tool) => (tool.kind === 'scale') === (product.form === 'powder'));
  return upTo(product, own, 1, known)[0]?.amount ?? 0;
}
