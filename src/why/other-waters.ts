import { type LinearProgram, solve } from '../../solver/index.js';
import type { Water } from '../label/product.js';
import { type Formulated, programOn } from '../formulation/index.js';
import type { Relaxation } from '../feed/why-not.js';
import { waterColumn } from '../feed/terms.js';

type OtherWater = Extract<Relaxation, { kind: 'water' }>;

/** How many other waters are worth naming. */
const NAMED = 2;

/** Blending in another water: for each that is known, the least share with which a mix exists; the two with the least. */
export async function otherWaters(formulated: Formulated): Promise<OtherWater[]> {
  const { request } = formulated;
  const ways: OtherWater[] = [];
  for (const water of request.otherWaters ?? []) {
    if (request.waters.some((own) => own.id === water.id)) continue;
    const way = await leastShare(formulated, water);
    if (way) ways.push(way);
  }
  return ways.sort((a, b) => a.to - b.to).slice(0, NAMED);
}

async function leastShare({ request, linearisation }: Formulated, water: Water): Promise<OtherWater | null> {
  const { program } = programOn({ ...request, waters: [...request.waters, water] }, linearisation);
  const id = waterColumn(request.waters.length);
  const least = await solve(sharing(program, id, 0, 1));
  if (least.verdict !== 'optimal') return null;
  const share = least.x[id]!;
  // whole percents where those work too: a jug has no finer marks
  const whole = Math.ceil(100 * share - 1e-9) / 100;
  const works = (await solve(sharing(program, id, whole, whole))).verdict === 'optimal';
  return { kind: 'water', water: water.name, to: share, percent: works ? Math.round(100 * whole) : 100 * share };
}

function sharing({ columns, rows }: LinearProgram, water: string, lower: number, upper: number): LinearProgram {
  return {
    rows,
    columns: columns.map((c) => (c.id === water ? { id: c.id, lower, upper, cost: 1 } : { ...c, cost: 0 })),
  };
}
