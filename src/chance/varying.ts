import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown, Water } from '../label/product.js';
import { type Measured, NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import type { FeedRequest } from '../feed/request.js';
import { contentOf, waterContent } from '../feed/terms.js';
import { bulkDensityOf } from '../dose/density.js';
import { untoldByPen } from './jar-conductivity.js';
import type { Part, Source } from './spread-part.js';
import { labelSpreads } from './label-spread.js';
import { type Measure, toolInHand } from '../dose/measure.js';
import type { DosePlan } from '../dose/plan-types.js';
import { FILLING_SPREAD, type Tool } from '../dose/tools.js';

export { type Part, type Source, SOURCES } from './spread-part.js';

/** A dose in one litre of the can as intended, and how it varies. */
export interface VaryingItem {
  product: ClosedProduct;
  perLitre: number;
  dose: Part[];
  /** mg per g or mL of each nutrient that the label tells: mean over the guarantee, and how the jar varies. */
  label: Map<Nutrient, { shift: number; part: Part }>;
}

/** A can as a function of independent normal deviates. */
export interface VaryingCan {
  items: VaryingItem[];
  waters: { water: Water; share: number; part: Part | null }[];
  volume: Part;
}

/** What varies in a plan; `known` are products of the catalog for bulk densities that the plan's own do not tell. */
export function varyingCan(
  plan: Pick<DosePlan, 'items' | 'amounts' | 'batchLitres' | 'tools'>,
  request: Pick<FeedRequest, 'waters'>,
  known: readonly PowderKnown[] = [],
): VaryingCan {
  const litres = plan.batchLitres;
  const items = plan.items.map(({ product, chosen }): VaryingItem => {
    const label = new Map(
      labelSpreads(product).map(({ nutrient, shift, sd, factor }) => [
        nutrient,
        { shift, part: { factor: `label ${product.id} ${factor}`, source: 'labels' as const, by: sd } },
      ]),
    );
    const perLitre = chosen.amount / litres;
    const untold = chosen.tool === 'pen' ? untoldByPen({ product, label }) : [];
    const dose = [
      ...doseParts(product, chosen, plan, known),
      ...untold.map((part) => ({ ...part, by: part.by * perLitre })),
    ];
    return { product, perLitre, dose, label };
  });
  return { items, waters: waterParts(plan.amounts.waters, request.waters), volume: VOLUME };
}

/**
 * What a can varies by that is a mix with water added: the mix as it was made, how much of it was taken, and the water of its own can.
 * @param share litres of the mix in a litre of the can
 */
export function dilutedCan(mix: VaryingCan, share: number, name: string): VaryingCan {
  const items = mix.items.map((item): VaryingItem => {
    const perLitre = share * item.perLitre;
    const scaled = item.dose.map((part) => ({ ...part, by: share * part.by }));
    const taken: Part[] = [
      { ...mix.volume, by: -perLitre * mix.volume.by },
      { factor: `taken ${name}`, source: 'water', by: perLitre * FILLING_SPREAD },
    ];
    return { ...item, perLitre, dose: [...scaled, ...taken] };
  });
  return { ...mix, items, volume: { ...mix.volume, factor: `${mix.volume.factor} ${name}` } };
}

const VOLUME: Part = { factor: 'filling', source: 'water', by: FILLING_SPREAD };

const TOOL_SOURCES: Readonly<Record<Tool['kind'], Source>> = {
  spoon: 'spoons',
  dropper: 'drops',
  syringe: 'syringe',
  scale: 'scale',
  pen: 'pen',
};

/** The spread of one dose, g or mL per litre: what the tool does to every item alike, the bulk density, and the rest. */
function doseParts(
  product: ClosedProduct,
  chosen: Measure,
  { tools, batchLitres }: Pick<DosePlan, 'tools' | 'batchLitres'>,
  known: readonly PowderKnown[],
): Part[] {
  const source = TOOL_SOURCES[toolInHand(chosen)];
  // what the pen closes follows the water that is really there, and its other readings
  if (chosen.parts)
    return chosen.parts.map(({ factor, by }) => ({
      factor,
      source: factor === VOLUME.factor ? VOLUME.source : source,
      by: by / batchLitres,
    }));
  const tool = tools.find((t) => t.kind === chosen.tool);
  const alike = chosen.amount * (tool?.common ?? 0);
  const grain = chosen.tool === 'spoon' ? chosen.amount * (bulkDensityOf(product, known)?.spread ?? 0) : 0;
  const rest = Math.sqrt(Math.max(0, chosen.sd ** 2 - alike ** 2 - grain ** 2));
  const parts: Part[] = [
    { factor: `hand ${chosen.tool}`, source, by: alike / batchLitres },
    { factor: `bulk ${product.id}`, source: 'bulk density', by: grain / batchLitres },
    { factor: `dose ${product.id}`, source, by: rest / batchLitres },
  ];
  return parts.filter((part) => part.by > 0);
}

/** Every water but the last is measured to a mark; the last makes up the rest. */
function waterParts(shares: readonly number[], waters: readonly Water[]): VaryingCan['waters'] {
  const used = waters.flatMap((water, i) => ((shares[i] ?? 0) > 1e-9 ? [{ water, share: shares[i]! }] : []));
  return used.map(({ water, share }, i) => ({
    water,
    share,
    part:
      i === used.length - 1
        ? null
        : { factor: `water ${water.id}`, source: 'water', by: FILLING_SPREAD * Math.min(share, 1 - share) },
  }));
}

/**
 * A figure of the can: Σ item coefficient · dose + Σ water coefficient · share + constant, per litre. The doses, and with them the item
 * parts, go by the volume really filled.
 */
export interface Figure {
  /** By item: mean coefficient, mg per g or mL (or mS/cm per g/L), and what moves it. */
  items: { mean: number; nominal: number; parts: Part[] }[];
  waters: number[];
  constant: number;
}

/** A weighted sum of nutrients as a cap or a floor counts it. */
export function nutrientFigure(
  can: VaryingCan,
  weights: ReadonlyMap<Measured, number>,
  side: 'cap' | 'floor' | 'stated',
): Figure {
  const items = can.items.map(({ product, label }) => {
    let nominal = 0;
    let shift = 0;
    const parts = new Map<string, Part>();
    for (const [nutrient, weight] of weights) {
      const { low, stated, high } = contentOf(product, nutrient);
      nominal += weight * (side === 'stated' ? (stated ?? low) : (side === 'cap') === weight > 0 ? high : low);
      const spread = nutrient === 'alkalinity' ? undefined : label.get(nutrient);
      if (!spread) continue;
      shift += weight * spread.shift;
      const { factor, source } = spread.part;
      const by = weight * spread.part.by + (parts.get(factor)?.by ?? 0);
      parts.set(factor, { factor, source, by });
    }
    return { mean: nominal + shift, nominal, parts: [...parts.values()] };
  });
  const waters = can.waters.map(({ water }) =>
    [...weights].reduce((sum, [nutrient, weight]) => sum + weight * waterContent(water, nutrient), 0),
  );
  return { items, waters, constant: 0 };
}

export const nutrientsOf = (can: VaryingCan): Nutrient[] =>
  NUTRIENTS.filter(
    (n) =>
      can.items.some(({ product }) => product.composition.content[n].high > 0) ||
      can.waters.some(({ water }) => waterContent(water, n) > 0),
  );
