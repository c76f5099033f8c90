import { startingProgram } from '../formulation/starting.js';
import { type Column, type LinearProgram, type Optimal, type Row, solve } from '../../solver/index.js';
import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import { amountsOf, chosen, type Formulated, restrictTo, underEcCap, withAtMost } from '../formulation/index.js';
import { MAIN_ELEMENTS } from '../feed/near.js';
import type { Limit, RuleLimit } from '../feed/limits.js';
import type { Amounts } from '../can/mix-amounts.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { NearestMix } from '../feed/results.js';
import { sizeOf } from './ways-out.js';

/** Same give-back between stages as in the closest feed: ten times tighter than the certificate. */
const GIVE_BACK = 1e-7;

type Soft = (limit: Limit) => boolean;

const isShortage: Soft = (limit) => limit.kind === 'nutrient' && limit.end === 'least';

/** Limits that may give way, in the order in which they are tried: a shortage before an excess before a rule. */
const TIERS: { soft: Soft; ec: boolean }[] = [
  { soft: isShortage, ec: false },
  { soft: ({ kind }) => kind === 'nutrient', ec: false },
  { soft: ({ kind }) => kind === 'nutrient' || kind === 'rule' || kind === 'ec', ec: true },
];

/** Shortages, and the programme's ratios of one element to another (never a form of nitrogen, never the grower's own rule). */
const RATIOS_TOO: Soft = (limit) =>
  isShortage(limit) || (limit.kind === 'rule' && limit.owner === 'programme' && limit.bound === 0 && ofElements(limit));

function ofElements({ rule }: RuleLimit): boolean {
  const nutrients = Object.keys(rule.terms) as Nutrient[];
  return nutrients.length > 1 && nutrients.every((n) => !(NITROGEN_FORMS as readonly Nutrient[]).includes(n));
}

/**
 * The mix that misses least where no mix keeps every limit: least largest relative miss, then least sum, then least cost.
 * Caps, rules and EC are kept whole if minima alone can give way; but where a ratio such as `Ca >= 2 * Mg` would then starve the whole
 * can for want of one element, that ratio gives way too. With at most so many products where the request asks for that. Null if even
 * that cannot be proved.
 */
export async function nearestMix(request: FeedRequest): Promise<NearestMix | null> {
  for (const { soft, ec } of TIERS) {
    const strict = await leastMissing(request, soft, ec);
    if (!strict) continue;
    if (strict.misses.length <= FEW) return strict;
    const looser = await leastMissing(request, RATIOS_TOO, false);
    return looser && (looser.misses.length <= strict.misses.length / 2 || griefOf(looser) <= SPARED * griefOf(strict))
      ? looser
      : strict;
  }
  return null;
}

/** A ratio gives way where that spares this much of all that is missed. */
const SPARED = 0.7;

/** All misses together, each as a share of its bound. */
const griefOf = ({ misses }: NearestMix): number =>
  misses.reduce(
    (sum, { limit, value, bound }) => sum + weightOf(limit) * (bound === 0 ? 1 : Math.abs(value / bound - 1)),
    0,
  );

/** Up to this many misses a mix is a feed with a lack; beyond, it may be near to nothing. */
const FEW = 3;

async function leastMissing(request: FeedRequest, soft: Soft, ec: boolean): Promise<NearestMix | null> {
  const run = async (whole: Formulated): Promise<Amounts | null> => {
    const formulated = request.atMost === undefined ? whole : await fewProducts(whole, soft, request.atMost);
    const answer = formulated && (await leastMiss(formulated, soft));
    return answer && amountsOf(answer, formulated!);
  };
  // where the EC cap may give way too, there is nothing to linearise towards: the first linearisation does
  const amounts = ec
    ? await run(startingProgram(request, null))
    : (await underEcCap(request, run, (found) => found)).result;
  if (!amounts) return null;
  const mix = readOut(amounts, request);
  return { ...mix, misses: missesOf(mix) };
}

/** The choice of products that comes nearest, the rest held at zero; on a search's word, since nearest is no claim of proof. */
async function fewProducts(formulated: Formulated, soft: Soft, most: number): Promise<Formulated | null> {
  const { misses, rows } = softened(formulated, soft);
  const free = formulated.program.columns.map((c) => ({ ...c, cost: 0 }));
  const program = { columns: [...free, ...misses, { id: 'worst', cost: 1 }], rows };
  const integer = withAtMost({ ...formulated, program }, most, formulated.program);
  const answer = await solve(integer.program, { mostCases: 0 });
  return answer.verdict === 'optimal' ? restrictTo(formulated, chosen(integer, answer)) : null;
}

/** What plants take up by the tenth of a gram is missed more than a trace element. */
const TRACE_WEIGHS = 0.25;
const NITROGEN: readonly Nutrient[] = ['N', ...NITROGEN_FORMS];

const weightOf = (limit: Limit): number =>
  isShortage(limit) && limit.kind === 'nutrient' && ![...MAIN_ELEMENTS, ...NITROGEN].includes(limit.nutrient)
    ? TRACE_WEIGHS
    : 1;

/** The rows with a column for the miss of each soft one, counted in parts of the limit, and `worst` above all of them. */
function softened({ limited, request }: Formulated, soft: Soft): { misses: Column[]; rows: Row[] } {
  const misses: Column[] = [];
  const rows: Row[] = [];
  for (const { limit, row } of limited) {
    if (!soft(limit)) {
      rows.push(row);
      continue;
    }
    const id = `miss:${row.id}`;
    const size = sizeOf(limit, row.lower ?? row.upper ?? 0, request) / weightOf(limit);
    misses.push({ id, cost: 0 });
    rows.push({ ...row, terms: { ...row.terms, [id]: row.upper === undefined ? size : -size } });
    rows.push({ id: `worst:${row.id}`, lower: 0, terms: { worst: 1, [id]: -1 } });
  }
  return { misses, rows };
}

async function leastMiss(formulated: Formulated, soft: Soft): Promise<Optimal | null> {
  const { program } = formulated;
  const { misses, rows } = softened(formulated, soft);
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
