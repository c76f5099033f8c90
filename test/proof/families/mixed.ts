import { dot, type Family, type Line, list, logUniform, program } from './family.js';

const whole = { integer: true } as const;

/** Whole numbers beside continuous amounts, and where they are awkward. */
export const mixed: Family[] = [
  {
    name: 'market split',
    make: (d) => {
      // G. Cornuéjols, M. Dawande 1998: equalities over 0 and 1 with few or no solutions; small ones
      const [m, n] = [d.whole(1, 2), d.whole(5, 9)];
      const rows = list(m, () => list(n, () => d.whole(0, 40)));
      return program(
        list(n, () => ({ cost: d.whole(0, 5), upper: 1, ...whole })),
        rows.map((by) => {
          const end = Math.floor(
            dot(
              by,
              list(n, () => 0.5),
            ),
          );
          return { by, lower: end, upper: end };
        }),
      );
    },
  },
  {
    name: 'a switch with a large amount',
    make: (d) => {
      // amount ≤ 1e4 … 1e8 · switch: a switch of 1e-7 is no switch
      const n = d.whole(1, 4);
      const most = 10 ** d.whole(4, 8);
      const lines: Line[] = list(n, (i) => ({
        by: list(2 * n, (j) => (j === i ? 1 : j === n + i ? -most : 0)),
        upper: 0,
      }));
      lines.push({ by: list(2 * n, (j) => Number(j < n)), lower: d.between(1, 20) });
      return program(
        list(2 * n, (j) => (j < n ? { cost: d.between(0.5, 3) } : { cost: d.between(1, 40), upper: 1, ...whole })),
        lines,
      );
    },
  },
  {
    name: 'all but whole',
    make: (d) => {
      // relaxations whose answers miss whole numbers by 1e-9 … 1e-4
      const n = d.whole(1, 4);
      const off = logUniform(d, -9, -4);
      return program(
        list(n + 1, (j) => ({ cost: j === n ? d.between(5, 50) : d.between(0.5, 3), ...(j === n ? {} : whole) })),
        list(n, (i) => ({
          by: list(n + 1, (j) => (j === i ? 1 : j === n ? 1 : 0)),
          lower: d.whole(1, 9) + (d.chance(0.5) ? off : -off),
        })),
      );
    },
  },
  {
    name: 'integers that fall for ever',
    make: (d) => {
      const n = d.whole(2, 5);
      const lines = list(d.whole(1, 3), (): Line => {
        const by = list(n + 1, () => (d.chance(0.7) ? d.whole(-5, 5) : 0));
        return d.chance(0.5) ? { by, lower: d.whole(-9, 9) } : { by, upper: d.whole(-9, 9) + 0.5 };
      });
      return program(
        list(n + 1, (j) => ({
          cost: d.whole(-4, 3),
          integer: j < n,
          ...(d.chance(0.3) ? { lower: Number.NEGATIVE_INFINITY } : {}),
          ...(d.chance(0.3) ? { upper: d.whole(1, 9) } : {}),
        })),
        lines,
      );
    },
  },
  {
    name: 'integers from below 0',
    make: (d) => {
      const [n, m] = [d.whole(2, 6), d.whole(1, 4)];
      return program(
        list(n, () => ({
          cost: d.between(-2, 3),
          lower: -d.whole(0, 8) - (d.chance(0.3) ? 0.5 : 0),
          upper: d.whole(1, 9) + 0.25,
          ...whole,
        })),
        list(m, (): Line => {
          const by = list(n, () => d.whole(-4, 6));
          return d.chance(0.5) ? { by, lower: d.between(-5, 15) } : { by, upper: d.between(-5, 15) };
        }),
      );
    },
  },
  {
    name: 'cutting stock',
    make: (d) => {
      const widths = list(d.whole(2, 3), () => d.whole(15, 60));
      const patterns = list(d.whole(4, 9), () => widths.map((width) => d.whole(0, Math.floor(100 / width))));
      return program(
        patterns.map(() => ({ cost: d.chance(0.8) ? 1 : 2, ...whole })),
        widths.map((_, i) => ({ by: patterns.map((pattern) => pattern[i]!), lower: d.whole(3, 40) })),
      );
    },
  },
  {
    name: 'whole and fractional, tied by an equality',
    make: (d) => {
      const n = d.whole(2, 5);
      const end = d.between(5, 50);
      return program(
        list(2 * n, (j) => ({ cost: d.between(0.5, 3), ...(j < n ? whole : { upper: d.between(0.05, 0.9) }) })),
        [
          { by: list(2 * n, (j) => (j < n ? d.whole(1, 7) : d.between(0.1, 2))), lower: end, upper: end },
          { by: list(2 * n, () => (d.chance(0.5) ? d.between(0, 2) : 0)), upper: end },
        ],
      );
    },
  },
];
