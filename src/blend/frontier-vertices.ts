import type { LinearProgram } from '../../solver/index.js';
import { type Vertex, weighted } from './frontier-program.js';
import type { FeedRequest } from '../feed/request.js';

/** Two vertices nearer than this, in miss and as a share of cost, are one: the certificate's own 1e-6. */
export const SAME = 1e-6;
/** A mix beats the line between two vertices when it lies below it by this part; engines here are good to about 1e-12. */
const BETTER = 1e-9;
/** Vertices of such a curve are some tens; this many would be a fault of ours. */
const MOST = 500;

/** Every vertex between two, ends included; null where one could not be proved. */
export async function verticesOf(
  program: LinearProgram,
  request: FeedRequest,
  first: Vertex,
  last: Vertex,
): Promise<Vertex[] | null> {
  // a curve of no width or no height is one point
  if (first.cost - last.cost <= SAME * first.cost) return [first];
  if (last.miss - first.miss <= SAME) return [last];
  const done: Vertex[] = [first];
  const ahead: Vertex[] = [last];
  for (let step = 0; ahead.length > 0; step += 1) {
    if (step > MOST) return null;
    const a = done.at(-1)!;
    const b = ahead.at(-1)!;
    const rate = (a.cost - b.cost) / (b.miss - a.miss);
    const found = await weighted(program, request, 1, rate);
    if (!found) return null;
    const line = a.cost + rate * a.miss;
    const better = line - (found.cost + rate * found.miss) > BETTER * Math.max(Math.abs(line), Math.abs(a.cost));
    if (better && !same(found, a) && !same(found, b) && found.miss > a.miss && found.miss < b.miss) ahead.push(found);
    else done.push(ahead.pop()!);
  }
  return straightened(done);
}

function same(a: Vertex, b: Vertex): boolean {
  const cost = Math.max(Math.abs(a.cost), Math.abs(b.cost));
  return Math.abs(a.miss - b.miss) <= SAME && Math.abs(a.cost - b.cost) <= SAME * cost;
}

/** Without vertices that lie on the line between their neighbours. */
function straightened(vertices: readonly Vertex[]): Vertex[] {
  const kept: Vertex[] = [];
  for (const vertex of vertices) {
    while (kept.length > 1 && onLine(kept.at(-2)!, kept.at(-1)!, vertex)) kept.pop();
    kept.push(vertex);
  }
  return kept;
}

function onLine(a: Vertex, b: Vertex, c: Vertex): boolean {
  const there = a.cost + ((c.cost - a.cost) * (b.miss - a.miss)) / (c.miss - a.miss);
  return there - b.cost <= SAME * Math.max(Math.abs(a.cost), Math.abs(b.cost));
}
