import type { Column } from '../../../solver/index.js';
import { around, digits, dot, type Family, type Line, list, logUniform, point, program, sign } from './family.js';

type Bare = Omit<Column, 'id'>;

/** What a program may hold though nobody would write it by hand. */
export const oddities: Family[] = [
  {
    name: 'duplicates',
    make: (d) => {
      const [n, m] = [d.whole(2, 6), d.whole(2, 5)];
      const copies = list(n, (j) => list(d.whole(1, 3), () => j)).flat();
      const rows = list(m, () => list(n, () => d.whole(0, 6)));
      const lines = rows.flatMap((row): Line[] => {
        const by = copies.map((j) => row[j]!);
        const end = d.whole(1, 30);
        return list(d.whole(1, 3), () => (d.chance(0.2) ? { by, lower: end, upper: end } : { by, lower: end }));
      });
      const cost = list(n, () => d.whole(1, 5));
      return program(
        copies.map((j) => ({ cost: cost[j]!, ...(d.chance(0.3) ? { upper: d.whole(1, 9) } : {}) })),
        lines,
      );
    },
  },
  {
    name: 'duplicates but for the last places',
    make: (d) => {
      const n = d.whole(2, 6);
      const by = list(n, () => d.between(0.5, 5));
      const last = () => 1 + sign(d) * d.whole(0, 4) * 2 ** -d.whole(40, 52);
      const end = d.between(1, 20);
      return program(
        list(n, () => ({ cost: d.chance(0.5) ? 1 : last() })),
        list(d.whole(2, 6), (i) => ({
          by: by.map((a) => a * last()),
          ...(i % 2 === 0 ? { lower: end } : { upper: end * last() }),
        })),
      );
    },
  },
  {
    name: 'redundant rows',
    make: (d) => {
      const [n, m] = [d.whole(2, 7), d.whole(2, 4)];
      const x = point(d, n);
      const lines = list(m, () =>
        around(
          d,
          list(n, () => d.between(0.1, 5)),
          x,
        ),
      );
      const sums = list(d.whole(1, 5), (): Line => {
        const weight = lines.map(() => d.between(0.1, 2));
        const by = list(n, (j) =>
          dot(
            weight,
            lines.map((line) => line.by[j]!),
          ),
        );
        const ends = (side: 'lower' | 'upper') =>
          lines.every((line) => line[side] !== undefined)
            ? {
                [side]: dot(
                  weight,
                  lines.map((line) => line[side]!),
                ),
              }
            : {};
        return { by, ...ends('lower'), ...ends('upper') };
      });
      return program(
        list(n, () => ({ cost: d.between(0.1, 4) })),
        [...lines, ...sums],
      );
    },
  },
  {
    name: 'empty rows and columns',
    make: (d) => {
      const [n, m] = [d.whole(0, 6), d.whole(0, 5)];
      const column = (): Bare => ({ cost: d.pick([0, 1, 2, -1]), ...(d.chance(0.6) ? { upper: d.whole(0, 5) } : {}) });
      const lines = list(m, (): Line => {
        const by = list(n, () => (d.chance(0.3) ? d.whole(1, 5) : 0));
        return d.chance(0.5)
          ? { by, upper: d.pick([0, 0, 3, 1e-9]) }
          : { by, lower: d.pick([0, 0, -1, 2, d.chance(0.3) ? 1e-9 : 0]) };
      });
      return program(list(n, column), lines);
    },
  },
  {
    name: 'fixed and free columns',
    make: (d) => {
      const [n, m] = [d.whole(3, 10), d.whole(2, 7)];
      const x = list(n, () => d.whole(-6, 9));
      const columns = x.map((value): Bare => {
        const kind = d.whole(0, 4);
        const cost = d.between(-2, 4);
        if (kind === 0) return { cost, lower: value, upper: value };
        if (kind === 1) return { cost, lower: Number.NEGATIVE_INFINITY };
        if (kind === 2) return { cost, lower: Number.NEGATIVE_INFINITY, upper: value + d.whole(0, 3) };
        return { cost, lower: value - d.whole(0, 5), upper: value + d.whole(0, 5) };
      });
      return program(
        columns,
        list(m, () =>
          around(
            d,
            list(n, () => (d.chance(0.6) ? d.whole(-4, 6) : 0)),
            x,
          ),
        ),
      );
    },
  },
  {
    name: 'rows from 0 to 0',
    make: (d) => {
      const [n, m] = [d.whole(3, 9), d.whole(1, 5)];
      const lines = list(m, () => ({ by: list(n, () => (d.chance(0.6) ? d.between(-3, 3) : 0)), lower: 0, upper: 0 }));
      return program(
        list(n, () => ({ cost: d.between(-1, 3), ...(d.chance(0.8) ? { upper: d.between(1, 9) } : {}) })),
        [...lines, { by: list(n, () => d.between(0, 2)), lower: d.between(0, 4) }],
      );
    },
  },
  {
    name: 'costs 0',
    make: (d) => {
      const n = d.whole(2, 9);
      const x = point(d, n);
      return program(
        list(n, () => ({ cost: d.chance(0.8) ? 0 : d.pick([1, -1, 1e-12]), upper: 20 })),
        list(d.whole(2, 7), () =>
          around(
            d,
            list(n, () => (d.chance(0.7) ? d.between(-2, 4) : 0)),
            x,
          ),
        ),
      );
    },
  },
  {
    name: 'negative costs',
    make: (d) => {
      const n = d.whole(2, 10);
      const lines = list(d.whole(2, 8), () => ({
        by: list(n, () => (d.chance(0.6) ? d.between(0, 5) : 0)),
        upper: d.between(1, 90),
      }));
      return program(
        list(n, () => ({ cost: -d.between(0.1, 5), ...(d.chance(0.6) ? { upper: d.between(1, 40) } : {}) })),
        lines,
      );
    },
  },
  {
    name: 'an optimum of 0',
    make: (d) => {
      // gains and losses that come to nothing, or nearly
      const n = d.whole(2, 7);
      const size = logUniform(d, -3, 5);
      const cost = list(n, () => size * d.between(0.5, 3));
      const near = d.chance(0.5) ? 0 : size * logUniform(d, -14, -5);
      return program(
        [...cost.map((c) => ({ cost: c })), { cost: -1, upper: d.between(1, 3) * size }],
        [
          { by: [...cost, -1], lower: near },
          { by: [...list(n, () => d.between(0.2, 2)), 0], lower: d.between(0.1, 2) },
        ],
      );
    },
  },
  {
    name: 'tiny ends',
    make: (d) => {
      const n = d.whole(2, 8);
      const size = logUniform(d, -12, -3);
      const lines = list(d.whole(1, 6), (): Line => {
        const by = list(n, () => (d.chance(0.7) ? digits(d.between(0.1, 9), 2) : 0));
        const lower = size * d.between(0.5, 5);
        return { by, lower, ...(d.chance(0.3) ? { upper: lower * d.between(1, 1.5) } : {}) };
      });
      return program(
        list(n, () => ({ cost: d.between(0.5, 9), ...(d.chance(0.3) ? { upper: size * d.between(0.1, 5) } : {}) })),
        lines,
      );
    },
  },
];
