import { type Column, type LinearProgram, type Optimal, type Row, solve } from '../../solver/index.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import { underEcCap } from './ec-cap.js';
import { type Formulated, formulate, type Limit } from './formulate.js';
import type { Amounts } from './mix-amounts.js';
import { missesOf, readOut } from './readout.js';
import { amountsOf } from './amounts.js';
import type { FeedRequest } from './request.js';
import type { BlendResult } from './results.js';

/** Same give-back between stages as in the closest feed: ten times tighter than the certificate. */
const GIVE_BACK = 1e-7;

/** Limits that may give way, in the order in which they are tried: a shortage before an excess before a rule. */
const TIERS: ReadonlySet<Limit['kind']>[] = [
  new Set(['min']),
  new Set(['min', 'max']),
  new Set(['min', 'max', 'rule', 'ec']),
];

/**
 * The mix that misses least where no mix keeps every limit: least largest relative miss, then least sum, then least cost.
 * Caps, rules and EC are kept whole if minima alone can give way. Null if even that cannot be proved.
 */
export async function nearestMix(request: FeedRequest): Promise<NonNullable<BlendResult['nearest']> | null> {
  for (const soft of TIERS) {
    const run = async (at: FeedRequest): Promise<Amounts | null> => {
      const formulated = formulate(at);
      const answer = await leastMiss(formulated, soft);
      return answer && withoutDust(amountsOf(answer, formulated), request);
    };
    // where the EC cap may give way too, there is nothing to linearise towards
    const amounts = soft.has('ec') ? await run(request) : (await underEcCap(request, run, (found) => found)).result;
    if (!amounts) continue;
    const mix = readOut(amounts, request);
    return { ...mix, misses: missesOf(mix) };
  }
  return null;
}

/** Less of a product than changes any element by this part of what is wanted of it is the engine's rounding. */
const DUST = 1e-6;

/** The same amounts without those that no plant and no balance could tell from nothing. */
function withoutDust(amounts: Amounts, request: FeedRequest): Amounts {
  const products = amounts.products.map((x, i) => {
    const { content } = request.shelf[i]!.composition;
    const felt = NUTRIENTS.some((nutrient) => {
      const band = request.programme.bands[nutrient];
      const wanted = (band && (band.max ?? band.aim ?? band.min)) ?? 1;
      return x * content[nutrient].high > DUST * wanted;
    });
    return felt ? x : 0;
  });
  return { ...amounts, products };
}

async function leastMiss(formulated: Formulated, soft: ReadonlySet<Limit['kind']>): Promise<Optimal | null> {
  const { program, limits } = formulated;
  const misses: Column[] = [];
  const rows: Row[] = [];
  for (const row of program.rows) {
    if (!soft.has(limits.get(row.id)!.kind)) {
      rows.push(row);
      continue;
    }
    const id = `miss:${row.id}`;
    const size = sizeOf(row);
    misses.push({ id, cost: 0 });
    rows.push({ ...row, terms: { ...row.terms, [id]: row.upper === undefined ? size : -size } });
    rows.push({ id: `worst:${row.id}`, lower: 0, terms: { worst: 1, [id]: -1 } });
  }
  const free = program.columns.map((c) => ({ ...c, cost: 0 }));
  const first = await optimal({ columns: [...free, ...misses, { id: 'worst', cost: 1 }], rows });
  if (!first) return null;
  const worst: Column = { id: 'worst', cost: 0, upper: first.objective + GIVE_BACK };
  const second = await optimal({ columns: [...free, ...misses.map((c) => ({ ...c, cost: 1 })), worst], rows });
  if (!second) return first;
  const sum: Row = {
    id: 'sum',
    upper: second.objective + GIVE_BACK * Math.max(1, second.objective),
    terms: Object.fromEntries(misses.map((c) => [c.id, 1])),
  };
  return (await optimal({ columns: [...program.columns, ...misses, worst], rows: [...rows, sum] })) ?? second;
}

async function optimal(program: LinearProgram): Promise<Optimal | null> {
  const verdict = await solve(program);
  return verdict.verdict === 'optimal' ? verdict : null;
}

/** A miss is counted against the row's bound, or against its largest coefficient where the bound is zero. */
function sizeOf(row: Row): number {
  const bound = Math.max(Math.abs(row.lower ?? 0), Math.abs(row.upper ?? 0));
  return bound > 0 ? bound : Math.max(1e-9, ...Object.values(row.terms).map(Math.abs));
}
