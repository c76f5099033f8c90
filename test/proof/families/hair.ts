import { digits, dot, type Family, type Line, list, logUniform, point, program, sign } from './family.js';
import type { Dice } from '../../solver/dice.js';

const HAIRS = [1e-7, 3e-7, 1e-6, 3e-6, 1e-5];

/** Programs that are feasible, or bounded, by a hair, and those that are not by a hair. */
export const hair: Family[] = [
  {
    name: 'near-infeasible: a sum against its parts',
    make: (d) => {
      const n = d.whole(2, 8);
      const parts = list(n, () => digits(d.between(0.5, 20), 3));
      const whole = parts.reduce((sum, part) => sum + part, 0);
      const off = 1 + sign(d) * d.pick(HAIRS);
      const lines: Line[] = parts.map((part, i) => ({ by: list(n, (j) => (i === j ? 1 : 0)), upper: part }));
      lines.push({ by: list(n, () => 1), lower: whole * off });
      return program(
        list(n, () => ({ cost: d.between(0.5, 3) })),
        lines,
      );
    },
  },
  {
    name: 'near-infeasible: combined rows',
    make: (d) => {
      const [n, m] = [d.whole(2, 8), d.whole(2, 6)];
      const rows = list(m, () => list(n, () => (d.chance(0.7) ? digits(d.between(0.1, 9), 3) : 0)));
      const ends = rows.map(() => digits(d.between(1, 50), 3));
      // Σ weight · (row ≥ end) against the same sum ≤ a hair less, or more
      const weight = list(m, () => d.between(0.1, 2));
      const by = list(n, (j) =>
        dot(
          weight,
          rows.map((row) => row[j]!),
        ),
      );
      const upper = dot(weight, ends) * (1 + sign(d) * d.pick(HAIRS));
      return program(
        list(n, () => ({ cost: d.between(0.5, 3) })),
        [...rows.map((row, i) => ({ by: row, lower: ends[i]! })), { by, upper }],
      );
    },
  },
  {
    name: 'near-infeasible: equalities',
    make: (d) => {
      const [n, m] = [d.whole(3, 9), d.whole(2, 5)];
      const x = point(d, n, 5);
      const rows = list(m, () => list(n, () => (d.chance(0.7) ? d.whole(-3, 6) : 0)));
      const weight = list(m, () => d.whole(-2, 3));
      const by = list(n, (j) =>
        dot(
          weight,
          rows.map((row) => row[j]!),
        ),
      );
      const end = dot(by, x);
      const moved = end + sign(d) * (Math.abs(end) || 1) * d.pick(HAIRS);
      const lines = rows.map((row) => ({ by: row, lower: dot(row, x), upper: dot(row, x) }));
      return program(
        list(n, () => ({ cost: d.between(-1, 3), upper: 10 })),
        [...lines, d.chance(0.5) ? { by, lower: moved } : { by, upper: moved }],
      );
    },
  },
  {
    name: 'infeasible by hair: 1e-12 to 1e-3',
    make: (d) => {
      const n = d.whole(2, 6);
      const by = list(n, () => d.between(0.5, 3));
      const end = d.between(1, 100);
      const off = sign(d) * logUniform(d, -12, -3);
      return program(
        list(n, () => ({ cost: d.between(0.5, 3) })),
        [
          { by, lower: end * (1 + off) },
          { by: d.chance(0.5) ? by : by.map((a) => 2 * a), upper: end * 2 },
          { by, upper: end },
        ],
      );
    },
  },
  {
    name: 'unbounded by hair',
    make: (d) => {
      // a buys b, b is sold: for ever, if the circle gains anything
      const n = d.whole(2, 6);
      const gain = 1 + sign(d) * d.pick([...HAIRS, 1e-4, 1e-2]);
      const prices = list(n, () => d.between(0.5, 3));
      const lines: Line[] = list(n - 1, (i) => ({
        by: list(n, (j) => (j === i ? 1 : j === i + 1 ? -1 : 0)),
        lower: 0,
      }));
      lines.push({ by: list(n, (j) => (j === n - 1 ? gain : j === 0 ? -1 : 0)), lower: 0 });
      if (d.chance(0.5)) lines.push({ by: list(n, () => 1), lower: d.between(1, 5) });
      return program(
        prices.map((price, j) => ({ cost: j === 0 ? -price : d.chance(0.5) ? 0 : price * 0.1 })),
        lines,
      );
    },
  },
  { name: 'costs that all but cancel along a ray', make: cancellingRay },
  {
    name: 'thin: a band a hair wide',
    make: (d) => {
      const [n, m] = [d.whole(3, 9), d.whole(2, 5)];
      const x = point(d, n, 5);
      const lines = list(m, () => {
        const by = list(n, () => (d.chance(0.6) ? d.between(0.1, 9) : 0));
        const value = dot(by, x);
        const width = Math.abs(value) * d.pick(HAIRS);
        return { by, lower: value - width * d.unit(), upper: value + width * d.unit() };
      });
      return program(
        list(n, () => ({ cost: d.between(0.5, 3) })),
        lines,
      );
    },
  },
];

/** Two columns that may both grow for ever; what that costs or pays is a hair of their prices. */
function cancellingRay(d: Dice) {
  const price = d.between(1, 10);
  const off = sign(d) * d.pick([...HAIRS, 1e-4, 1e-2]);
  const n = d.whole(0, 4);
  const lines: Line[] = [{ by: [1, -1, ...list(n, () => 0)], lower: -d.between(0, 3), upper: d.between(0, 3) }];
  lines.push({ by: [0, 1, ...list(n, () => d.between(0, 2))], lower: d.between(1, 9) });
  return program(
    [{ cost: price }, { cost: -price * (1 + off) }, ...list(n, () => ({ cost: d.between(0.5, 2), upper: 4 }))],
    lines,
  );
}
