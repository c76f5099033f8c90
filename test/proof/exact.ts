import type { LinearProgram } from '../../solver/index.js';
import { Dictionary } from './dictionary.js';
import { type Dyadic, dyadic, type Ratio, shifted } from './dyadic.js';
import { optimise } from './exact-simplex.js';
import { noLatticePoint, roundInwards } from './lattice.js';

/** What a program comes to, without rounding. `unknown`: whole numbers that took more nodes than were allowed. */
export type Exact =
  | { status: 'optimal'; objective: Ratio; x: Ratio[] }
  | { status: 'infeasible' }
  | { status: 'unbounded' }
  | { status: 'unknown' };

/** Nodes of branch and bound before it is given up. */
export const NODES = 3000;

/** Solves a program in fractions: its doubles are taken for what they are, whole numbers over powers of two. */
export function exact(program: LinearProgram, nodes = NODES): Exact {
  const made = wholeNumbers(program);
  if (program.columns.some(({ integer }) => integer)) return branched(program, made, nodes);
  const status = optimise(made.dictionary);
  return status === 'optimal' ? answer(made, made.dictionary) : { status };
}

interface Made {
  dictionary: Dictionary;
  columns: number;
  /** Column j of the program is 2^columnShift[j] times its variable; every value stands in units of 2^-unit. */
  columnShift: number[];
  unit: number;
  costShift: number;
}

/** A column is a power of two times its variable, a row is multiplied by one; none for integer columns. */
function wholeNumbers({ columns, rows }: LinearProgram): Made {
  const position = new Map(columns.map(({ id }, j) => [id, j]));
  const terms = rows.map((row) =>
    Object.entries(row.terms).flatMap(([id, by]) => (by === 0 ? [] : [{ at: position.get(id)!, by: dyadic(by) }])),
  );
  const rowShift = terms.map((row) => -least(row.map(({ by }) => by.exponent)));
  const columnShift = columns.map(({ integer }, j) => {
    if (integer) return 0;
    const exponents = terms.flatMap((row, i) =>
      row.filter(({ at }) => at === j).map(({ by }) => by.exponent + rowShift[i]!),
    );
    return -least(exponents);
  });
  const costs = columns.map(({ cost }) => dyadic(cost));
  const costShift = -least(
    costs.flatMap(({ whole, exponent }, j) => (whole === 0n ? [] : [exponent + columnShift[j]!])),
  );
  const entries = terms.map((row, i) => {
    const line = columns.map(() => 0n);
    for (const { at, by } of row) line[at] = shifted(by, rowShift[i]! + columnShift[at]!);
    return line;
  });
  const ends = (side: 'lower' | 'upper', absent: number) => [
    ...columns.map((column, j) => bound(column[side] ?? absent, -columnShift[j]!)),
    ...rows.map((row, i) => bound(row[side] ?? Number.NaN, rowShift[i]!)),
  ];
  const [lower, upper] = [ends('lower', 0), ends('upper', Number.POSITIVE_INFINITY)];
  const unit = Math.max(0, -least([...lower, ...upper].flatMap((end) => (end?.whole ? [end.exponent] : []))));
  const inUnits = (end: Dyadic | undefined) => (end ? shifted(end, unit) : undefined);
  const dictionary = new Dictionary({
    entries,
    cost: costs.map((cost, j) => shifted(cost, columnShift[j]! + costShift)),
    lower: lower.map(inUnits),
    upper: upper.map(inUnits),
  });
  return { dictionary, columns: columns.length, columnShift, unit, costShift };
}

function answer({ columnShift, unit, costShift }: Made, dictionary: Dictionary): Exact {
  const den = dictionary.denominator;
  return {
    status: 'optimal',
    objective: timesPower({ num: dictionary.objective(), den }, -unit - costShift),
    x: columnShift.map((shift, j) => timesPower({ num: dictionary.valueOf(j), den }, shift - unit)),
  };
}

/** Branch and bound, depth first, over dictionaries that go on from their parent's. */
function branched({ columns }: LinearProgram, made: Made, nodes: number): Exact {
  const root = made.dictionary;
  const whole = columns.flatMap(({ integer }, j) => (integer ? [j] : []));
  const one = 1n << BigInt(made.unit);
  roundInwards(root, whole, one);
  if (noLatticePoint(root, whole, one)) return { status: 'infeasible' };
  const relaxation = optimise(root);
  if (relaxation === 'infeasible') return { status: 'infeasible' };
  // with fractions for data, whole numbers that fit and a direction of descent make descent without end (Meyer 1974)
  if (relaxation === 'unbounded') root.cost.fill(0n);
  let best: { found: Exact; num: bigint; den: bigint } | undefined;
  const open = [root];
  for (let asked = 0; open.length > 0; asked += 1) {
    if (asked >= nodes) return { status: 'unknown' };
    const node = open.pop()!;
    if (optimise(node) === 'infeasible') continue;
    const [num, den] = [node.objective(), node.denominator];
    if (best && num * best.den >= best.num * den) continue;
    const split = mostFractional(node, whole, one);
    if (!split) {
      if (relaxation === 'unbounded') return { status: 'unbounded' };
      best = { found: answer(made, node), num, den };
      continue;
    }
    const [below, above] = [new Dictionary(node), new Dictionary(node)];
    below.upper[split.variable] = split.floor;
    above.lower[split.variable] = split.floor + one;
    for (const child of split.nearFloor ? [above, below] : [below, above]) {
      child.refresh();
      open.push(child);
    }
  }
  return best?.found ?? { status: 'infeasible' };
}

function mostFractional(
  node: Dictionary,
  whole: readonly number[],
  one: bigint,
): { variable: number; floor: bigint; nearFloor: boolean } | undefined {
  const grain = one * node.denominator;
  let found: { variable: number; floor: bigint; nearFloor: boolean; off: bigint } | undefined;
  for (const variable of whole) {
    const value = node.valueOf(variable);
    const part = ((value % grain) + grain) % grain;
    if (part === 0n) continue;
    const nearFloor = 2n * part <= grain;
    const off = nearFloor ? part : grain - part;
    if (!found || off > found.off) found = { variable, floor: (value - part) / node.denominator, nearFloor, off };
  }
  return found;
}

function bound(end: number, shift: number): Dyadic | undefined {
  if (!Number.isFinite(end)) return undefined;
  const { whole, exponent } = dyadic(end);
  return { whole, exponent: exponent + shift };
}

function timesPower({ num, den }: Ratio, power: number): Ratio {
  return power >= 0 ? { num: num << BigInt(power), den } : { num, den: den << BigInt(-power) };
}

function least(exponents: readonly number[]): number {
  return exponents.length === 0 ? 0 : Math.min(...exponents);
}
