import type { Optimal } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresOf } from '../dose/measure.js';
import { toolsOf } from '../dose/tools.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { type Action, canTable, kept, margins } from './can-limits.js';
import { isMisfilled } from './batch.js';
import type { Cause, Fault } from './cause.js';
import { type Chosen, chooseRemedy, type RescueOptions } from './choose-remedy.js';
import { type Ground, groundOf } from './ground.js';
import type { Judged } from './judge.js';
import { possibleCans } from './posterior.js';
import type { Added, Alternative, Doing, Outlook, Remedy, RemedyProof, SettledRemedy } from './remedy.js';
import { stepOf } from './remedy-action.js';
import { becauseOf, partWays } from './remedy-findings.js';
import { standingOf } from './weigh-remedy.js';

/** The remedy for an estimated can, read out. See `chooseRemedy`. */
export async function rescue(judged: Judged, asked: FeedRequest, options: RescueOptions): Promise<Remedy> {
  const ground = groundOf(judged, asked);
  const chosen = await chooseRemedy(judged, asked, options, ground);
  const told = remedyOf(chosen, judged, options);
  const { verdict } = judged.judgement;
  const wasteful = (doingOf(told)?.pourLitres ?? 0) > WASTEFUL * judged.weighed.batch.litres;
  const parted = verdict !== 'within' && (wasteful || told.notUnder.length > 0 || told.status === 'do not feed');
  const alternatives = parted ? await alternativesOf(judged, asked, options, ground) : [];
  return partWays(alternatives) ? { status: 'check first', alternatives, unknowing: told } : told;
}

/** What hands do, were it only the best that was found; null for nothing. */
export function doingOf(remedy: SettledRemedy): Doing | null {
  if (remedy.status === 'feed') return null;
  return remedy.status === 'do not feed' ? (remedy.best?.doing ?? null) : remedy.doing;
}

/** Pouring off more than this share of a batch is worth a look at the pen or the mark first. */
const WASTEFUL = 0.2;
/** Explanations less likely than this are not asked for their own remedy. */
const PLAUSIBLE = 0.08;
const MOST_ALTERNATIVES = 4;
const CANS_EACH = 200;
/** What is wrong is the reading or what was expected of it: the can is as planned. */
const AS_PLANNED: ReadonlySet<Fault['kind']> = new Set<Fault['kind']>(['scale', 'temperature', 'pen', 'label']);

/** What each plausible explanation, taken as certain, would ask for. */
async function alternativesOf(
  judged: Judged,
  asked: FeedRequest,
  options: RescueOptions,
  ground: Ground,
): Promise<Alternative[]> {
  const plausible = judged.judgement.causes
    .filter((cause) => cause.probability >= PLAUSIBLE)
    .slice(0, MOST_ALTERNATIVES);
  if (plausible.length < 2) return [];
  return Promise.all(
    plausible.map(async (cause: Cause): Promise<Alternative> => {
      // a mistaken reading leaves the can as planned: nothing to mend
      if (AS_PLANNED.has(cause.fault.kind) && !isMisfilled(judged.weighed.batch))
        return { cause, asks: { status: 'feed' } };
      const cans = possibleCans(judged.weighed, CANS_EACH, (point) => point.hypothesis.cause === cause.cause);
      const own = { ...judged, cans };
      const told = remedyOf(await chooseRemedy(own, asked, options, ground), own, options);
      return { cause, asks: 'doing' in told ? { status: told.status, doing: told.doing } : { status: told.status } };
    }),
  );
}

/** Kept as well as right batches do in fewer of the cans than this, a can is not to be fed. */
const LEAST_SURE = 0.3;

function remedyOf(best: Chosen, judged: Judged, { kit, capacityLitres }: RescueOptions): SettledRemedy {
  const { action, can, limits, allowances, sure, asRight, asIs, verdict, request, aside } = best;
  const { batch } = judged.weighed;
  const standing = standingOf(judged);
  const lost = asRight < LEAST_SURE && standing !== 'as planned';
  const status = lost ? 'do not feed' : verdict === null ? 'feed' : standing === 'doubtful' ? 'improve' : 'rescue';
  // no can holds more than goes in, whatever the reading says
  const litres = Math.min(can.litres, capacityLitres);
  const mix = readOut(best.final, request);
  const causes = [...new Set(judged.cans.map((c) => c.cause))];
  const [safe, harmed] = [[] as string[], [] as string[]];
  for (const cause of causes) {
    const own = judged.cans.filter((c) => c.cause === cause);
    if (own.length < WORTH_TELLING * judged.cans.length) continue;
    const saved = margins(limits, action, canTable(limits, own)).filter((of) => kept(of, allowances)).length;
    (saved >= own.length / 2 ? safe : harmed).push(cause);
  }
  const finalLitres = action.keep * litres + action.water.reduce((a, b) => a + b, 0);
  const doing = verdict && { ...doingFor(action, litres, request, kit), finalLitres };
  const under = { safeUnder: safe, notUnder: harmed, aside: [...aside] };
  const told = judged.judgement.verdict === 'within' ? [] : judged.judgement.causes;
  const outlook: Outlook = {
    finalLitres,
    sure,
    asRight,
    asIs,
    ...under,
    mix,
    misses: missesOf(mix),
    because: becauseOf(status, doing, under, batch, told),
  };
  if (status === 'feed') return { status, ...outlook };
  const found = doing && verdict && { doing, proof: proofOf(verdict) };
  return status === 'do not feed' ? { status, ...outlook, best: found } : { status, ...outlook, ...found! };
}

function doingFor(action: Action, litres: number, request: FeedRequest, kit: Kit): Omit<Doing, 'finalLitres'> {
  return {
    keepShare: action.keep,
    pourLitres: (1 - action.keep) * litres,
    waterLitres: action.water.reduce((a, b) => a + b, 0),
    waters: action.water.flatMap((litres, i) => {
      const { id, name } = request.waters[i]!;
      return litres > 0 ? [{ id, name, litres }] : [];
    }),
    nameWaters: request.waters.length > 1,
    add: action.add.flatMap((amount, i) => {
      const product = request.shelf[i]!;
      const { id, name, composition } = product;
      return amount > 0 ? [{ id, name, unit: composition.per, amount, by: measureOf(product, amount, kit) }] : [];
    }),
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
