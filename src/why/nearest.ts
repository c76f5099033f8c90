import { type Column, type LinearProgram, type Optimal, type Row, solve } from '../../solver/index.js';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import { underEcCap } from '../formulation/ec-cap.js';
import { type Formulated, formulate, type Limit } from '../formulation/formulate.js';
import type { Amounts } from '../can/mix-amounts.js';
import { missesOf, readOut } from '../feed/readout.js';
import { amountsOf } from '../formulation/amounts.js';
import type { FeedRequest } from '../feed/request.js';
import type { NearestMix } from '../feed/results.js';

/** Same give-back between stages as in the closest feed: ten times tighter than the certificate. */
const GIVE_BACK = 1e-7;

type Soft = (limit: Limit) => boolean;

/** Limits that may give way, in the order in which they are tried: a shortage before an excess before a rule. */
const TIERS: { soft: Soft; ec: boolean }[] = [
  { soft: ({ kind }) => kind === 'min', ec: false },
  { soft: ({ kind }) => kind === 'min' || kind === 'max', ec: false },
  { soft: ({ kind }) => ['min', 'max', 'rule', 'ec'].includes(kind), ec: true },
];

/** Shortages, and the programme's ratios of one element to another (never a form of nitrogen, never the grower's own rule). */
const RATIOS_TOO: Soft = ({ kind, from, text }) =>
  kind === 'min' || (kind === 'rule' && from !== 'you' && !/NO3|NH4|urea/.test(text) && /[*/]/.test(text));

/**
 * The mix that misses least where no mix keeps every limit: least largest relative miss, then least sum, then least cost.
 * Caps, rules and EC are kept whole if minima alone can give way; but where a ratio such as `Ca >= 2 * Mg` would then starve the whole
 * can for want of one element, that ratio gives way too. Null if even that cannot be proved.
 */
export async function nearestMix(request: FeedRequest): Promise<NearestMix | null> {
  for (const { soft, ec } of TIERS) {
    const strict = await leastMissing(request, soft, ec);
    if (!strict) continue;
    if (strict.misses.length <= FEW) return strict;
    const looser = await leastMissing(request, RATIOS_TOO, false);
    return looser && looser.misses.length <= strict.misses.length / 2 ? looser : strict;
  }
  return null;
}

/** Up to this many misses a mix is a feed with a lack; beyond, it may be near to nothing. */
const FEW = 3;

async function leastMissing(request: FeedRequest, soft: Soft, ec: boolean): Promise<NearestMix | null> {
  const run = async (at: FeedRequest): Promise<Amounts | null> => {
    const formulated = formulate(at);
    const answer = await leastMiss(formulated, soft);
    return answer && withoutDust(amountsOf(answer, formulated), request);
  };
  // where the EC cap may give way too, there is nothing to linearise towards
  const amounts = ec ? await run(request) : (await underEcCap(request, run, (found) => found)).result;
  if (!amounts) return null;
  const mix = readOut(amounts, request);
  return { ...mix, misses: missesOf(mix) };
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

async function leastMiss(formulated: Formulated, soft: Soft): Promise<Optimal | null> {
  const { program, limits } = formulated;
  const misses: Column[] = [];
  const rows: Row[] = [];
  for (const row of program.rows) {
    if (!soft(limits.get(row.id)!)) {
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
