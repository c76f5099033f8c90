import type { LinearProgram } from '../../../solver/index.js';
import type { Dice } from '../../solver/dice.js';
import { dot, type Family, type Line, list, logUniform, program } from './family.js';

/** Programs on which textbook rules cycle, walk every corner, or meet nothing but ties. */
export const cycling: Family[] = [
  {
    name: 'Klee–Minty',
    // V. Klee, G. J. Minty 1972: the cube on which the steepest rule visits every corner; base and side vary
    make: (d) => {
      const n = d.whole(2, 10);
      const [base, side] = [d.pick([2, 3, 10]), d.pick([5, 10, 100])];
      const lines = list(n, (i) => ({
        by: list(n, (j) => (j < i ? 2 * base ** (i - j) : j === i ? 1 : 0)),
        upper: side ** i * (d.chance(0.2) ? 1 + logUniform(d, -8, -3) : 1),
      }));
      return program(
        list(n, (j) => ({ cost: -(base ** (n - 1 - j)) })),
        lines,
      );
    },
  },
  {
    name: 'Klee–Minty, squashed cube',
    make: (d) => {
      const n = d.whole(3, 14);
      const part = d.pick([0.1, 0.25, 0.4]);
      // part · x[i−1] ≤ x[i] ≤ 1 − part · x[i−1]
      const lines = list(2 * (n - 1), (k): Line => {
        const i = 1 + (k >> 1);
        const by = list(n, (j) => (j === i ? 1 : j === i - 1 ? (k % 2 === 0 ? -part : part) : 0));
        return k % 2 === 0 ? { by, lower: 0 } : { by, upper: 1 };
      });
      return program(
        list(n, (j) => ({
          cost: j === n - 1 ? (d.chance(0.5) ? -1 : 1) : 0,
          upper: 1,
          ...(j === 0 ? { lower: part } : {}),
        })),
        lines,
      );
    },
  },
  { name: 'cycling examples, perturbed', make: perturbed },
  {
    name: 'homogeneous rows',
    make: (d) => {
      // every row ends at 0 but for one cap: all corners but a few are the origin
      const [n, m] = [d.whole(3, 9), d.whole(2, 7)];
      const lines = list(m, () => ({ by: list(n, () => (d.chance(0.7) ? d.whole(-9, 9) : 0)), upper: 0 }));
      return program(
        list(n, () => ({ cost: d.whole(-5, 6) })),
        [...lines, { by: list(n, () => 1), upper: 10 }],
      );
    },
  },
  {
    name: 'degenerate assignment',
    make: (d) => {
      const n = d.whole(2, 6);
      const cost = list(n * n, () => d.whole(1, d.pick([2, 5, 100])));
      const lines = list(2 * n, (k) => ({
        by: list(n * n, (j) => (k < n ? Number(Math.floor(j / n) === k) : Number(j % n === k - n))),
        lower: 1,
        upper: 1,
      }));
      return program(
        cost.map((c) => ({ cost: c, ...(d.chance(0.3) ? { upper: 1 } : {}) })),
        lines,
      );
    },
  },
  {
    name: 'many rows through one corner',
    make: (d) => {
      const n = d.whole(2, 6);
      const corner = list(n, () => d.whole(0, 5));
      const lines = list(d.whole(n, 4 * n), () => {
        const by = list(n, () => d.whole(0, 6));
        return { by, lower: dot(by, corner) };
      });
      return program(
        list(n, () => ({ cost: d.whole(1, 6) })),
        lines,
      );
    },
  },
];

/** Columns of costs and rows ≤ ends; from memory. */
const EXAMPLES: { cost: number[]; rows: number[][]; ends: number[] }[] = [
  // E. M. L. Beale 1955
  {
    cost: [-0.75, 20, -0.5, 6],
    rows: [
      [0.25, -8, -1, 9],
      [0.5, -12, -0.5, 3],
      [0, 0, 1, 0],
    ],
    ends: [0, 0, 1],
  },
  // K. T. Marshall, J. W. Suurballe 1969
  {
    cost: [-10, 57, 9, 24],
    rows: [
      [0.5, -5.5, -2.5, 9],
      [0.5, -1.5, -0.5, 1],
      [1, 0, 0, 0],
    ],
    ends: [0, 0, 1],
  },
  // H. W. Kuhn, as M. L. Balinski and A. W. Tucker 1969 give it
  {
    cost: [-2, -3, 1, 12],
    rows: [
      [-2, -9, 1, 9],
      [1 / 3, 1, -1 / 3, -2],
    ],
    ends: [0, 0],
  },
  // the same with the cap that makes it end
  {
    cost: [-2, -3, 1, 12],
    rows: [
      [-2, -9, 1, 9],
      [1 / 3, 1, -1 / 3, -2],
      [2, 3, -1, -12],
    ],
    ends: [0, 0, 2],
  },
];

function perturbed(d: Dice): LinearProgram {
  const { cost, rows, ends } = d.pick(EXAMPLES);
  const off = d.chance(0.3) ? 0 : logUniform(d, -12, -1);
  const moved = (value: number) => (d.chance(0.5) ? value : value * (1 + off * d.between(-1, 1)));
  const unit = list(cost.length, () => (d.chance(0.3) ? 10 ** d.whole(-3, 3) : 1));
  return program(
    cost.map((c, j) => ({ cost: moved(c) * unit[j]! })),
    rows.map((row, i) => ({
      by: row.map((a, j) => moved(a) * unit[j]!),
      upper: ends[i] === 0 && d.chance(0.4) ? off : ends[i]!,
    })),
  );
}
