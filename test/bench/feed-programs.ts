import type { LinearProgram, Row } from '../../solver/index.js';
import { type Dice, dice } from '../solver/dice.js';

/** mg per litre of the nutrients that have a band, from nitrogen down to the traces. */
const AIMS = [150, 110, 40, 30, 120, 90, 35, 45, 25, 20, 2, 0.6, 0.4, 0.3, 0.15, 0.1, 0.05, 0.02];
const RATIOS = 8;
const SHARES = 3;

/**
 * A seeded program of 30 rows shaped like a blend that exists: bands around what a hidden mix gives, ratios between two
 * nutrients and shares of one product in the weight of some as homogeneous rows, and a cap on the weight. `ceilings`:
 * 0.3 of the products may be had up to an amount only.
 */
export function feedProgram(seed: number, products: number, ceilings: boolean): LinearProgram {
  const d = dice(seed);
  const content = Array.from({ length: products }, () => analysis(d));
  const mix = content.map(() => 0);
  for (let k = 0; k < 6; k += 1) mix[d.whole(0, products - 1)] = d.between(0.1, 0.8);
  const total = (by: (j: number) => number) => mix.reduce((sum, x, j) => sum + x * by(j), 0);
  const row = (id: string, by: (j: number) => number, ends: Omit<Row, 'id' | 'terms'>): Row => {
    const terms = Object.fromEntries(content.map((_, j) => [`p${j}`, by(j)] as const).filter(([, a]) => a !== 0));
    return { id, ...ends, terms };
  };
  const bands = AIMS.map((aim, i) => {
    const given = total((j) => content[j]![i]!);
    return row(
      `n${i}`,
      (j) => content[j]![i]!,
      given === 0 ? { upper: aim } : { lower: given * d.between(0.7, 0.98), upper: given * d.between(1.02, 1.5) },
    );
  });
  const ratios = Array.from({ length: RATIOS }, (_, r) => {
    const given = (i: number) => total((j) => content[j]![i]!);
    const [a, b] = [d.whole(0, 9), d.whole(0, 9)].sort((i, k) => given(i) - given(k)) as [number, number];
    const most = given(b) > 0 ? (given(a) / given(b)) * 1.3 : 1;
    return row(`q${r}`, (j) => content[j]![a]! - most * content[j]![b]!, { upper: 0 });
  });
  const shares = Array.from({ length: SHARES }, (_, s) => {
    const group = new Set(content.flatMap((_, j) => (d.chance(0.3) ? [j] : [])));
    const share = Math.min(1, (total((j) => (group.has(j) ? 1 : 0)) / total(() => 1)) * 1.2 + 0.05);
    return row(`s${s}`, (j) => (group.has(j) ? 1 - share : -share), { upper: 0 });
  });
  const weight = row('weight', () => 1, { upper: total(() => 1) * 1.5 });
  const columns = content.map((_, j) => ({
    id: `p${j}`,
    cost: d.between(0.2, 4),
    ...(ceilings && d.chance(0.3) ? { upper: Math.max(mix[j]!, d.between(0.2, 1.5)) } : {}),
  }));
  return { columns, rows: [...bands, ...ratios, ...shares, weight] };
}

/** mg per gram: a label declares some macronutrients, and one in four the traces as well. */
function analysis(d: Dice): number[] {
  const traces = d.chance(0.25);
  return AIMS.map((_, i) =>
    i < 10 ? (d.chance(0.35) ? d.between(10, 350) : 0) : traces && d.chance(0.8) ? 10 ** d.between(-2, 1) : 0,
  );
}
