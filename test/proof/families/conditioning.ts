import { around, dot, type Family, type Line, list, logUniform, point, program, sign } from './family.js';

/** Programs whose numbers are hard on doubles though their shapes are plain. */
export const conditioning: Family[] = [
  {
    name: 'Hilbert rows',
    make: (d) => {
      // entries 1 / (i + j + 1): nearly dependent from five rows on
      const n = d.whole(2, 9);
      const rows = list(n, (i) => list(n, (j) => 1 / (i + j + 1)));
      const x = d.chance(0.5) ? list(n, () => 1) : point(d, n, 3);
      const kind = d.whole(0, 2);
      return program(
        list(n, () => ({ cost: d.between(0.5, 2), ...(d.chance(0.3) ? { upper: 5 } : {}) })),
        rows.map((by): Line => {
          const end = dot(by, x);
          return kind === 0
            ? { by, lower: end, upper: end }
            : kind === 1
              ? { by, lower: end }
              : { by, lower: end, upper: end * 1.001 };
        }),
      );
    },
  },
  {
    name: 'Vandermonde rows',
    make: (d) => {
      const [n, m] = [d.whole(2, 7), d.whole(2, 7)];
      const knots = list(n, () => d.between(0.1, 3));
      const x = point(d, n, 3);
      return program(
        list(n, () => ({ cost: d.between(0.5, 2) })),
        list(m, (i) =>
          around(
            d,
            knots.map((knot) => knot ** i),
            x,
          ),
        ),
      );
    },
  },
  {
    name: 'far bounds, small differences',
    make: (d) => {
      // amounts near 10^6 … 10^9 whose differences are about 1
      const n = d.whole(2, 6);
      const far = logUniform(d, 5, 9);
      const columns = list(n, () => {
        const lower = far + d.between(-1, 1);
        return { cost: d.between(-2, 2), lower, upper: lower + d.between(0.5, 3) };
      });
      const lines = list(d.whole(1, 5), (): Line => {
        const [a, b] = [d.whole(0, n - 1), d.whole(0, n - 1)];
        const by = list(n, (j) => Number(j === a) - Number(j === b));
        return d.chance(0.5) ? { by, lower: d.between(-1, 1) } : { by, upper: d.between(-1, 1) };
      });
      return program(columns, lines);
    },
  },
  {
    name: 'bounds of 1e20 and beyond',
    make: (d) => {
      // some programs write 1e20 or 1e30 for no bound; here they are bounds like any other
      const n = d.whole(1, 5);
      return program(
        list(n, () => ({ cost: d.between(d.chance(0.3) ? -1 : 0.1, 2), upper: d.pick([1e15, 1e20, 1e25, 1e30]) })),
        list(d.whole(0, 4), (): Line => {
          const by = list(n, () => (d.chance(0.7) ? d.between(0.5, 2) : 0));
          const kind = d.whole(0, 2);
          return kind === 0
            ? { by, lower: d.between(1, 9) }
            : kind === 1
              ? { by, lower: -1e30, upper: d.between(10, 20) }
              : { by, lower: 1, upper: d.pick([1e20, 1e30]) };
        }),
      );
    },
  },
  {
    name: 'units from 1e-30 to 1e30',
    make: (d) => {
      const [n, m] = [d.whole(2, 6), d.whole(2, 5)];
      const [column, row] = [list(n, () => 10 ** d.whole(-15, 15)), list(m, () => 10 ** d.whole(-15, 15))];
      const x = column.map((unit) => d.whole(0, 5) / unit);
      return program(
        column.map((unit) => ({ cost: d.between(0.5, 2) * unit })),
        list(m, (i) =>
          around(
            d,
            column.map((unit) => (d.chance(0.7) ? d.whole(1, 9) * unit * row[i]! : 0)),
            x,
          ),
        ),
      );
    },
  },
  {
    name: 'games of two',
    make: (d) => {
      // the value of a matrix game: a free column, a mixed strategy, often many of them
      const [n, m] = [d.whole(2, 8), d.whole(2, 8)];
      const whole = d.chance(0.5);
      const lines = list(
        m,
        (): Line => ({ by: [-1, ...list(n, () => (whole ? d.whole(-3, 3) : d.between(-3, 3)))], upper: 0 }),
      );
      return program(
        [{ cost: 1, lower: Number.NEGATIVE_INFINITY }, ...list(n, () => ({ cost: 0 }))],
        [...lines, { by: [0, ...list(n, () => 1)], lower: 1, upper: 1 }],
      );
    },
  },
  {
    name: 'least absolute deviations',
    make: (d) => {
      const [points, degree] = [d.whole(3, 12), d.whole(1, 4)];
      const free = { lower: Number.NEGATIVE_INFINITY };
      const lines = list(points, (i) => {
        const end = d.between(-5, 5);
        const deviation = list(2 * points, (k) => (k === 2 * i ? 1 : k === 2 * i + 1 ? -1 : 0));
        return { by: [...list(degree, (power) => (i / 2) ** power), ...deviation], lower: end, upper: end };
      });
      return program([...list(degree, () => ({ cost: 0, ...free })), ...list(2 * points, () => ({ cost: 1 }))], lines);
    },
  },
  {
    name: 'neither feasible nor bounded below',
    make: (d) => {
      const n = d.whole(2, 6);
      const by = [...list(n, () => d.between(0.5, 2)), -1];
      const end = d.between(1, 5);
      const gap = d.pick([1, 1e-3, 1e-5]);
      return program(
        [
          ...list(n, () => ({ cost: -d.between(0.1, 1) })),
          { cost: -1, ...(d.chance(0.5) ? { lower: Number.NEGATIVE_INFINITY } : {}) },
        ],
        [
          { by, lower: end * (1 + (d.chance(0.8) ? gap : -gap)) },
          { by, upper: end },
        ],
      );
    },
  },
  {
    name: 'large multipliers',
    make: (d) => {
      // a scarce cut: a row whose relief is worth 1e3 … 1e8 of the costs
      const n = d.whole(2, 7);
      const tiny = logUniform(d, -8, -3);
      const lines: Line[] = [
        { by: [tiny, ...list(n - 1, () => (d.chance(0.5) ? tiny * d.between(0.5, 2) : 0))], lower: d.between(0.5, 2) },
      ];
      for (let i = d.whole(1, 4); i > 0; i -= 1)
        lines.push({ by: list(n, () => sign(d) * d.between(0, 2)), lower: d.between(-5, 5) });
      return program(
        list(n, () => ({ cost: d.between(0.5, 3) })),
        lines,
      );
    },
  },
];
