import type { Dice } from '../../solver/dice.js';
import { dot, type Family, type Line, list, program } from './family.js';

const whole = { integer: true } as const;

/** Whole numbers: knapsacks, parity, no bounds, mixtures with continuous columns. */
export const integers: Family[] = [
  {
    name: 'knapsack with equality',
    make: (d) => {
      const n = d.whole(3, 10);
      const by = list(n, () => d.whole(3, 60));
      const x = list(n, () => d.whole(0, 2));
      const end = d.chance(0.7) ? dot(by, x) : d.whole(20, 200);
      return program(
        list(n, () => ({ cost: d.whole(-5, 20), upper: d.whole(1, 4), ...whole })),
        [{ by, lower: end, upper: end }],
      );
    },
  },
  {
    name: 'knapsack, 0 or 1',
    make: (d) => {
      const n = d.whole(4, 14);
      const weights = list(n, () => d.between(1, 30));
      const room = weights.reduce((sum, w) => sum + w, 0) * d.between(0.2, 0.7);
      return program(
        weights.map((w) => ({ cost: -w * d.between(0.5, 1.5), upper: 1, ...whole })),
        [{ by: weights, upper: room }],
      );
    },
  },
  {
    name: 'even entries, odd sum',
    make: (d) => {
      const n = d.whole(2, 8);
      const by = list(n, () => 2 * d.whole(-8, 12) || 2);
      const end = 2 * d.whole(1, 40) + (d.chance(0.7) ? 1 : 0);
      const free = d.chance(0.5) ? {} : { upper: d.whole(2, 30) };
      return program(
        list(n, () => ({ cost: d.whole(1, 9), ...free, ...whole })),
        [{ by, lower: end, upper: end }],
      );
    },
  },
  {
    name: 'unbounded integers',
    make: (d) => {
      const n = d.whole(2, 6);
      const lines = list(d.whole(1, 4), (): Line => {
        const by = list(n, () => (d.chance(0.8) ? d.whole(-9, 9) : 0));
        const end = d.whole(-20, 20);
        return d.chance(0.3) ? { by, lower: end, upper: end } : d.chance(0.5) ? { by, lower: end } : { by, upper: end };
      });
      return program(
        list(n, () => ({
          cost: d.whole(-3, 6),
          ...(d.chance(0.3) ? { lower: Number.NEGATIVE_INFINITY } : {}),
          ...whole,
        })),
        lines,
      );
    },
  },
  {
    name: 'unbounded integers, two equalities',
    make: (d) => {
      const n = d.whole(3, 6);
      const common = d.pick([1, 1, 2, 3]);
      const lines = list(2, () => {
        const by = list(n, () => common * d.whole(-7, 9));
        const end = d.whole(-10, 30);
        return { by, lower: end, upper: end };
      });
      return program(
        list(n, () => ({ cost: d.whole(0, 6), ...whole })),
        lines,
      );
    },
  },
  {
    name: 'integers mixed with continuous columns',
    make: (d) => {
      const [n, m] = [d.whole(3, 9), d.whole(2, 6)];
      const lines = list(m, (): Line => {
        const by = list(n, () => (d.chance(0.6) ? d.between(0.2, 9) : 0));
        return d.chance(0.6) ? { by, lower: d.between(1, 30) } : { by, upper: d.between(20, 60) };
      });
      return program(
        list(n, () => ({
          cost: d.between(0.5, 6),
          ...(d.chance(0.5) ? { upper: d.whole(2, 9) } : {}),
          integer: d.chance(0.5),
        })),
        lines,
      );
    },
  },
  {
    name: 'whole packs',
    make: (d) => {
      // packs of 0.5, 1, 5, 25 kg against needs; the larger the cheaper
      const needs = d.whole(1, 3);
      const packs = list(needs * d.whole(2, 3), (k) => ({ need: k % needs, size: d.pick([0.5, 1, 2.5, 5, 10, 25]) }));
      const lines = list(needs, (i) => ({
        by: packs.map(({ need, size }) => (need === i ? size : 0)),
        lower: Math.round(d.between(0.1, 40) * 100) / 100,
      }));
      return program(
        packs.map(({ size }) => ({ cost: Math.round(100 * size ** 0.8 * d.between(2, 4)) / 100, ...whole })),
        lines,
      );
    },
  },
  {
    name: 'fixed charges',
    make: (d) => {
      // an amount only where a switch is on: amount ≤ most · switch
      const n = d.whole(2, 6);
      const most = d.pick([10, 100, 1000, 1e5]);
      const lines: Line[] = list(n, (i) => ({
        by: list(2 * n, (j) => (j === i ? 1 : j === n + i ? -most : 0)),
        upper: 0,
      }));
      lines.push({ by: list(2 * n, (j) => (j < n ? d.between(0.5, 2) : 0)), lower: d.between(5, 15) });
      return program(
        list(2 * n, (j) => (j < n ? { cost: d.between(0.5, 3) } : { cost: d.between(1, 20), upper: 1, ...whole })),
        lines,
      );
    },
  },
  { name: 'integers with decimal entries', make: decimals },
  {
    name: 'set covering',
    make: (d) => {
      const [n, m] = [d.whole(4, 12), d.whole(3, 9)];
      return program(
        list(n, () => ({ cost: d.whole(1, 5), upper: 1, ...whole })),
        list(m, () => ({ by: list(n, () => (d.chance(0.4) ? 1 : 0)), lower: 1 })),
      );
    },
  },
  {
    name: 'huge integers',
    make: (d) => {
      const n = d.whole(2, 5);
      const by = list(n, () => d.whole(100, 9999));
      const end = d.whole(1e5, 1e8);
      return program(
        list(n, (j) => ({ cost: by[j]! * d.between(0.9, 1.1), ...whole })),
        [{ by, lower: end, ...(d.chance(0.3) ? { upper: end } : {}) }],
      );
    },
  },
];

/** 0.1 + 0.2 is not 0.3: exactly there is often no answer, within the tolerance there is. */
function decimals(d: Dice) {
  const n = d.whole(2, 6);
  const by = list(n, () => d.whole(1, 40) / 10);
  const x = list(n, () => d.whole(0, 6));
  const end = Math.round(10 * dot(by, x)) / 10;
  return program(
    list(n, () => ({ cost: d.whole(1, 30) / 10, upper: 9, ...whole })),
    [{ by, lower: end, upper: end }],
  );
}
