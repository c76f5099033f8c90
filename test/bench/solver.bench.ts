/**
 * Linear programs of 30 rows through the door anyone has, `solve` with its named columns and terms, its checks and its
 * certificate, beside the barest use of HiGHS: arrays made beforehand, default options, run, read, dispose. The same
 * programs in turn, so that a machine that slows down favours neither; the ratio is the median of all pairs.
 */
import highs, { type ModelData } from 'highs';
import { bench, describe } from 'vitest';
import { type LinearProgram, solve } from '../../solver/index.js';
import { feedProgram } from './feed-programs.js';

const SIZES: [products: number, rounds: number][] = [
  [8, 150],
  [30, 100],
  [100, 60],
  [300, 40],
  [1000, 20],
  [5000, 8],
];
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

const engine = await highs();

/** The program as HiGHS takes it, row after row. */
function arrays({ columns, rows }: LinearProgram): ModelData {
  const at = new Map(columns.map(({ id }, j) => [id, j]));
  const starts = [0];
  for (const { terms } of rows) starts.push(starts.at(-1)! + Object.keys(terms).length);
  return {
    numCols: columns.length,
    numRows: rows.length,
    colCost: Float64Array.from(columns, ({ cost }) => cost),
    colLower: Float64Array.from(columns, ({ lower = 0 }) => lower),
    colUpper: Float64Array.from(columns, ({ upper = Number.POSITIVE_INFINITY }) => upper),
    rowLower: Float64Array.from(rows, ({ lower = Number.NEGATIVE_INFINITY }) => lower),
    rowUpper: Float64Array.from(rows, ({ upper = Number.POSITIVE_INFINITY }) => upper),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns.length,
      starts: Int32Array.from(starts),
      indices: Int32Array.from(rows.flatMap(({ terms }) => Object.keys(terms).map((id) => at.get(id)!))),
      values: Float64Array.from(rows.flatMap(({ terms }) => Object.values(terms))),
    },
  };
}

function barest(data: ModelData): number {
  const model = engine.createModel(data);
  model.options.set({ output_flag: false });
  model.run();
  const { colValue } = model.getSolution();
  model.dispose();
  return colValue.reduce((sum, x, j) => sum + x * data.colCost[j]!, 0);
}

async function ours(program: LinearProgram): Promise<number> {
  const answer = await solve(program);
  if (answer.verdict !== 'optimal') throw new Error(`${answer.verdict}`);
  return answer.objective;
}

async function clock(work: () => number | Promise<number>): Promise<[milliseconds: number, objective: number]> {
  const start = performance.now();
  const objective = await work();
  return [performance.now() - start, objective];
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

for (const ceilings of [false, true]) {
  for (const [products, rounds] of SIZES) {
    const programs = SEEDS.map((seed) => feedProgram(seed, products, ceilings)).map(
      (program) => [program, arrays(program)] as const,
    );
    const pairs: { mine: number; bare: number }[] = [];
    for (let round = -2; round < rounds; round += 1) {
      for (const [program, data] of programs) {
        const first = round % 2 === 0 ? await clock(() => barest(data)) : undefined;
        const [mine, objective] = await clock(() => ours(program));
        const [bare, judged] = first ?? (await clock(() => barest(data)));
        if (Math.abs(objective - judged) > 1e-6 * Math.abs(judged)) throw new Error(`${objective} is not ${judged}`);
        if (round >= 0) pairs.push({ mine, bare });
      }
    }
    const ratio = median(pairs.map(({ mine, bare }) => mine / bare));
    console.log(
      `${pairs.length} pairs, ${products} products${ceilings ? ' with ceilings' : ''}: ${ratio.toFixed(2)} × HiGHS; ` +
        `medians ${median(pairs.map(({ mine }) => mine)).toFixed(3)} and ${median(pairs.map(({ bare }) => bare)).toFixed(3)} ms`,
    );
  }
}

describe('one program of 300 products', () => {
  const program = feedProgram(1, 300, false);
  const data = arrays(program);
  bench('HiGHS, barest', () => void barest(data));
  bench('solve', async () => void (await ours(program)));
});
