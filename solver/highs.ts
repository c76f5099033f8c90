import type { Highs, HighsCallbackMap, InterruptCallbackEvent, Model, ModelData } from 'highs';
import type { Claim, Engine, EngineLimits } from './engine.js';
import { directions, elastic, leaning } from './proofs.js';
import type { Table } from './table.js';

/** HiGHS in WebAssembly, loaded on first use: integer programs, and the second opinion for linear ones. */
export const highs: Engine = { name: 'highs', integers: true, solve: (table, limits) => ask(table, limits, answer) };

/** Last resort where rows conflict but no ray was clean enough: asks for one that stands clear of rounding. */
export const highsProof: Engine = { name: 'highs', integers: false, solve: (table) => ask(table, {}, clearRay) };

/** Tighter than its defaults (1e-7): an answer within 1e-7 of a scaled row may miss the certificate's 1e-6 unscaled. */
const TOLERANCES = {
  output_flag: false,
  primal_feasibility_tolerance: 1e-9,
  dual_feasibility_tolerance: 1e-9,
  mip_feasibility_tolerance: 1e-9,
  mip_rel_gap: 0,
  mip_abs_gap: 0,
  // a second root and a look for symmetry take longer than they spare on programs of some hundred columns
  mip_allow_restart: false,
  mip_detect_symmetry: false,
  small_matrix_value: 1e-12,
};

/** Pivots at most, so many for every row and column and so many besides; a few for each are usual. */
const PIVOTS_EACH = 50;
const PIVOTS = 5000;

let loaded: Promise<Highs> | undefined;

type Question = (engine: Highs, table: Table, limits: EngineLimits) => Claim;

async function ask(table: Table, limits: EngineLimits, question: Question): Promise<Claim> {
  if (table.cost.length === 0) return withoutColumns(table);
  try {
    loaded ??= import('highs').then((module) => module.default());
    return question(await loaded, table, limits);
  } catch (error) {
    // after a trap its memory cannot be trusted: the next call loads a fresh one
    loaded = undefined;
    return { claim: 'none', why: error instanceof Error ? error.message : String(error) };
  }
}

function answer(engine: Highs, table: Table, limits: EngineLimits): Claim {
  if (table.integer.some(Boolean)) return integers(engine, table, limits);
  const claim = linear(engine, table, 'choose', limits);
  return claim.claim === 'none' && !claim.spent ? linear(engine, table, 'off', limits) : claim;
}

function clearRay(engine: Highs, table: Table): Claim {
  return run(engine, leaning(table), {}, (twin) => ({ claim: 'infeasible', ray: [...twin.getSolution().rowDual] }));
}

/** It refuses a model without columns; such a model has one point. */
function withoutColumns(table: Table): Claim {
  const ray = table.rows.map(({ lower, upper }) => (lower > 0 ? 1 : upper < 0 ? -1 : 0));
  return ray.some((value) => value !== 0) ? { claim: 'infeasible', ray } : { claim: 'optimal', x: [], y: ray };
}

function linear(engine: Highs, table: Table, presolve: 'choose' | 'off', limits: EngineLimits): Claim {
  const { modelStatus } = engine.constants;
  return run(engine, table, { presolve, ...timed(limits) }, (model) => {
    const status = model.getModelStatus();
    if (status === modelStatus.optimal) {
      const { colValue, rowDual } = model.getSolution();
      return { claim: 'optimal', x: [...colValue], y: [...rowDual] };
    }
    if (status === modelStatus.unbounded) return unbounded(engine, table, model);
    if (status === modelStatus.infeasible) return infeasible(engine, table, model);
    if (status === modelStatus.timeLimit) return { claim: 'none', why: 'time ran out', spent: true };
    if (status === modelStatus.iterationLimit)
      return { claim: 'none', why: 'stopped at its limit of pivots', spent: true };
    if (status !== modelStatus.unboundedOrInfeasible)
      return { claim: 'none', why: `ended with model status ${status}` };
    const claim = infeasible(engine, table, model);
    return claim.claim === 'infeasible' ? claim : unbounded(engine, table, model);
  });
}

/** Its presolve often leaves no ray; the elastic twin's multipliers are one. */
function infeasible(engine: Highs, table: Table, model: Model): Claim {
  const ray = attempt(() => model.getDualRay());
  if (ray) return { claim: 'infeasible', ray: [...ray.values] };
  return run(engine, elastic(table), {}, (twin) =>
    twin.getObjectiveValue() > 0
      ? { claim: 'infeasible', ray: [...twin.getSolution().rowDual] }
      : { claim: 'none', why: 'said infeasible, yet every row can be kept' },
  );
}

function unbounded(engine: Highs, table: Table, model: Model): Claim {
  const ray =
    attempt(() => model.getPrimalRay())?.values ??
    run(engine, directions(table), {}, (twin) => twin.getSolution().colValue);
  const still = { ...table, cost: table.cost.map(() => 0) };
  return run(engine, still, {}, (start) => ({
    claim: 'unbounded',
    x: [...start.getSolution().colValue],
    ray: [...ray],
  }));
}

function integers(engine: Highs, table: Table, limits: EngineLimits): Claim {
  const { modelStatus, solutionStatus } = engine.constants;
  const { mostNodes } = limits;
  const limit: Record<string, number> = {
    ...(mostNodes === undefined ? {} : { mip_max_nodes: mostNodes, mip_max_leaves: mostNodes }),
    ...timed(limits),
  };
  const read = (model: Model): Claim => {
    const status = model.getModelStatus();
    if (status === modelStatus.infeasible) return { claim: 'integer-infeasible' };
    if (model.info.get('primal_solution_status') !== solutionStatus.feasible) {
      if (status === modelStatus.timeLimit)
        return { claim: 'none', why: 'time ran out before any answer', spent: true };
      if (status === modelStatus.interrupted || status === modelStatus.solutionLimit)
        return { claim: 'none', why: 'its nodes or pivots ran out before any answer', spent: true };
      return { claim: 'none', why: `ended with model status ${status}` };
    }
    const bound = Number(model.info.get('mip_dual_bound'));
    return { claim: 'integer', x: [...model.getSolution().colValue], bound, ended: status === modelStatus.optimal };
  };
  return run(engine, table, limit, read, counted(engine, limits));
}

const timed = ({ timeLimitSeconds }: EngineLimits): Record<string, number> =>
  timeLimitSeconds === undefined ? {} : { time_limit: timeLimitSeconds };

/** A large program takes many pivots before its second node. It asks now and then, always at the same ones, whether to go on. */
function counted({ constants }: Highs, { mostPivots }: EngineLimits): HighsCallbackMap {
  if (mostPivots === undefined) return {};
  return {
    [constants.callbackType.mipInterrupt]: (event: InterruptCallbackEvent) => {
      if (Number(event.data.mip_total_lp_iterations ?? 0) >= mostPivots) event.interrupt();
      return undefined;
    },
  };
}

function run<Result>(
  engine: Highs,
  table: Table,
  options: Record<string, number | string>,
  read: (model: Model) => Result,
  callbacks: HighsCallbackMap = {},
): Result {
  const model = engine.createModel(data(table));
  try {
    const most = PIVOTS + PIVOTS_EACH * (table.cost.length + table.rows.length);
    model.options.set({ ...TOLERANCES, simplex_iteration_limit: most, ...options });
    model.run(callbacks);
    return read(model);
  } finally {
    model.dispose();
  }
}

function data(table: Table): ModelData {
  const starts = [0];
  for (const row of table.rows) starts.push(starts.at(-1)! + row.at.length);
  return {
    numCols: table.cost.length,
    numRows: table.rows.length,
    colCost: table.cost,
    colLower: table.lower,
    colUpper: table.upper,
    rowLower: table.rows.map((row) => row.lower),
    rowUpper: table.rows.map((row) => row.upper),
    matrix: {
      format: 'csr',
      numRows: table.rows.length,
      numCols: table.cost.length,
      starts,
      indices: table.rows.flatMap((row) => row.at),
      values: table.rows.flatMap((row) => row.by),
    },
    ...(table.integer.some(Boolean) ? { integrality: table.integer.map((whole) => (whole ? 1 : 0)) } : {}),
  };
}

/** A ray may cost another solve inside the engine and is sometimes not to be had. */
function attempt<T>(get: () => T | undefined): T | undefined {
  try {
    return get();
  } catch {
    return undefined;
  }
}
