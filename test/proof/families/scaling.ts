import { around, type Family, list, logUniform, point, program, sign } from './family.js';

/** Rows, columns or single entries many powers of ten apart. */
export const scaling: Family[] = [
  {
    name: 'bad scaling',
    make: (d) => {
      const [n, m] = [d.whole(3, 12), d.whole(2, 9)];
      const [row, column] = [list(m, () => logUniform(d, -6, 6)), list(n, () => logUniform(d, -6, 6))];
      const x = point(d, n).map((value, j) => value / column[j]!);
      const lines = list(m, (i) =>
        around(
          d,
          column.map((unit) => (d.chance(0.6) ? d.between(-1, 3) * row[i]! * unit : 0)),
          x,
        ),
      );
      return program(
        column.map((unit) => ({ cost: d.between(0.1, 5) * unit })),
        lines,
      );
    },
  },
  {
    name: 'entries from 1e-9 to 1e6',
    make: (d) => {
      const [n, m] = [d.whole(2, 10), d.whole(2, 8)];
      const x = point(d, n);
      const lines = list(m, () =>
        around(
          d,
          list(n, () => (d.chance(0.6) ? sign(d) * logUniform(d, -9, 6) : 0)),
          x,
        ),
      );
      const columns = list(n, () => ({ cost: logUniform(d, -9, 6), ...(d.chance(0.3) ? { upper: 10 } : {}) }));
      return program(columns, lines);
    },
  },
  {
    name: 'entries from 1e-9 to 1e6, ends unrelated',
    make: (d) => {
      const [n, m] = [d.whole(2, 8), d.whole(2, 6)];
      const lines = list(m, () => {
        const by = list(n, () => (d.chance(0.7) ? logUniform(d, -9, 6) : 0));
        return d.chance(0.6) ? { by, lower: logUniform(d, -6, 6) } : { by, upper: logUniform(d, -6, 6) };
      });
      return program(
        list(n, () => ({ cost: logUniform(d, -6, 6) })),
        lines,
      );
    },
  },
  {
    name: 'cancelling pairs',
    make: (d) => {
      // two columns that all but undo each other, and what is asked is their small difference
      const pairs = d.whole(1, 4);
      const n = 2 * pairs + 2;
      const lines = list(d.whole(2, 6), () => {
        const by = list(n, () => 0);
        for (let p = 0; p < pairs; p += 1) {
          const size = logUniform(d, 0, 4);
          by[2 * p] = size;
          by[2 * p + 1] = -size * (1 + sign(d) * logUniform(d, -8, -3));
        }
        by[n - 2] = d.between(0, 2);
        by[n - 1] = -d.between(0, 2);
        return d.chance(0.5) ? { by, lower: d.between(-1, 1) } : { by, upper: d.between(0, 3) };
      });
      const columns = list(n, (j) => ({
        cost: d.between(0.1, 3) * (j >= 2 * pairs ? 10 : 1),
        ...(d.chance(0.4) ? { upper: logUniform(d, 0, 6) } : {}),
      }));
      return program(columns, lines);
    },
  },
  {
    name: 'huge bounds',
    make: (d) => {
      const n = d.whole(2, 10);
      const columns = list(n, () => ({
        cost: d.between(-2, 3),
        ...(d.chance(0.3) ? { lower: -logUniform(d, 3, 12) } : {}),
        upper: logUniform(d, 3, 12),
      }));
      const lines = list(d.whole(1, 7), () => {
        const by = list(n, () => (d.chance(0.6) ? d.between(-2, 3) : 0));
        return d.chance(0.5) ? { by, upper: logUniform(d, 0, 10) } : { by, lower: -logUniform(d, 0, 10) };
      });
      return program(columns, lines);
    },
  },
  {
    name: 'one dear column with a tiny entry',
    make: (d) => {
      const n = d.whole(3, 9);
      const tiny = logUniform(d, -9, -5);
      const columns = list(n, (j) => ({
        cost: j === 0 ? logUniform(d, 3, 8) : d.between(0.1, 2),
        ...(j > 0 && d.chance(0.5) ? { upper: d.between(1, 5) } : {}),
      }));
      const lines = list(d.whole(2, 6), () => ({
        by: list(n, (j) => (j === 0 ? (d.chance(0.6) ? tiny : 0) : d.chance(0.6) ? d.between(0.1, 3) : 0)),
        lower: d.between(0.5, 20),
      }));
      return program(columns, lines);
    },
  },
  {
    name: 'costs from 1e-12 to 1e9',
    make: (d) => {
      const n = d.whole(3, 12);
      const x = point(d, n);
      const lines = list(d.whole(2, 8), () =>
        around(
          d,
          list(n, () => (d.chance(0.6) ? d.between(-1, 4) : 0)),
          x,
        ),
      );
      const size = d.pick([-12, -6, 0, 6]);
      return program(
        list(n, () => ({ cost: logUniform(d, size, size + (d.chance(0.5) ? 1 : 9)), upper: d.between(5, 50) })),
        lines,
      );
    },
  },
  {
    name: 'near-parallel rows',
    make: (d) => {
      const n = d.whole(2, 8);
      const base = list(n, () => d.between(0.5, 3));
      const x = point(d, n, 5).map((value) => value + 0.1);
      const lines = list(d.whole(2, 8), () => {
        const by = base.map((a) => a * (1 + sign(d) * logUniform(d, -11, -4)));
        const value = by.reduce((sum, a, j) => sum + a * x[j]!, 0);
        return d.chance(0.5)
          ? { by, lower: value * (1 - (d.chance(0.5) ? 0 : logUniform(d, -10, -4))) }
          : { by, upper: value * (1 + (d.chance(0.5) ? 0 : logUniform(d, -10, -4))) };
      });
      return program(
        list(n, () => ({ cost: d.between(0.5, 3), upper: 20 })),
        lines,
      );
    },
  },
  {
    name: 'amounts from 1e-9 to 1e9 in one program',
    make: (d) => {
      // independent little programs of every size, tied by one row
      const n = d.whole(3, 10);
      const size = list(n, () => logUniform(d, -9, 9));
      const lines = list(n, (i) => ({
        by: list(n, (j) => (i === j ? d.between(1, 2) : 0)),
        lower: size[i]! * d.between(0.5, 1),
      }));
      const tie = size.map((s) => (d.chance(0.7) ? 1 / s : 0));
      return program(
        list(n, (j) => ({ cost: d.between(0.5, 2) / size[j]! })),
        [...lines, { by: tie, lower: d.between(0, n) }],
      );
    },
  },
];
