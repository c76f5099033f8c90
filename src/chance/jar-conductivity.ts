import { conductingIons, usualIons } from '../can/ec.js';
import { CHARGES, ION_NUTRIENTS } from '../chemistry/ions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { NINETY } from './deviates.js';
import type { Part } from './spread-part.js';

/** A product, and how its jar varies. */
interface Jar {
  product: ClosedProduct;
  label: ReadonlyMap<Nutrient, { part: Part }>;
}

/** Ions weigh by their charge, because none comes without its opposite. */
const IONS = Object.keys(CHARGES) as (keyof typeof CHARGES)[];

const chargesOf = (ions: ReturnType<typeof usualIons>): number =>
  IONS.reduce((sum, ion) => sum + Math.abs(CHARGES[ion]) * ions[ion], 0);

/** How a jar's conductivity strays from its label's as its nutrients do: the share for a unit of each factor. */
export function straysOf({ product, label }: Jar): Part[] {
  const ions = conductingIons(product, 'value');
  const whole = chargesOf(ions);
  const parts = new Map<string, Part>();
  for (const ion of whole > 0 ? IONS : []) {
    const spread = label.get(ION_NUTRIENTS[ion]);
    const mg = product.composition.content[ION_NUTRIENTS[ion]].stated ?? 0;
    if (!spread || !(mg > 0)) continue;
    const share = (Math.abs(CHARGES[ion]) * ions[ion]) / whole / mg;
    const { factor, source, by } = spread.part;
    parts.set(factor, { factor, source, by: share * by + (parts.get(factor)?.by ?? 0) });
  }
  return [...parts.values()];
}

/** The model of conductivity was off by 3 % at most against the tables it is tested with: taken as two standard deviations. */
export const MODEL_SPREAD = 0.015;

/**
 * What a reading does not tell of the dose that it stops at, shares of the dose: a jar that conducts more takes less of itself, and so do salts
 * that conduct more than the model says, or than the likeliest of those that a label leaves open.
 */
export function untoldByPen(item: Jar): Part[] {
  const { product } = item;
  const [least, likely, most] = (['leastConductive', 'value', 'mostConductive'] as const).map((which) =>
    chargesOf(usualIons(product, which)),
  ) as [number, number, number];
  return [
    ...straysOf(item).map((part) => ({ ...part, by: -part.by })),
    { factor: 'conductivity model', source: 'pen', by: -MODEL_SPREAD },
    { factor: `make-up ${product.id}`, source: 'labels', by: likely > 0 ? -(most - least) / likely / 2 / NINETY : 0 },
  ];
}
