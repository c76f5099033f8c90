import type { Optimal } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresOf } from '../dose/measure.js';
import { toolsOf } from '../dose/tools.js';
import { ironMiss, missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { withIronThatHolds } from '../blend/iron-counted.js';
import { type Action, canTable, kept, margins } from './can-limits.js';
import { isMisfilled, plannedLitres } from './batch.js';
import { type Cause, type Fault, NO_FAULT } from './cause.js';
import { type Chosen, chooseRemedy, type RescueOptions } from './choose-remedy.js';
import { type Ground, groundOf } from './ground.js';
import type { Judged } from './judge.js';
import { weigh } from './likelihood.js';
import { possibleCans } from './posterior.js';
import type { Added, Alternative, Doing, Outlook, Remedy, RemedyProof, SettledRemedy } from './remedy.js';
import { after, doesNothing, jugsOf, type Level, nothing, stepOf } from './remedy-action.js';
import { becauseOf, partWays } from './remedy-findings.js';
import { isPlan } from './told.js';
import { standingOf } from './weigh-remedy.js';

/** The remedy for an estimated can, read out. See `chooseRemedy`. */
export async function rescue(judged: Judged, wanted: FeedRequest, options: RescueOptions): Promise<Remedy> {
  const asked = withHeldIron(judged, wanted);
  const ground = groundOf(judged, asked);
  const chosen = await chooseRemedy(judged, asked, options, ground);
  const told = remedyOf(chosen, judged, options);
  const { verdict } = judged.judgement;
  const wasteful = (doingOf(told)?.pourLitres ?? 0) > WASTEFUL * judged.weighed.batch.litres;
  const parted =
    verdict !== 'within' &&
    (wasteful || told.notUnder.length > 0 || told.status === 'do not feed' || isLaborious(doingOf(told)));
  const contradicted = judged.judgement.told?.agrees === false;
  // a look at the pen costs nothing beside a mend in the dark
  const readable = told.status !== 'feed' && !!judged.judgement.told?.apart;
  const alternatives = parted || contradicted || readable ? await alternativesOf(judged, asked, options, ground) : [];
  if (contradicted && alternatives.length > 0) return { status: 'check first', alternatives, unknowing: told };
  return partWays(alternatives) ? { status: 'check first', alternatives, unknowing: told } : told;
}

/** Iron that does not hold at the pH of the can as planned mends nothing where another on the shelf does, as in `blend`. */
function withHeldIron({ weighed: { batch } }: Judged, request: FeedRequest): FeedRequest {
  const can = { amounts: batch.items.map((item) => item.planned), litres: plannedLitres(batch), cause: NO_FAULT };
  const { ph } = readOut(after(can, nothing(request), batch, request), request);
  return withIronThatHolds(request, ph.asMixed) ?? request;
}

/** What hands do, were it only the best that was found; null for nothing. */
export function doingOf(remedy: SettledRemedy): Doing | null {
  if (remedy.status === 'feed') return null;
  return remedy.status === 'do not feed' ? (remedy.best?.doing ?? null) : remedy.doing;
}

/** Steps, the last stir aside, that only pay where nobody can tell what happened. */
const LABORIOUS = 3;
const isLaborious = (doing: Doing | null): boolean =>
  doing !== null &&
  Number(doing.pourTo !== null) + Number(doing.jugs > 1) + Number(doing.waterLitres > 0) + doing.add.length >=
    LABORIOUS;

/** Pouring off more than this share of a batch is worth a look at the pen or the mark first. */
const WASTEFUL = 0.2;
/** Explanations less likely than this are not asked for their own remedy. */
const PLAUSIBLE = 0.08;
const MOST_ALTERNATIVES = 4;
const CANS_EACH = 200;
/** What is wrong is the reading or what was expected of it: the can is as planned. */
const AS_PLANNED: ReadonlySet<Fault['kind']> = new Set<Fault['kind']>(['none', 'scale', 'temperature', 'pen', 'label']);

/** What each plausible explanation, taken as certain, would ask for; what the grower said comes first, however unlikely by the readings. */
async function alternativesOf(
  judged: Judged,
  asked: FeedRequest,
  options: RescueOptions,
  ground: Ground,
): Promise<Alternative[]> {
  const { causes, told } = judged.judgement;
  const said = saidCauses(judged);
  // what was said and fits leaves nothing else to look for
  const open = told === null || told.agrees === false;
  const plausible = causes.filter(
    ({ cause, probability }) => open && probability >= PLAUSIBLE && !said.some((way) => way.cause === cause),
  );
  const all = [...said, ...plausible].slice(0, MOST_ALTERNATIVES);
  if (all.length < 2) return [];
  return Promise.all(
    all.map(async (cause: Cause): Promise<Alternative> => {
      // a mistaken reading leaves the can as planned: nothing to mend
      if (AS_PLANNED.has(cause.fault.kind) && !isMisfilled(judged.weighed.batch))
        return { cause, asks: { status: 'feed' } };
      const own = takenFor(cause, judged);
      const told = remedyOf(await chooseRemedy(own, asked, options, ground), own, options);
      return { cause, asks: 'doing' in told ? { status: told.status, doing: told.doing } : { status: told.status } };
    }),
  );
}

/** The can if it was this and nothing else. What was said against the readings is taken without them. */
function takenFor({ cause, fault }: Cause, judged: Judged): Judged {
  const { weighed, judgement } = judged;
  const { batch, pen, told } = weighed;
  const against = fault.kind === 'said' && fault.besides === null && judgement.told?.agrees === false;
  const by = against ? weigh(batch, [], pen, told) : weighed;
  const cans = possibleCans(by, CANS_EACH, (point) => point.hypothesis.cause === cause);
  return {
    ...judged,
    cans,
    ...(fault.kind === 'said' ? { judgement: { ...judgement, verdict: 'off' } as const } : {}),
  };
}

/** Each way that was told as a cause, and the plan where it stands beside them. */
function saidCauses({ judgement: { told, asPlanned } }: Judged): Cause[] {
  if (told === null) return [];
  const settled = { value: { likely: 1, low: 1, high: 1 }, explains: told.agrees !== false, asWell: false };
  const ways = told.ways.map((way, k): Cause => {
    const { probability } = way;
    return isPlan(way)
      ? { cause: NO_FAULT, fault: { kind: 'none' }, probability, ...settled }
      : { cause: `said:${k}`, fault: { kind: 'said', way: k, besides: null }, probability, ...settled };
  });
  const plan = asPlanned >= PLAUSIBLE && !told.ways.some(isPlan);
  return [
    ...ways,
    ...(plan ? [{ cause: NO_FAULT, fault: { kind: 'none' as const }, probability: asPlanned, ...settled }] : []),
  ];
}

/** Kept as well as right batches do in fewer of the cans than this, a can is not to be fed. */
const LEAST_SURE = 0.3;

/** Whoever pours off more than half of it, and may still lose the rest, mixes anew. */
const HALF = 0.5;
const WORTH_IT = 0.8;

function remedyOf(best: Chosen, judged: Judged, { kit }: RescueOptions): SettledRemedy {
  const { action, limits, allowances, sure, asRight, asIs, optimum, request, aside, level } = best;
  const { batch } = judged.weighed;
  const standing = standingOf(judged);
  const wasted = action.keep < HALF && sure < WORTH_IT;
  const lost = (asRight < LEAST_SURE || wasted) && standing !== 'as planned';
  const status = lost ? 'do not feed' : doesNothing(action) ? 'feed' : standing === 'doubtful' ? 'improve' : 'rescue';
  const mix = readOut(best.final, request);
  const causes = [...new Set(judged.cans.map((c) => c.cause))];
  const [safe, harmed] = [[] as string[], [] as string[]];
  for (const cause of causes) {
    const own = judged.cans.filter((c) => c.cause === cause);
    if (own.length < WORTH_TELLING * judged.cans.length) continue;
    const saved = margins(limits, action, canTable(limits, own)).filter((of) => kept(of, allowances)).length;
    (saved >= own.length / 2 ? safe : harmed).push(cause);
  }
  const doing = doesNothing(action) ? null : doingFor(action, level, request, kit);
  const finalLitres = doing?.finalLitres ?? level.litres;
  const under = { safeUnder: safe, notUnder: harmed, aside: [...aside] };
  const told = judged.judgement.verdict === 'within' ? [] : judged.judgement.causes;
  const outlook: Outlook = {
    finalLitres,
    sure,
    asRight,
    asIs,
    optimum: optimum === null ? null : optimum.sure,
    ...under,
    mix,
    misses: [...missesOf(mix), ...ironMiss(mix)],
    because: becauseOf(status, doing, under, batch, told),
  };
  if (status === 'feed') return { status, ...outlook };
  const found = doing && { doing, proof: optimum === null ? null : proofOf(optimum.verdict) };
  return status === 'do not feed' ? { status, ...outlook, best: found } : { status, ...outlook, ...found! };
}

function doingFor(action: Action, level: Level, request: FeedRequest, kit: Kit): Doing {
  const { litres, mark } = level;
  const waterLitres = action.water.reduce((a, b) => a + b, 0);
  return {
    keepShare: action.keep,
    pourLitres: (1 - action.keep) * litres,
    pourTo: action.pourTo ?? null,
    jugs: jugsOf(action, level),
    fillTo: action.fillTo ?? null,
    mark,
    waterLitres,
    waters: action.water.flatMap((x, i) => {
      const { id, name } = request.waters[i]!;
      return x > 0 ? [{ id, name, litres: x }] : [];
    }),
    nameWaters: request.waters.length > 1,
    add: action.add.flatMap((amount, i) => {
      const product = request.shelf[i]!;
      const { id, name, composition } = product;
      return amount > 0 ? [{ id, name, unit: composition.per, amount, by: measureOf(product, amount, kit) }] : [];
    }),
    finalLitres: action.keep * litres + waterLitres,
  };
}

/** The measure of the kit that delivers it; else a few steps of its scale or syringe, or an amount that it takes several times to reach. */
function measureOf(product: ClosedProduct, amount: number, kit: Kit): Added['by'] {
  const [measure] = measuresOf(product, toolsOf(kit), amount);
  if (measure && Math.abs(measure.amount / amount - 1) < 1e-6) return { kind: 'measure', words: measure.words };
  const known = stepOf(product, kit) !== null;
  return { kind: 'plain', borrow: known ? null : product.composition.per === 'g' ? 'scale' : 'syringe' };
}

/** Causes with less of the cans than this are not told of. */
const WORTH_TELLING = 0.05;

const proofOf = ({ engine, objective, bound, gap, violation }: Optimal): RemedyProof => ({
  engine,
  found: objective,
  bound,
  gap,
  violation,
});
