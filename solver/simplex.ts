import lib from 'javascript-lp-solver';
import type { Claim, Engine } from './engine.js';
import type { Table } from './table.js';

/**
 * javascript-lp-solver 1.0.3, made safe: built through its Model class (no ids, no JSON keys), presolve off (it drops
 * costs), default precision, values and multipliers read from the tableau (its own answers are rounded to 1e-8), and
 * a cap on pivots (it may run for ever). Linear programs only.
 */
export const simplex: Engine = { name: 'javascript-lp-solver', integers: false, solve };

/** Above this many tableau cells the dense method is slower than it is worth. */
const MOST_CELLS = 4_000_000;

function solve(table: Table): Claim {
  const standard = standardise(table);
  if (standard.crossed !== undefined) return { claim: 'infeasible', ray: standard.crossed };
  const cells = (standard.pieces.length + 1) * (standard.rows.length + 1);
  if (cells > MOST_CELLS) return { claim: 'none', why: `the tableau would hold ${cells} cells` };
  const model = build(standard);
  try {
    lib.Solve(model, undefined, true);
  } catch (error) {
    return { claim: 'none', why: error instanceof Error ? error.message : String(error) };
  }
  return read(model.tableau, standard, table);
}

/** The engine knows x ≥ 0 only: every column is a piece x = from + sign · piece, or two of them when it is free. */
interface Standard {
  pieces: { column: number; sign: number; cost: number }[];
  from: number[];
  rows: { row: number; upper: boolean; end: number; terms: [piece: number, by: number][] }[];
  /** A row without terms whose ends exclude 0 is a proof by itself. */
  crossed?: number[];
}

function standardise(table: Table): Standard {
  const pieces: Standard['pieces'] = [];
  const piecesOf: number[][] = [];
  const from: number[] = [];
  const rows: Standard['rows'] = [];
  table.cost.forEach((cost, j) => {
    const lower = table.lower[j]!;
    const upper = table.upper[j]!;
    const signs = lower === upper ? [] : Number.isFinite(lower) ? [1] : Number.isFinite(upper) ? [-1] : [1, -1];
    from.push(Number.isFinite(lower) ? lower : Number.isFinite(upper) ? upper : 0);
    piecesOf.push(signs.map((sign) => pieces.push({ column: j, sign, cost: sign * cost }) - 1));
    if (signs.length === 1 && Number.isFinite(lower) && Number.isFinite(upper)) {
      rows.push({ row: -1, upper: true, end: upper - lower, terms: [[piecesOf[j]![0]!, 1]] });
    }
  });
  let crossed: number[] | undefined;
  table.rows.forEach((row, i) => {
    let constant = 0;
    const terms: [number, number][] = [];
    row.at.forEach((j, k) => {
      constant += row.by[k]! * from[j]!;
      for (const piece of piecesOf[j]!) terms.push([piece, row.by[k]! * pieces[piece]!.sign]);
    });
    for (const upper of [false, true]) {
      const end = (upper ? row.upper : row.lower) - constant;
      if (!Number.isFinite(end)) continue;
      if (terms.length > 0) rows.push({ row: i, upper, end, terms });
      else if (upper ? end < 0 : end > 0) {
        // ranked by the certificate; a rounding excess there is no proof and the next engine decides
        crossed = table.rows.map((_, at) => (at === i ? (upper ? -1 : 1) : 0));
      }
    }
  });
  return { pieces, from, rows, ...(crossed ? { crossed } : {}) };
}

type Model = InstanceType<typeof lib.Model>;
type Tableau = Model['tableau'];

function build(standard: Standard): Model {
  const model = new lib.Model();
  model.usePresolve = false;
  model.minimize();
  const rows = standard.rows.map((row) => (row.upper ? model.smallerThan(row.end) : model.greaterThan(row.end)));
  const variables = standard.pieces.map((piece, p) => model.addVariable(piece.cost, `x${p}`));
  standard.rows.forEach((row, r) => {
    for (const [piece, by] of row.terms) rows[r]!.addTerm(by, variables[piece]!);
  });
  const tableau = model.tableau;
  const most = 200 + 20 * (standard.rows.length + standard.pieces.length);
  const pivot = tableau.pivot.bind(tableau);
  let pivots = 0;
  tableau.pivot = (row, column) => {
    pivots += 1;
    if (pivots > most) throw new Error(`stopped after ${most} pivots`);
    pivot(row, column);
  };
  return model;
}

/** Element indices in the tableau: the rows' slacks come first, then the pieces, in the order they were added. */
function read(tableau: Tableau, standard: Standard, table: Table): Claim {
  const { matrix, width } = tableau;
  const slacks = standard.rows.length;
  const value = (index: number) => {
    const row = tableau.rowByVarIndex[index]!;
    return row === -1 ? 0 : matrix[row * width]!;
  };
  /** Per row of the table, from one row of the tableau: a slack's entry is the multiplier of its end. */
  const multipliers = (tableauRow: number, sign: number) => {
    const y = new Array<number>(table.rows.length).fill(0);
    standard.rows.forEach((row, r) => {
      if (row.row === -1) return;
      const column = tableau.colByVarIndex[r]!;
      // a basic slack stands in its own row only, with coefficient 1
      const entry =
        column !== -1 ? matrix[tableauRow * width + column]! : tableau.rowByVarIndex[r] === tableauRow ? 1 : 0;
      y[row.row]! += sign * (row.upper ? 1 : -1) * entry;
    });
    return y;
  };
  const unpiece = (piece: (index: number) => number, from: readonly number[]) => {
    const x = [...from];
    standard.pieces.forEach((p, at) => {
      x[p.column]! += p.sign * piece(slacks + at);
    });
    return x;
  };
  if (!tableau.feasible) {
    const row = impossibleRow(tableau);
    if (row === undefined) return { claim: 'none', why: 'said infeasible without a row that shows it' };
    return { claim: 'infeasible', ray: multipliers(row, -1) };
  }
  const x = unpiece(value, standard.from);
  if (!tableau.bounded && tableau.unboundedVarIndex !== null) {
    const entering = tableau.unboundedVarIndex;
    const column = tableau.colByVarIndex[entering]!;
    const step = (index: number) => {
      if (index === entering) return 1;
      const row = tableau.rowByVarIndex[index]!;
      return row === -1 ? 0 : -matrix[row * width + column]!;
    };
    return {
      claim: 'unbounded',
      x,
      ray: unpiece(
        step,
        standard.from.map(() => 0),
      ),
    };
  }
  return { claim: 'optimal', x, y: multipliers(0, 1) };
}

/** The row with a negative right side and no negative coefficient: the engine's proof that nothing fits. */
function impossibleRow(tableau: Tableau): number | undefined {
  const { matrix, width, height, precision } = tableau;
  let worst: number | undefined;
  for (let r = 1; r < height; r += 1) {
    const side = matrix[r * width]!;
    if (side >= -precision || (worst !== undefined && side >= matrix[worst * width]!)) continue;
    if (!matrix.subarray(r * width + 1, (r + 1) * width).some((coefficient) => coefficient < -precision)) worst = r;
  }
  return worst;
}
