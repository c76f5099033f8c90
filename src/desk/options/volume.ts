import type { Kit } from '../../catalog/bench-types.js';
import type { Checked, Where } from '../../problem.js';
import { parseAmount } from '../../units/index.js';
import { refused } from './refused.js';

/** A can of the kit by its name, or a volume from 100 mL to 1000 L, in litres. */
export function parseCan(text: string, kit: Pick<Kit, 'cans'> | undefined, where: Where): Checked<number> {
  const named = kit?.cans?.find((can) => can.label.trim().toLowerCase() === text.trim().toLowerCase());
  if (named) return { ok: true, value: named.millilitres / 1000, warnings: [] };
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (amount.kind === 'volume' && amount.millilitres >= 100 && amount.millilitres <= 1e6)
    return { ok: true, value: amount.millilitres / 1000, warnings: read.warnings };
  return refused('can', where, `"${text}"`, 'a volume from 100 mL to 1000 L', 'Write for example "4 L" or "1 US gal".');
}

/** Litres used in a week: any volume above zero. */
export function parseWeekly(text: string, where: Where): Checked<number> {
  const read = parseAmount(text.trim(), { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (amount.kind === 'volume' && amount.millilitres > 0)
    return { ok: true, value: amount.millilitres / 1000, warnings: read.warnings };
  return refused('weekly-not-volume', where, `"${text}"`, 'a volume above zero', 'Write for example "10 L".');
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
