import type { Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Water } from '../label/product.js';
import { type FeedRequest, withoutEcCap } from '../feed/request.js';
import type { Decides } from '../feed/results.js';
import { waterContent } from '../feed/terms.js';
import type { FormulateOptions } from '../formulation/index.js';
import { type AimsTold, nearestToAims } from './aims.js';
import { decidesOn, type Part, partsOf, sourcesOf } from './decides.js';

/** A miss that is smaller by less is the same, as the certificate allows. */
const SAME = 1e-6;
/** Limits that are lifted one upon another where none by itself helps. */
const MOST_TOGETHER = 6;

/**
 * The one limit without which an element comes nearest to its aim: each limit that the proof leans on is left out by itself and the program
 * solved anew. What the proof does not lean on could be left out without any effect, so nothing else has to be tried; pure water is, for it
 * is no row. Of those alike it is the one that the proof leans on most: the least widening of it tells.
 * @param short true where there is too little of it
 * @param near how near it comes with every limit kept
 * @param options which limits are kept
 * @returns what decides, null where nothing does; with every verdict it rests on
 */
export async function whatLifts(
  request: FeedRequest,
  nutrient: Nutrient,
  short: boolean,
  near: AimsTold,
  options: FormulateOptions,
): Promise<{ decides: Decides | null; verdicts: Verdict[] }> {
  const held = request.waters.some((water) => waterContent(water, nutrient) > 0);
  if (short && !held && sourcesOf(request.shelf, nutrient).length === 0)
    return { decides: { kind: 'nothing brings it' }, verdicts: [] };
  const verdicts: Verdict[] = [];
  const without = async (parts: readonly Part[]): Promise<AimsTold | null> => {
    const told = await nearestToAims(lifting(request, parts), [nutrient], {
      ...options,
      lifted: parts.flatMap((part) => (isWater(part) ? [] : [part.row.id])),
    });
    if (told) verdicts.push(told.verdict);
    return told;
  };
  const comesNearer = (told: AimsTold | null): boolean => told?.miss != null && told.miss < near.miss! - SAME;
  let best: { part: Part; miss: number } | null = null;
  for (const part of partsOf(near.formulated, near.verdict, near.formulated.limited.filter(isWater))) {
    if (isWater(part) && !request.waters.some(holdsAnything)) continue;
    const told = await without([part]);
    if (comesNearer(told) && (best === null || told!.miss! < best.miss - SAME)) best = { part, miss: told!.miss! };
  }
  if (best !== null) return { decides: decidesOn(request, nutrient, short, [best.part]), verdicts };
  const lifted: Part[] = [];
  for (let told: AimsTold | null = near; told !== null && lifted.length < MOST_TOGETHER; ) {
    const next = partsOf(told.formulated, told.verdict).find(
      (part) => !isWater(part) && !lifted.some(({ row }) => row.id === part.row.id),
    );
    if (next === undefined) break;
    lifted.push(next);
    told = await without(lifted);
    if (comesNearer(told)) return { decides: { kind: 'together', limits: lifted.map(({ limit }) => limit) }, verdicts };
  }
  return { decides: decidesOn(request, nutrient, short, lifted), verdicts };
}

const isWater = ({ limit }: Pick<Part, 'limit'>): boolean => limit.kind === 'water';

const holdsAnything = ({ mgPerLitre }: Water): boolean => Object.values(mgPerLitre).some((held) => held > 0);

/** The request as it is without limits that are more than a row of its own: the EC cap, which rounds of programs hold, and what waters bring. */
function lifting(request: FeedRequest, parts: readonly Part[]): FeedRequest {
  const free = parts.some(({ limit }) => limit.kind === 'ec') ? withoutEcCap(request) : request;
  return parts.some(isWater) ? { ...free, waters: free.waters.map((water) => ({ ...water, mgPerLitre: {} })) } : free;
}
