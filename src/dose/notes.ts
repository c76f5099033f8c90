import type { Kit } from '../catalog/bench-types.js';
import type { PowderKnown } from '../label/product.js';
import type { OpenItem } from './choose.js';
import { bulkDensityOf } from './density.js';
import type { DoseNote } from './findings.js';
import type { Tool } from './tools.js';

/** What a person should know about how the doses can be measured. */
export function notesOf(
  items: readonly OpenItem[],
  tools: readonly Tool[],
  known: readonly PowderKnown[],
  { cans }: Pick<Kit, 'cans'>,
  batchLitres: number,
): DoseNote[] {
  const spoons = tools.some((tool) => tool.kind === 'spoon');
  const largest = largestCan(cans);
  return [
    ...(tools.every((tool) => tool.assumed) ? [{ kind: 'no kit' } as const] : []),
    ...items.flatMap((item) => itemNotes(item, spoons, known)),
    ...(largest !== null && batchLitres * 1000 > largest.millilitres * 1.001
      ? [{ kind: 'can too small', batchLitres, can: largest.label } as const]
      : []),
  ];
}

function itemNotes({ product, unmeasured }: OpenItem, spoons: boolean, known: readonly PowderKnown[]): DoseNote[] {
  const { id, form } = product;
  if (unmeasured && form === 'liquid') return [{ kind: 'nothing measures a liquid', product: id }];
  if (unmeasured) return [{ kind: spoons ? 'bulk density missing' : 'nothing measures a powder', product: id }];
  if (!spoons || form === 'liquid') return [];
  const bulk = bulkDensityOf(product, known);
  if (bulk === null) return [{ kind: 'bulk density unknown', product: id }];
  if (bulk.from !== 'catalog') return [];
  return [{ kind: 'bulk density of the catalog', product: id, gramsPerMillilitre: bulk.gramsPerMillilitre }];
}

/** The can that holds most, or null where the kit names none. */
export function largestCan(cans: Kit['cans']): NonNullable<Kit['cans']>[number] | null {
  return [...(cans ?? [])].sort((a, b) => b.millilitres - a.millilitres)[0] ?? null;
}
