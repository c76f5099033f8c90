import type { Optimal } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { measuresOf } from '../dose/measure.js';
import { toolsOf } from '../dose/tools.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { formatDigits, formatNumber } from '../units/index.js';
import { canTable, kept, margins } from './can-limits.js';
import { type Batch, isMisfilled, plannedLitres } from './batch.js';
import type { Cause } from './cause.js';
import { type Chosen, chooseRemedy, type RescueOptions } from './choose-remedy.js';
import type { Judged } from './judge.js';
import { possibleCans } from './posterior.js';
import type { Alternative, Remedy } from './remedy.js';
import { stepOf } from './remedy-action.js';
import { remedySays, stepsOf } from './remedy-words.js';
import { standingOf } from './weigh-remedy.js';

/** The remedy for an estimated can, read out. See `chooseRemedy`. */
export async function rescue(judged: Judged, asked: FeedRequest, options: RescueOptions): Promise<Remedy> {
  const chosen = await chooseRemedy(judged, asked, options);
  const told = remedyOf(chosen, judged, options);
  const { causes, verdict } = judged.judgement;
  const wasteful = told.pourLitres > WASTEFUL * judged.weighed.batch.litres;
  const parted = verdict !== 'within' && (wasteful || told.notUnder.length > 0 || told.status === 'do not feed');
  const alternatives = parted ? await alternativesOf(judged, asked, options) : [];
  const status = new Set(alternatives.map((a) => [a.status, ...a.steps].join())).size > 1 ? 'check first' : told.status;
  return {
    ...told,
    status,
    steps: stepsOf(told, asked.waters.length > 1),
    says: [...misfilled(judged.weighed.batch, told), ...remedySays(told, verdict === 'within' ? [] : causes)],
    alternatives: status === 'check first' ? alternatives : [],
  };
}

/** Why a can that reads as its doses do in the water that was measured is not as planned. */
function misfilled(batch: Batch, { status }: Told): string[] {
  if (!isMisfilled(batch) || status === 'feed') return [];
  const litres = (x: number): string => `${formatNumber(x, 3)} L`;
  return [`The doses were for ${litres(plannedLitres(batch))}, and ${litres(batch.litres)} were measured.`];
}

/** Pouring off more than this share of a batch is worth a look at the pen or the mark first. */
const WASTEFUL = 0.2;
/** Explanations less likely than this are not asked for their own remedy. */
const PLAUSIBLE = 0.08;
const MOST_ALTERNATIVES = 4;
const CANS_EACH = 200;
const FAULTS_OF_THE_PEN: ReadonlySet<Cause['kind']> = new Set<Cause['kind']>(['scale', 'temperature', 'pen']);

/** What each plausible explanation, taken as certain, would ask for. */
async function alternativesOf(judged: Judged, asked: FeedRequest, options: RescueOptions): Promise<Alternative[]> {
  const plausible = judged.judgement.causes
    .filter((cause) => cause.probability >= PLAUSIBLE)
    .slice(0, MOST_ALTERNATIVES);
  if (plausible.length < 2) return [];
  return Promise.all(
    plausible.map(async (cause: Cause): Promise<Alternative> => {
      // a mistaken reading leaves the can as planned: nothing to mend
      if (FAULTS_OF_THE_PEN.has(cause.kind) && !isMisfilled(judged.weighed.batch))
        return { ...namesOf(cause), status: 'feed', steps: [] };
      const cans = possibleCans(judged.weighed, CANS_EACH, (point) => point.hypothesis.cause === cause.cause);
      const own = { ...judged, cans };
      const told = remedyOf(await chooseRemedy(own, asked, options), own, options);
      return { ...namesOf(cause), status: told.status, steps: stepsOf(told, asked.waters.length > 1) };
    }),
  );
}

const namesOf = ({ cause, words, check, probability }: Cause) => ({ cause, words, check, probability });

type Told = Omit<Remedy, 'steps' | 'says' | 'alternatives' | 'status'> & { status: Alternative['status'] };

/** Kept as well as right batches do in fewer of the cans than this, a can is not to be fed. */
const LEAST_SURE = 0.3;

function remedyOf(best: Chosen, judged: Judged, { kit, capacityLitres }: RescueOptions): Told {
  const { action, can, limits, allowances, sure, asRight, asIs, verdict, request, aside } = best;
  const idle = verdict === null;
  const fine = standingOf(judged) === 'within';
  const status = asRight < LEAST_SURE ? 'do not feed' : idle ? 'feed' : fine ? 'improve' : 'rescue';
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
  return {
    status,
    keepShare: action.keep,
    pourLitres: (1 - action.keep) * litres,
    waterLitres: action.water.reduce((a, b) => a + b, 0),
    waters: action.water.flatMap((litres, i) => {
      const { id, name } = request.waters[i]!;
      return litres > 0 ? [{ id, name, litres }] : [];
    }),
    add: action.add.flatMap((amount, i) => {
      const product = request.shelf[i]!;
      const { id, name, composition } = product;
      return amount > 0 ? [{ id, name, unit: composition.per, amount, words: wordsOf(product, amount, kit) }] : [];
    }),
    finalLitres: action.keep * litres + action.water.reduce((a, b) => a + b, 0),
    sure,
    asRight,
    asIs,
    safeUnder: safe,
    notUnder: harmed,
    mix,
    misses: missesOf(mix),
    aside: [...aside],
    proof: verdict && proofOf(verdict),
  };
}

/** The measure of the kit that delivers it, else plain grams or millilitres. */
function wordsOf(product: ClosedProduct, amount: number, kit: Kit): string {
  const [measure] = measuresOf(product, toolsOf(kit), amount);
  if (measure && Math.abs(measure.amount / amount - 1) < 1e-6) return measure.words;
  const { per } = product.composition;
  const step = stepOf(product, kit);
  // a few steps of a scale or syringe, or an amount that it takes several times to reach; else nothing of the kit shows it
  return `${formatNumber(amount, 6)} ${per}${step === null ? ` (your kit has nothing for it: borrow a ${per === 'g' ? 'scale' : 'syringe'})` : ''}`;
}

/** Causes with less of the cans than this are not told of. */
const WORTH_TELLING = 0.05;

function proofOf({ engine, objective, bound, gap, violation }: Optimal): NonNullable<Remedy['proof']> {
  const plain = (x: number): string => formatDigits(x, 3);
  const sentence = `as cautious a remedy wastes no less than ${plain(bound)}, and this program found ${plain(objective)} (litres poured off, and water and products in parts of a litre); rounded to your kit, and moved by its steps where that saves more cans`;
  return { engine, found: objective, bound, gap, violation, sentence };
}
