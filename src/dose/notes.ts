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
  const spoons = tools.filter((tool) => tool.kind === 'spoon');
  const largest = largestCan(cans);
  return [
    ...(tools.every((tool) => tool.assumed) ? [{ kind: 'no kit' } as const] : []),
    ...items.flatMap((item) => itemNotes(item, spoonToWeigh(spoons, ({ step }) => step)?.label ?? null, known)),
    ...(largest !== null && batchLitres * 1000 > largest.millilitres * 1.001
      ? [{ kind: 'can too small', batchLitres, can: largest.label } as const]
      : []),
  ];
}

function itemNotes({ product, unmeasured }: OpenItem, spoon: string | null, known: readonly PowderKnown[]): DoseNote[] {
  const { id, form } = product;
  if (unmeasured && form === 'liquid') return [{ kind: 'nothing measures a liquid', product: id }];
  if (unmeasured)
    return [
      spoon === null
        ? { kind: 'nothing measures a powder', product: id }
        : { kind: 'bulk density missing', product: id, spoon },
    ];
  if (spoon === null || form === 'liquid') return [];
  const bulk = bulkDensityOf(product, known);
  if (bulk === null) return [{ kind: 'bulk density unknown', product: id, spoon }];
  if (bulk.from !== 'catalog') return [];
  return [{ kind: 'bulk density of the catalog', product: id, spoon, gramsPerMillilitre: bulk.gramsPerMillilitre }];
}

/** Ten of these weigh enough for a kitchen scale: the smallest spoon from 1 mL up, else the largest. Spoons stand from large to small. */
export const spoonToWeigh = <S>(spoons: readonly S[], millilitresOf: (spoon: S) => number): S | undefined =>
  spoons.filter((spoon) => millilitresOf(spoon) >= 1).at(-1) ?? spoons[0];

/** The can that holds most, or null where the kit names none. */
export function largestCan(cans: Kit['cans']): NonNullable<Kit['cans']>[number] | null {
  return [...(cans ?? [])].sort((a, b) => b.millilitres - a.millilitres)[0] ?? null;
}
