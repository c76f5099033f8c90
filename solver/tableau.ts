import lib from 'javascript-lp-solver';
import { Spent } from './engine.js';
import type { Table } from './table.js';

/** Above this many cells the dense method is slower than it is worth. */
const MOST_CELLS = 4_000_000;
/** Pivots × cells; some tenths of a second. Blends take a tenth of it; dense programs are quicker in the next engine. */
const MOST_WORK = 30_000_000;

/** An end of a table's row, less what the columns' starting points give of it; a row of the tableau. */
export interface End {
  row: number;
  upper: boolean;
  end: number;
}

/** The engine knows x ≥ 0 only: a column is one piece, x = from + sign · piece, or two of them when it is free. */
export interface Piece {
  column: number;
  sign: 1 | -1;
}

type Engine = InstanceType<typeof lib.Tableau>;

/**
 * A tableau of javascript-lp-solver, filled without its Model. It begins with the ends of rows alone; pieces and ceilings are
 * added when they are wanted, in the basis it has reached by then. Variables have the index in which they came: ends first.
 */
export interface Tableau {
  engine: Engine;
  ends: readonly End[];
  pieces: Piece[];
  /** Per piece, its index as a variable of the engine. */
  indices: number[];
  /** Costs stand in it times this. */
  costUnit: number;
}

/** `above`: rows left free above those of the ends, for as many ceilings; in ties the engine takes the upper row. */
export function begin(ends: readonly End[], above: number, costUnit: number): Tableau {
  const model = new lib.Model().minimize();
  model.debug(false);
  const engine = model.tableau;
  engine.model = model;
  engine.initialize(1, 1 + above + ends.length, [], {});
  engine.rowByVarIndex = ends.map((_, e) => 1 + above + e);
  engine.colByVarIndex = ends.map(() => -1);
  ends.forEach(({ upper, end }, e) => {
    engine.matrix[1 + above + e] = upper ? end : -end;
    engine.varIndexByRow[1 + above + e] = e;
  });
  const pivot = engine.pivot.bind(engine);
  let pivots = 0;
  let work = 0;
  engine.pivot = (row, column) => {
    pivots += 1;
    work += engine.width * engine.height;
    if (work > MOST_WORK) throw new Spent(`stopped after ${pivots} pivots, ${work} cells in all`);
    const most = 200 + 20 * (engine.width + engine.height);
    if (pivots > most) throw new Error(`stopped after ${most} pivots`);
    pivot(row, column);
  };
  return { engine, ends, pieces: [], indices: [], costUnit };
}

/** Adds pieces: what a row of the tableau holds of one is what it holds of the slacks, times the piece's coefficients. */
export function addPieces(tableau: Tableau, table: Table, added: readonly Piece[]): void {
  const { engine, pieces, indices, costUnit } = tableau;
  const first = engine.width;
  resize(engine, first + added.length, engine.height);
  const { matrix, width, height } = engine;
  const at = new Int32Array(table.cost.length);
  const mirrored = new Map<number, number>();
  added.forEach((piece, k) => {
    const { column, sign } = piece;
    if (at[column] === 0) at[column] = first + k;
    else mirrored.set(column, first + k);
    indices.push(engine.rowByVarIndex.length);
    pieces.push(piece);
    engine.varIndexByCol[first + k] = engine.rowByVarIndex.length;
    engine.rowByVarIndex.push(-1);
    engine.colByVarIndex.push(first + k);
    matrix[first + k] = -sign * table.cost[column]! * costUnit;
  });
  const part = new Float64Array(height);
  const held = new Int32Array(height);
  for (let e = 0; e < tableau.ends.length; ) {
    const { row } = tableau.ends[e]!;
    part.fill(0);
    for (; e < tableau.ends.length && tableau.ends[e]!.row === row; e += 1) {
      slackColumn(tableau, e, tableau.ends[e]!.upper ? 1 : -1, part);
    }
    let count = 0;
    for (let r = 0; r < height; r += 1) if (part[r] !== 0) held[count++] = r;
    const terms = table.rows[row]!;
    for (let k = 0; k < terms.at.length; k += 1) {
      const c = at[terms.at[k]!]!;
      if (c === 0) continue;
      const by = terms.by[k]! * added[c - first]!.sign;
      for (let h = 0; h < count; h += 1) matrix[held[h]! * width + c]! += part[held[h]!]! * by;
    }
  }
  for (const [column, c] of mirrored) {
    for (let r = 0; r < height; r += 1) matrix[r * width + c] = -matrix[r * width + at[column]!]!;
  }
}

/** Adds sign times the column that the slack of an end has, or would have: a basic one stands in its own row alone. */
function slackColumn({ engine }: Tableau, end: number, sign: number, to: Float64Array): void {
  const c = engine.colByVarIndex[end]!;
  if (c === -1) to[engine.rowByVarIndex[end]!]! += sign;
  else for (let r = 0; r < to.length; r += 1) to[r]! += sign * engine.matrix[r * engine.width + c]!;
}

/** Adds piece ≤ room as a row, in one that was left free or below all others. */
export function addCeiling({ engine, indices }: Tableau, piece: number, room: number, at = engine.height): void {
  if (at === engine.height) resize(engine, engine.width, at + 1);
  const { matrix, width } = engine;
  const row = engine.rowByVarIndex[indices[piece]!]!;
  if (row === -1) matrix[at * width + engine.colByVarIndex[indices[piece]!]!] = 1;
  else for (let c = 0; c < width; c += 1) matrix[at * width + c] = -matrix[row * width + c]!;
  matrix[at * width]! += room;
  engine.varIndexByRow[at] = engine.rowByVarIndex.length;
  engine.rowByVarIndex.push(at);
  engine.colByVarIndex.push(-1);
}

function resize(engine: Engine, width: number, height: number): void {
  if (width === engine.width && height === engine.height) return;
  const cells = width * height;
  if (cells > MOST_CELLS) throw new Spent(`the tableau would hold ${cells} cells`);
  const old = engine.matrix;
  const wide = engine.width;
  const matrix = new Float64Array(cells);
  for (let r = 0; r < engine.height; r += 1) matrix.set(old.subarray(r * wide, (r + 1) * wide), r * width);
  engine.matrix = matrix;
  engine.width = width;
  engine.height = height;
}

/** The value of a piece. */
export function amount({ engine, indices }: Tableau, piece: number): number {
  const row = engine.rowByVarIndex[indices[piece]!]!;
  return row === -1 ? 0 : engine.matrix[row * engine.width]!;
}

/** How a piece moves along the ray of an unbounded tableau. */
export function step({ engine, indices }: Tableau, piece: number): number {
  const entering = engine.unboundedVarIndex!;
  if (indices[piece] === entering) return 1;
  const row = engine.rowByVarIndex[indices[piece]!]!;
  return row === -1 ? 0 : -engine.matrix[row * engine.width + engine.colByVarIndex[entering]!]!;
}

/** Per row of the table, sign times what a row of the tableau holds of its slacks: the multipliers of its ends. */
export function multipliers({ engine, ends }: Tableau, rows: number, tableauRow: number, sign: number): number[] {
  const y = new Array<number>(rows).fill(0);
  ends.forEach(({ row, upper }, e) => {
    const column = engine.colByVarIndex[e]!;
    const entry =
      column !== -1
        ? engine.matrix[tableauRow * engine.width + column]!
        : engine.rowByVarIndex[e] === tableauRow
          ? 1
          : 0;
    y[row]! += sign * (upper ? 1 : -1) * entry;
  });
  return y;
}

/** The row with a negative right side and no negative coefficient: the engine's proof that nothing fits. */
export function impossibleRow({ engine }: Tableau): number | undefined {
  const { matrix, width, height, precision } = engine;
  let worst: number | undefined;
  for (let r = 1; r < height; r += 1) {
    const side = matrix[r * width]!;
    if (side >= -precision || (worst !== undefined && side >= matrix[worst * width]!)) continue;
    if (!matrix.subarray(r * width + 1, (r + 1) * width).some((coefficient) => coefficient < -precision)) worst = r;
  }
  return worst;
}
