import { blend, type Kind } from '../../solver/blends.js';
import { digits, type Family, type Line, list, logUniform, program } from './family.js';

const KINDS: Kind[] = ['loose', 'tight', 'random', 'degenerate', 'conflict', 'unbounded'];

/** Feeds: products against bands, ratios, ceilings and a cap on conductivity. */
export const blends: Family[] = [
  {
    name: 'blends: bands, shares, caps',
    make: (d) => blend(d.whole(1, 1e9), d.whole(3, 25), d.pick(KINDS)),
  },
  {
    name: 'blends: deviations of aims',
    make: (d) => {
      // |content − aim| / aim is paid for, prices hardly count
      const [n, m] = [d.whole(3, 9), d.whole(3, 8)];
      const aims = list(m, () => digits(logUniform(d, -2, 2.3), 2));
      const content = aims.map((aim) =>
        list(n, () => (d.chance(0.4) ? digits(d.between(0.2, 30) * Math.min(aim, 10), 3) : 0)),
      );
      const lines = aims.map((aim, i): Line => {
        const slack = list(2 * m, (k) => (k === 2 * i ? aim : k === 2 * i + 1 ? -aim : 0));
        return { by: [...content[i]!, ...slack], lower: aim, upper: aim };
      });
      return program(
        [
          ...list(n, () => ({ cost: digits(d.between(1e-6, 1e-4), 2) })),
          ...list(2 * m, () => ({ cost: d.pick([1, 1, 2]) })),
        ],
        lines,
      );
    },
  },
  {
    name: 'blends: ratio rules and ceilings',
    make: (d) => {
      const [n, m] = [d.whole(4, 12), d.whole(3, 8)];
      const content = list(m, () => list(n, () => (d.chance(0.4) ? digits(d.between(5, 300), 3) : 0)));
      const lines: Line[] = content.map((by) => {
        const aim = d.whole(10, 200);
        return d.chance(0.5) ? { by, lower: aim } : { by, lower: aim * 0.5, upper: aim * d.between(1.1, 2) };
      });
      for (let r = d.whole(1, 3); r > 0; r -= 1) {
        const [a, b] = [d.pick(content), d.pick(content)];
        const share = digits(d.between(0.2, 2), 2);
        lines.push({
          by: a.map((value, j) => value - share * b[j]!),
          ...(d.chance(0.5) ? { upper: 0 } : { lower: 0 }),
        });
      }
      lines.push({ by: list(n, () => digits(d.between(0.5, 1.8), 3)), upper: d.between(0.5, 3) });
      return program(
        list(n, () => ({
          cost: digits(logUniform(d, -2, 1), 2),
          ...(d.chance(0.3) ? { upper: digits(d.between(0.1, 2), 2) } : {}),
        })),
        lines,
      );
    },
  },
  {
    name: 'blends: traces beside macronutrients',
    make: (d) => {
      // a chelate at a few mg/L of one trace, macronutrients at hundreds; one dear product holds everything
      const [n, m] = [d.whole(3, 8), d.whole(2, 5)];
      const content = list(n + 1, (j) =>
        list(2 * m, (i) => (j === n ? 1 : d.chance(0.4) ? 1 : 0) * (i < m ? d.between(20, 300) : logUniform(d, -4, 0))),
      );
      const lines = list(2 * m, (i): Line => {
        const aim = i < m ? d.between(20, 200) : logUniform(d, -4, -1);
        return {
          by: content.map((c) => c[i]!),
          lower: aim,
          ...(d.chance(0.3) ? { upper: aim * d.between(1.05, 20) } : {}),
        };
      });
      return program(
        list(n + 1, (j) => ({ cost: j === n ? logUniform(d, 1, 4) : d.between(0.2, 5) })),
        lines,
      );
    },
  },
];
