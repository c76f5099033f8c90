import type { Column, LinearProgram, Row } from '../../solver/index.js';
import { type Dice, dice } from './dice.js';

/** What a random program is meant to become; the solver is not told. */
export type Kind = 'loose' | 'tight' | 'random' | 'degenerate' | 'conflict' | 'unbounded';

const MACRO = [200, 150, 20, 30, 180, 100, 40, 60];
const MICRO = [2, 0.5, 0.3, 0.1, 0.3, 0.01];

/**
 * A seeded program shaped like a blend: products against bands that reach from 200 down to 0.01, shares and ratios as
 * homogeneous rows, ceilings, a cap on the whole, some free of charge, some given twice.
 */
export function blend(seed: number, products: number, kind: Kind): LinearProgram {
  const d = dice(seed);
  const sizes = [...MACRO.slice(0, d.whole(3, MACRO.length)), ...MICRO.slice(0, d.whole(0, MICRO.length))];
  const columns = Array.from({ length: products }, (_, j) => product(d, `p${j}`, kind));
  const content = columns.map(() => contents(d, sizes));
  const rows = sizes.flatMap((size, i) => bands(d, kind, `n${i}`, size, terms(columns, content, i)));
  rows.push(...ratios(d, columns, content, sizes));
  if (d.chance(0.5))
    rows.push({
      id: 'whole',
      upper: d.between(2, 12),
      terms: terms(
        columns,
        columns.map(() => [1]),
        0,
      ),
    });
  if (kind === 'unbounded')
    columns.push({ id: 'refund', cost: -d.between(0.1, 2) }, { id: 'again', cost: 0.01, lower: -1 });
  if (kind === 'unbounded') rows.push({ id: 'tie', lower: 0, terms: { refund: -1, again: d.between(1, 3) } });
  if (kind === 'degenerate') repeat(d, columns, rows);
  if (kind === 'conflict') rows.push(...opposed(d, columns, content, sizes));
  return { columns, rows };
}

function product(d: Dice, id: string, kind: Kind): Column {
  const cost = d.chance(0.05)
    ? 0
    : kind === 'degenerate'
      ? d.whole(1, 4)
      : d.between(0.01, 3) * (d.chance(0.1) ? 100 : 1);
  return { id, cost, ...(d.chance(0.3) ? { upper: d.chance(0.1) ? 0 : d.between(0.05, 3) } : {}) };
}

/** mg/L per g/L: some macronutrients at 1–45 %, now and then traces at 0.001–10 %. */
function contents(d: Dice, sizes: readonly number[]): number[] {
  return sizes.map((size) => {
    if (!d.chance(size >= 10 ? 0.35 : 0.2)) return 0;
    return size >= 10 ? d.between(10, 450) : 10 ** d.between(-2, 2);
  });
}

function bands(d: Dice, kind: Kind, id: string, size: number, by: Record<string, number>): Row[] {
  const aim = size * d.between(0.3, 1.2);
  if (kind === 'tight') return [{ id, lower: aim * 0.97, upper: aim * 1.03, terms: by }];
  if (kind === 'degenerate')
    return [{ id, lower: Math.round(aim) || 1, upper: (Math.round(aim) || 1) * (d.chance(0.3) ? 1 : 2), terms: by }];
  const style = d.whole(0, 3);
  const lower = style === 0 ? 0 : aim * d.between(0.2, 1);
  const upper = aim * d.between(1.05, kind === 'loose' ? 20 : 3);
  return [{ id, ...(style === 1 ? {} : { lower }), ...(style === 2 ? {} : { upper }), terms: by }];
}

/** a ≤ q · b and a ≥ q · b between two elements: one row without a bound of its own. */
function ratios(d: Dice, columns: readonly Column[], content: number[][], sizes: readonly number[]): Row[] {
  return Array.from({ length: d.whole(0, 3) }, (_, r): Row => {
    const a = d.whole(0, sizes.length - 1);
    const b = d.whole(0, sizes.length - 1);
    const share = (sizes[a]! / sizes[b]!) * d.between(0.2, 3);
    const mixed = content.map((c) => {
      const difference = c[a]! - share * c[b]!;
      return [Math.abs(difference) <= 1e-9 * (Math.abs(c[a]!) + Math.abs(share * c[b]!)) ? 0 : difference];
    });
    return { id: `q${r}`, ...(d.chance(0.5) ? { upper: 0 } : { lower: 0 }), terms: terms(columns, mixed, 0) };
  });
}

/** The same products and rows once more: many optima, many ties. */
function repeat(d: Dice, columns: Column[], rows: Row[]): void {
  const twins = columns.filter(() => d.chance(0.3));
  for (const twin of twins) {
    columns.push({ ...twin, id: `${twin.id}bis` });
    for (const row of rows) if (Object.hasOwn(row.terms, twin.id)) row.terms[`${twin.id}bis`] = row.terms[twin.id]!;
  }
  for (const row of rows.filter(() => d.chance(0.3)))
    rows.push({ ...row, id: `${row.id}bis`, terms: { ...row.terms } });
}

/** Two rows that cannot both hold, through a third element or head-on. */
function opposed(d: Dice, columns: readonly Column[], content: number[][], sizes: readonly number[]): Row[] {
  const i = d.whole(0, sizes.length - 1);
  const by = terms(columns, content, i);
  const aim = sizes[i]!;
  if (d.chance(0.5))
    return [
      { id: 'more', lower: aim * 1.5, terms: by },
      { id: 'less', upper: aim, terms: by },
    ];
  const most = Object.fromEntries(Object.entries(by).map(([id, a]) => [id, a * d.between(1.01, 2)]));
  return [
    { id: 'more', lower: aim * 2, terms: by },
    { id: 'less', upper: aim, terms: most },
  ];
}

function terms(columns: readonly Column[], content: readonly (readonly number[])[], i: number): Record<string, number> {
  return Object.fromEntries(
    columns.map((column, j) => [column.id, content[j]![i]!] as const).filter(([, a]) => a !== 0),
  );
}
