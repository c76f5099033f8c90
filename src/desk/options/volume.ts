import type { Kit } from '../../catalog/bench-types.js';
import { readCan } from '../../catalog/feed-values.js';

import type { Checked, Where } from '../../problem.js';
import { parseAmount } from '../../units/index.js';
import { refused } from './refused.js';

export { readWeekly as parseWeekly } from '../../catalog/feed-values.js';

/** A can of the kit by its name, or a volume as bench.yaml reads that of a batch, in litres. */
export function parseCan(text: string, kit: Pick<Kit, 'cans'> | undefined, where: Where): Checked<number> {
  const named = kit?.cans?.find((can) => can.label.trim().toLowerCase() === text.trim().toLowerCase());
  return named ? { ok: true, value: named.millilitres / 1000, warnings: [] } : readCan(text, where);
}

/** A jug for a stock solution, from 10 mL to 200 L, in mL. */
export function parseJug(text: string, where: Where): Checked<number> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  if (read.value.kind === 'volume' && read.value.millilitres >= 10 && read.value.millilitres <= 200_000)
    return { ok: true, value: read.value.millilitres, warnings: read.warnings };
  return refused('jug', where, `"${text}"`, 'a volume from 10 mL to 200 L', 'Write for example "500 mL".');
}

/** A level spoon up to 100 mL, in mL. */
export function parseSpoon(text: string, where: Where): Checked<number> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  if (read.value.kind === 'volume' && read.value.millilitres > 0 && read.value.millilitres <= 100)
    return { ok: true, value: read.value.millilitres, warnings: read.warnings };
  return refused('spoon', where, `"${text}"`, 'a spoon up to 100 mL', 'Write for example "1/4 tsp".');
}
