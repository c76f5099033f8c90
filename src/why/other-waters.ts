import { type LinearProgram, solve } from '../../solver/index.js';
import type { Water } from '../label/product.js';
import { formulate } from '../formulation/formulate.js';
import type { FeedRequest } from '../feed/request.js';
import type { Relaxation } from '../feed/results.js';
import { waterColumn } from '../feed/terms.js';
import { formatNumber } from '../units/index.js';

/** How many other waters are worth naming. */
const NAMED = 2;

/** Blending in another water: for each that is known, the least share with which a mix exists; the two with the least. */
export async function otherWaters(request: FeedRequest): Promise<Relaxation[]> {
  const ways: Relaxation[] = [];
  for (const water of request.otherWaters ?? []) {
    if (request.waters.some((own) => own.id === water.id)) continue;
    const way = await leastShare(request, water);
    if (way) ways.push(way);
  }
  return ways.sort((a, b) => a.to - b.to).slice(0, NAMED);
}

async function leastShare(request: FeedRequest, water: Water): Promise<Relaxation | null> {
  const { program } = formulate({ ...request, waters: [...request.waters, water] });
  const id = waterColumn(request.waters.length);
  const least = await solve(sharing(program, id, 0, 1));
  if (least.verdict !== 'optimal') return null;
  const share = least.x[id]!;
  // whole percents where those work too: a jug has no finer marks
  const whole = Math.ceil(100 * share - 1e-9) / 100;
  const works = (await solve(sharing(program, id, whole, whole))).verdict === 'optimal';
  const shown = works ? `${Math.round(100 * whole)}` : formatNumber(100 * share);
  return { kind: 'water', limit: 'water', change: `${shown} % ${water.name} in the can`, from: 0, to: share };
}

function sharing({ columns, rows }: LinearProgram, water: string, lower: number, upper: number): LinearProgram {
  return {
    rows,
    columns: columns.map((c) => (c.id === water ? { id: c.id, lower, upper, cost: 1 } : { ...c, cost: 0 })),
  };
}
