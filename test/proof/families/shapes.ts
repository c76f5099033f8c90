import { around, digits, dot, type Family, type Line, list, logUniform, point, program } from './family.js';

/** The shapes that planning takes. */
export const shapes: Family[] = [
  {
    name: 'dense',
    make: (d) => {
      const [n, m] = [d.whole(4, 16), d.whole(3, 12)];
      const x = point(d, n);
      return program(
        list(n, () => ({ cost: d.between(-1, 4), upper: d.between(10, 30) })),
        list(m, () =>
          around(
            d,
            list(n, () => d.between(-2, 5)),
            x,
          ),
        ),
      );
    },
  },
  {
    name: 'dense, positive costs',
    make: (d) => {
      const [n, m] = [d.whole(5, 22), d.whole(4, 16)];
      return program(
        list(n, () => ({ cost: digits(d.between(0.5, 5), 3) })),
        list(m, () => ({ by: list(n, () => digits(d.between(0.1, 9), 2)), lower: digits(d.between(5, 90), 2) })),
      );
    },
  },
  {
    name: 'transport',
    make: (d) => {
      const [from, to] = [d.whole(2, 5), d.whole(2, 6)];
      const need = list(to, () => d.whole(1, 40));
      const total = need.reduce((sum, value) => sum + value, 0);
      // supplies just enough, too little by one, or plenty
      const supply = list(from, () => Math.floor(total / from));
      supply[0]! += total - supply.reduce((sum, value) => sum + value, 0) + d.pick([0, 0, 0, -1, 7]);
      const lines = [
        ...supply.map((upper, i): Line => ({ by: list(from * to, (k) => Number(Math.floor(k / to) === i)), upper })),
        ...need.map((end, j): Line => {
          const by = list(from * to, (k) => Number(k % to === j));
          return d.chance(0.5) ? { by, lower: end } : { by, lower: end, upper: end };
        }),
      ];
      return program(
        list(from * to, () => ({ cost: d.whole(1, 20) })),
        lines,
      );
    },
  },
  {
    name: 'staircase',
    make: (d) => {
      // make, store and sell, period after period
      const periods = d.whole(2, 8);
      const n = 3 * periods;
      const keep = d.pick([1, 0.95, 0.9]);
      const lines = list(periods, (t): Line => {
        const by = list(n, () => 0);
        by[3 * t] = 1;
        by[3 * t + 1] = -1;
        by[3 * t + 2] = -1;
        if (t > 0) by[3 * t - 2] = keep;
        return { by, lower: 0, upper: 0 };
      });
      const columns = list(n, (k) => {
        const kind = k % 3;
        if (kind === 0) return { cost: digits(d.between(1, 9), 2), upper: d.whole(5, 30) };
        if (kind === 1) return { cost: 0.1, upper: d.whole(3, 20) };
        const sold = d.whole(0, 15);
        return { cost: 0, lower: sold, upper: sold };
      });
      return program(columns, lines);
    },
  },
  {
    name: 'growth over many periods',
    make: (d) => {
      // x[t+1] ≤ rate · x[t]: powers of the rate pile up
      const periods = d.whole(4, 18);
      const rate = d.pick([1.5, 2, 4, 10]);
      const lines: Line[] = list(periods - 1, (t) => ({
        by: list(periods, (j) => (j === t + 1 ? 1 : j === t ? -rate : 0)),
        upper: 0,
      }));
      lines.push({ by: list(periods, (j) => Number(j === periods - 1)), lower: logUniform(d, 0, 6) });
      return program(
        list(periods, () => ({ cost: d.between(0.5, 2) })),
        lines,
      );
    },
  },
  {
    name: 'shortest path',
    make: (d) => {
      const nodes = d.whole(3, 8);
      const arcs = list(nodes * 3, () => [d.whole(0, nodes - 1), d.whole(0, nodes - 1)] as const).filter(
        ([from, to]) => from !== to,
      );
      for (let i = 1; i < nodes; i += 1) arcs.push([i - 1, i]);
      const lines = list(nodes, (i) => {
        const end = i === 0 ? 1 : i === nodes - 1 ? -1 : 0;
        return { by: arcs.map(([from, to]) => Number(from === i) - Number(to === i)), lower: end, upper: end };
      });
      return program(
        arcs.map(() => ({ cost: d.whole(d.chance(0.05) ? -2 : 0, 9) })),
        lines,
      );
    },
  },
  {
    name: 'equality systems',
    make: (d) => {
      const n = d.whole(3, 12);
      const x = point(d, n);
      const rows = list(d.whole(2, n), () => list(n, () => (d.chance(0.6) ? d.whole(-5, 7) : 0)));
      if (d.chance(0.3)) rows.push(rows[0]!.map((a, j) => a + 2 * rows[1]![j]!));
      return program(
        list(n, () => ({ cost: d.between(-1, 4), ...(d.chance(0.3) ? { lower: Number.NEGATIVE_INFINITY } : {}) })),
        rows.map((by) => ({ by, lower: dot(by, x), upper: dot(by, x) })),
      );
    },
  },
  {
    name: 'diet with a near-free food',
    make: (d) => {
      const [n, m] = [d.whole(4, 14), d.whole(3, 9)];
      const lines = list(m, (): Line => {
        const unit = logUniform(d, -3, 4);
        const by = list(n, () => (d.chance(0.7) ? digits(unit * d.between(0.01, 2), 3) : 0));
        return {
          by,
          lower: digits(unit * d.between(1, 4), 3),
          ...(d.chance(0.3) ? { upper: digits(unit * d.between(4, 9), 3) } : {}),
        };
      });
      return program(
        list(n, () => ({ cost: d.chance(0.15) ? logUniform(d, -9, -4) : digits(d.between(0.1, 4), 2) })),
        lines,
      );
    },
  },
  {
    name: 'larger and sparse',
    make: (d) => {
      const [n, m] = [d.whole(20, 40), d.whole(15, 25)];
      const x = point(d, n);
      return program(
        list(n, () => ({ cost: d.whole(1, 20), ...(d.chance(0.3) ? { upper: 12 } : {}) })),
        list(m, () =>
          around(
            d,
            list(n, () => (d.chance(0.15) ? d.whole(-4, 9) : 0)),
            x,
          ),
        ),
      );
    },
  },
];
