import { type LinearProgram, solve, type Verdict } from '../../solver/index.js';
import { amountsOf, type Capped, programOn, standingOf, withSecondLook } from '../formulation/index.js';
import { verticesOf, SAME } from './frontier-vertices.js';
import { type Vertex, vertexOf, frontierProgram, missesFromAims, WORST } from './frontier-program.js';
import { costing } from '../feed/price.js';
import { Proof } from '../feed/proof.js';
import { readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { FrontierNone, FrontierPoint, FrontierResult } from '../feed/results.js';

/** How far an end may be loosened when rounding leaves no mix exactly there. */
const LOOSEN = [0, 1e-10, 1e-9, 1e-8, 1e-7];

/**
 * Least cost as a function of the largest miss allowed: convex and piecewise linear, so its vertices say all of it. They are
 * found exactly: the ends first, then between two neighbours the mix that is best at their own exchange rate; where none
 * beats them the straight line between them is proved (Aneja & Nair 1979, Management Science 25:73). From closest to cheapest.
 */
export async function frontier(request: FeedRequest): Promise<FrontierResult> {
  const capped = await onOneLinearisation(request);
  const formulated = programOn(request, capped.linearisation);
  const program = frontierProgram(formulated);
  const { counts, assumed } = costing(request.shelf);
  const unit =
    counts === 'money' ? (request.header.currency === '' ? 'per litre' : `${request.header.currency}/L`) : 'g/L';
  const base = { feed: request.header, costUnit: unit, assumed };
  const curve = { question: 'curve' as const, unit, ec: standingOf(capped) };
  const none = (stopped: readonly Verdict[]): FrontierNone => {
    const proof = Proof.of({ ...curve, vertices: stopped, ends: null });
    return { ...base, status: proof.verdict === 'infeasible' ? 'cannot' : 'open', proof };
  };
  const ends = await endsOf(program, request);
  if ('verdict' in ends) return none([ends]);
  const vertices = await verticesOf(program, request, ends.closest, ends.cheapest);
  if (vertices === null) return none([]);
  const points = vertices.map((vertex, i): FrontierPoint => {
    const next = vertices[i + 1];
    const mix = readOut(amountsOf(vertex.answer, formulated), request);
    return {
      miss: vertex.miss,
      cost: vertex.cost,
      misses: decisive(request, vertex),
      items: mix.items,
      waters: mix.waters,
      costOfCloser: next ? (vertex.cost - next.cost) / (next.miss - vertex.miss) / 100 : null,
    };
  });
  const proof = Proof.of({
    ...curve,
    vertices: vertices.map(({ answer }) => answer),
    ends: { closest: vertices[0]!.miss, cheapest: vertices.at(-1)!.cost },
  });
  return { ...base, status: 'made', points, proof };
}

/**
 * One EC linearisation for the whole curve: that of the closest mix where the cap holds that one back (it is the stronger
 * feed as a rule), else that of the cheapest. Planes lie above the model, so every mix of the curve keeps the cap.
 */
async function onOneLinearisation(request: FeedRequest): Promise<Capped<unknown>> {
  const settle = (goal: (program: LinearProgram) => LinearProgram) =>
    withSecondLook(
      request,
      async (formulated) => ({ formulated, verdict: await solve(goal(frontierProgram(formulated))) }),
      ({ formulated, verdict }) => (verdict.verdict === 'optimal' ? amountsOf(verdict, formulated) : null),
      ({ verdict }) => (verdict.verdict === 'infeasible' ? 'may be' : 'no'),
    );
  const closest = await settle((program) => ({ ...program, columns: missOnly(program.columns) }));
  return closest.presses ? closest : settle((program) => program);
}

function missOnly(columns: LinearProgram['columns']): LinearProgram['columns'] {
  return columns.map((c) => ({ ...c, cost: c.id === WORST ? 1 : 0 }));
}

type Stopped = Exclude<Awaited<ReturnType<typeof solve>>, { verdict: 'optimal' }>;

/** The cheapest of the closest mixes, and the closest of the cheapest. */
async function endsOf(
  program: LinearProgram,
  request: FeedRequest,
): Promise<{ closest: Vertex; cheapest: Vertex } | Stopped> {
  const near = await solve({ ...program, columns: missOnly(program.columns) });
  if (near.verdict !== 'optimal') return near;
  const cheap = await solve(program);
  if (cheap.verdict !== 'optimal') return cheap;
  const closest = await firstOf((by) => ({
    ...program,
    columns: program.columns.map((c) => (c.id === WORST ? { ...c, upper: near.objective + by } : c)),
  }));
  const cost = Object.fromEntries(program.columns.filter((c) => c.cost !== 0).map((c) => [c.id, c.cost]));
  const cheapest = await firstOf((by) => ({
    columns: missOnly(program.columns),
    rows: [...program.rows, { id: 'cost', upper: cheap.objective * (1 + by), terms: cost }],
  }));
  return {
    closest: vertexOf(program, request, closest ?? near),
    cheapest: vertexOf(program, request, cheapest ?? cheap),
  };
}

async function firstOf(program: (by: number) => LinearProgram) {
  for (const by of LOOSEN) {
    const answer = await solve(program(by));
    if (answer.verdict === 'optimal') return answer;
  }
  return null;
}

/** The nutrients that decide the largest miss, with the side they miss on. */
function decisive(request: FeedRequest, vertex: Vertex): FrontierPoint['misses'] {
  return missesFromAims(request, vertex.answer.x)
    .filter(({ miss }) => miss > 0 && miss >= vertex.miss * (1 - SAME) - SAME)
    .map(({ nutrient, high }) => ({ element: nutrient, side: high ? 'above' : 'below' }));
}
