import { check } from './check.js';
import { isEnd } from './conflict.js';
import type { LinearProgram, Row, Uncertified } from './program.js';
import { reach } from './range.js';
import { type SolveOptions, solve } from './solve.js';

/**
 * What moving a row's end one way does to the least cost: `price` per unit of the end (its sign: cost rising with the
 * end), the same all the way to `limit`; null: for ever. `price` null: it cannot move that way at all, the program
 * would have no point left.
 */
export interface Side {
  price: number | null;
  limit: number | null;
}

/** `left` for a smaller end, `right` for a greater one; they differ where the answer is degenerate. */
export type ShadowPrice = { verdict: 'price'; end: number; left: Side; right: Side } | Uncertified;

/** A cost equal to another within this part of it; engines here are good to about 1e-12. */
const SAME = 1e-8;
const STEPS = 100;
/**
 * How far inside a limit to look: there exactly, unless rounding leaves no point or multipliers that hold only for the
 * sliver that is left; then by this part of the way.
 */
const INSIDE = [0, 1e-9, 1e-6, 1e-4, 1e-2];

/** A support of the least cost as a function of the end: cost(b) ≥ value + slope · (b − at), equal at `at`. */
interface Line {
  at: number;
  value: number;
  slope: number;
}

/**
 * Shadow prices of the end of a row, by re-solving with the end moved: right where several sets of multipliers are
 * best. An equality row moves as a whole, whichever end is named. Linear programs with a best answer only: throws a
 * RangeError for others, for an unknown row or an absent end, and a ProgramError as `solve` does.
 */
export async function shadowPrice(
  program: LinearProgram,
  row: string,
  end: 'lower' | 'upper',
  options: SolveOptions = {},
): Promise<ShadowPrice> {
  check(program);
  const own = program.rows.find(({ id }) => id === row);
  if (!own || !isEnd(own[end])) throw new RangeError(`row ${JSON.stringify(row)} has no ${end} end`);
  if (program.columns.some(({ integer }) => integer))
    throw new RangeError('shadow prices are for programs without integer columns');
  const curve = new Curve(program, own, end, options);
  const here = await curve.line(own[end]);
  if ('verdict' in here) return here;
  const left = await curve.side(here, -1);
  if ('verdict' in left) return left;
  const right = await curve.side(here, 1);
  if ('verdict' in right) return right;
  return { verdict: 'price', end: own[end], left, right };
}

/** The least cost as a function of the end b: convex, piecewise linear. */
class Curve {
  private readonly whole: boolean;

  constructor(
    private readonly program: LinearProgram,
    private readonly row: Row,
    private readonly end: 'lower' | 'upper',
    private readonly options: SolveOptions,
  ) {
    this.whole = row.lower === row.upper;
  }

  /** The support at b; `mayFail` where rounding may leave no point. */
  async line(wanted: number, mayFail = false): Promise<Line | Uncertified> {
    const b = this.settled(wanted);
    const answer = await solve(this.with(this.whole ? { lower: b, upper: b } : { [this.end]: b }), this.options);
    if (answer.verdict === 'uncertified') return answer;
    if (mayFail && answer.verdict === 'infeasible')
      return { verdict: 'uncertified', claim: 'infeasible', why: 'no point is left' };
    if (answer.verdict !== 'optimal') throw new RangeError(`there is no best answer: the program is ${answer.verdict}`);
    const y = answer.y[this.row.id]!;
    return {
      at: b,
      value: answer.objective,
      slope: this.whole ? y : this.end === 'lower' ? Math.max(y, 0) : Math.min(y, 0),
    };
  }

  /** Not past the row's other end, and 0 where subtraction leaves dust. */
  private settled(b: number): number {
    if (Math.abs(b) <= 1e-12 * Math.abs(this.row[this.end]!)) return 0;
    if (this.whole) return b;
    return this.end === 'lower' ? Math.min(b, this.row.upper ?? b) : Math.max(b, this.row.lower ?? b);
  }

  /** Newton from the far end: supports meet nearer and nearer, until the nearest piece is known with its limit. */
  async side(here: Line, direction: 1 | -1): Promise<Side | Uncertified> {
    const start = await this.farthest(here, direction);
    if ('verdict' in start) return start;
    if (start.far === undefined) return { price: null, limit: here.at };
    let near = here.slope;
    let far = start.far;
    for (let step = 0; step < STEPS; step += 1) {
      const short = here.value - reachOf(far, here.at);
      if (short <= SAME * sizeOf(here, far)) {
        if (far === start.far) return { price: tidy(far.slope), limit: start.limit };
        near = far.slope;
        far = start.far;
        continue;
      }
      const meet = here.at + short / (far.slope - near);
      const middle = await this.line(direction > 0 ? Math.min(meet, far.at) : Math.max(meet, far.at));
      if ('verdict' in middle) return middle;
      const predicted = here.value + near * (middle.at - here.at);
      if (middle.value - predicted <= SAME * sizeOf(here, middle)) return { price: tidy(near), limit: middle.at };
      far = middle;
    }
    return {
      verdict: 'uncertified',
      claim: 'price',
      why: `no end found for ${JSON.stringify(this.row.id)} in ${STEPS} steps`,
    };
  }

  /** The last piece in a direction, and how far it goes; no `far` when there is no room at all. */
  private async farthest(
    here: Line,
    direction: 1 | -1,
  ): Promise<{ far: Line | undefined; limit: number | null } | Uncertified> {
    const free = this.with({
      lower: this.whole ? undefined : this.row.lower,
      upper: this.whole ? undefined : this.row.upper,
      [this.end]: undefined,
    });
    const loosening = !this.whole && (this.end === 'lower') === direction < 0;
    if (loosening) {
      const answer = await solve(free, this.options);
      if (answer.verdict === 'uncertified') return answer;
      if (answer.verdict === 'optimal') {
        const used = Object.entries(this.row.terms).reduce((sum, [id, by]) => sum + by * answer.x[id]!, 0);
        const beyond = direction * (used - here.at) > 0 ? used : here.at + direction;
        return { far: { at: beyond, value: answer.objective, slope: 0 }, limit: null };
      }
      return this.last(here, direction, free);
    }
    const range = await reach(free, this.row.terms, this.options);
    if (range.verdict !== 'reach') return range.verdict === 'uncertified' ? range : { far: undefined, limit: null };
    const limit = (direction > 0 ? range.highest : range.lowest).value;
    if (limit === null) return this.last(here, direction, free);
    const room = direction * (limit - here.at);
    if (room <= SAME * Math.max(Math.abs(limit), Math.abs(here.at))) return { far: undefined, limit: null };
    let why = 'its multipliers hold only there';
    for (const inside of INSIDE) {
      const far = await this.line(limit - direction * room * inside, true);
      if ('verdict' in far) {
        why = far.why;
        continue;
      }
      if (here.value - reachOf(far, here.at) >= -SAME * sizeOf(here, far)) return { far, limit };
    }
    return {
      verdict: 'uncertified',
      claim: 'price',
      why: `at the limit of ${JSON.stringify(this.row.id)}: ${why}`,
    };
  }

  /** No limit that way: the slope at infinity is the cheapest direction that moves the row by 1; go until it rules. */
  private async last(
    here: Line,
    direction: 1 | -1,
    free: LinearProgram,
  ): Promise<{ far: Line; limit: null } | Uncertified> {
    const shut = (value: number | undefined) => (isEnd(value) ? 0 : undefined);
    const answer = await solve(
      {
        columns: free.columns.map((c) => ({
          id: c.id,
          cost: c.cost,
          lower: shut(c.lower ?? 0) ?? Number.NEGATIVE_INFINITY,
          upper: shut(c.upper) ?? Number.POSITIVE_INFINITY,
        })),
        rows: free.rows.map((r) =>
          r.id === this.row.id
            ? { ...r, lower: direction, upper: direction }
            : { ...r, ...ends(shut(r.lower), shut(r.upper)) },
        ),
      },
      this.options,
    );
    if (answer.verdict === 'uncertified') return answer;
    if (answer.verdict !== 'optimal')
      throw new RangeError(`there is no best answer: the program is ${answer.verdict} far out`);
    const slope = direction * answer.objective;
    let step = Math.max(1, Math.abs(here.at));
    for (;;) {
      const far = await this.line(here.at + direction * step);
      if ('verdict' in far) return far;
      if (Math.abs(far.slope - slope) <= 1e-6 * Math.max(Math.abs(slope), Math.abs(far.slope)))
        return { far, limit: null };
      if (step > 1e12 * Math.max(1, Math.abs(here.at)))
        return { verdict: 'uncertified', claim: 'price', why: 'the price has no end' };
      step *= 4;
    }
  }

  private with(change: { lower?: number | undefined; upper?: number | undefined }): LinearProgram {
    const lower = 'lower' in change ? change.lower : this.row.lower;
    const upper = 'upper' in change ? change.upper : this.row.upper;
    const row: Row = { id: this.row.id, terms: this.row.terms, ...ends(lower, upper) };
    return { ...this.program, rows: this.program.rows.map((r) => (r.id === row.id ? row : r)) };
  }
}

function ends(lower: number | undefined, upper: number | undefined): { lower?: number; upper?: number } {
  return { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
}

function reachOf(line: Line, b: number): number {
  return line.value + line.slope * (b - line.at);
}

function sizeOf(a: Line, b: Line): number {
  return Math.max(Math.abs(a.value), Math.abs(b.value), Math.abs(b.slope * (b.at - a.at)));
}

function tidy(price: number): number {
  return price === 0 ? 0 : price;
}
