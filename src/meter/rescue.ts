import { type Optimal, solve } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import { measuresOf } from '../dose/measure.js';
import { toolsOf, usualMark } from '../dose/tools.js';
import type { Product } from '../catalog/product.js';
import { conductingIons, conductivity, ionsOfMix } from '../formulation/ec.js';
import type { EcPlane } from '../formulation/ec-plane.js';
import { firstPlane, planeAt } from '../formulation/ec-row.js';
import { productColumn, waterColumn } from '../formulation/formulate.js';
import type { Amounts } from '../formulation/mix-amounts.js';
import { missesOf, readOut } from '../formulation/readout.js';
import { ecCap, type FeedRequest } from '../formulation/request.js';
import type { Mix } from '../formulation/results.js';
import { formatNumber } from '../units/index.js';
import type { Batch } from './batch.js';
import type { Judged } from './judge.js';
import { weigh } from './likelihood.js';
import { type PossibleCan, possibleCans, quantiles } from './posterior.js';
import { checkFirst, remedySays, stepsOf } from './remedy-words.js';
import {
  type Action,
  type CanLimit,
  canLimits,
  canTable,
  keepsAll,
  kept,
  margins,
  rescueProgram,
} from './rescue-program.js';

/** What to do with the can. */
export interface Remedy {
  /** `feed`: as it is; `rescue`: do as told, then feed; `do not feed`: nothing within reach saves it. */
  status: 'feed' | 'rescue' | 'do not feed';
  action: Action;
  pourLitres: number;
  keepShare: number;
  waterLitres: number;
  /** In the grower's own tool. */
  add: { id: string; name: string; unit: 'g' | 'mL'; amount: number; words: string }[];
  finalLitres: number;
  /** What hands do, in order. */
  steps: string[];
  /** Why, and what it rests on. */
  says: string[];
  /** What to find out before, where it would be wrong under another likely cause. */
  checkFirst: string | null;
  /** Share of the cans that would show these readings which keep every limit after it. */
  sure: number;
  /** Causes it rests on, likeliest first, and those under which it would do harm. */
  safeUnder: string[];
  notUnder: string[];
  /** The likeliest can after the remedy, read out. */
  mix: Mix;
  misses: { limit: string; value: number; bound: number }[];
  /** Limits that the plan itself does not keep, left aside here. */
  aside: string[];
  proof: { engine: string; found: number; bound: number; gap: number; violation: number; sentence: string } | null;
}

export interface RescueOptions {
  /** Litres that the can holds to the brim. */
  capacityLitres: number;
  kit: Kit;
}

/** The remedy for an estimated can, read out. See `chooseRemedy`. */
export async function rescue(judged: Judged, asked: FeedRequest, options: RescueOptions): Promise<Remedy> {
  const chosen = await chooseRemedy(judged, asked, options);
  const told = remedyOf(chosen, judged, options.kit);
  const { causes, verdict } = judged.judgement;
  const named = verdict === 'within' ? [] : causes;
  return {
    ...told,
    steps: stepsOf(told),
    says: remedySays(told, named),
    checkFirst: checkFirst(told, causes),
  };
}

/**
 * Several remedies are worked out, each proved the least wasteful for its own degree of caution (how unlikely a can it still allows for;
 * all causes, or the likeliest alone); taken is the one that keeps the limits in the most cans, waste counted against it.
 */
export async function chooseRemedy(judged: Judged, asked: FeedRequest, options: RescueOptions): Promise<Chosen> {
  const { aside, plane, allowances } = setUp(judged, asked);
  let request: FeedRequest = { ...asked, ecPlane: plane };
  let best = await choose(judged, request, options, aside, allowances);
  // the plane must hold where the remedied can stands: touch there and try again where it does not
  for (let round = 0; round < ROUNDS && overCap(best, request); round += 1) {
    request = { ...request, ecPlane: planeFor(best.final, request) };
    best = await choose(judged, request, options, aside, allowances);
  }
  return { ...best, request, aside };
}

/** A remedy as chosen, with what it was chosen under. */
export interface Chosen extends Candidate {
  request: FeedRequest;
  aside: ReadonlySet<string>;
}

/** Limits that the plan itself misses, and the EC plane at the plan; the same for every reading of a batch. */
function setUp({ weighed }: Judged, asked: FeedRequest): SetUp {
  const { batch } = weighed;
  const known = SET_UPS.get(batch);
  if (known?.asked === asked) return known;
  const planned = plannedAmounts(batch, asked);
  const plane = planeFor(planned, asked);
  const request = { ...asked, ecPlane: plane };
  const aside = new Set(missedRows(batch, request));
  const right = possibleCans(weigh(batch, [], weighed.pen), RIGHT_CANS, (point) => point.hypothesis.kind === 'none');
  const limits = canLimits(request, batch, aside);
  const inside = margins(limits, nothing(asked), canTable(limits, right));
  const allowances = limits.map((_, l) => {
    const [worst] = quantiles(
      inside.map((of) => of[l]!),
      [1 - NINE_OF_TEN],
    );
    return Math.max(0, -worst!);
  });
  const found = { asked, plane, aside, allowances };
  SET_UPS.set(batch, found);
  return found;
}

interface SetUp {
  asked: FeedRequest;
  aside: ReadonlySet<string>;
  plane: EcPlane;
  /** Per limit: how far outside it one right batch in ten may be, so that none is condemned for what every batch may do. */
  allowances: number[];
}

const SET_UPS = new WeakMap<Batch, SetUp>();
const RIGHT_CANS = 200;
const NINE_OF_TEN = 0.9;
const nothing = ({ waters, shelf }: FeedRequest): Action => ({
  keep: 1,
  water: waters.map(() => 0),
  add: shelf.map(() => 0),
});

const ROUNDS = 2;
/** How unlikely a can each candidate still allows for, and how many of those that can be met are compared. */
const DEGREES = [0.985, 0.96, 0.92, 0.86, 0.78, 0.7, 0.62, 0.55, 0.5];
const COMPARED = 2;
/**
 * What doing anything at all weighs against a share of cans saved, and what keeping every limit to the letter adds to keeping it as well as
 * a right batch does: a can that seems right is left alone.
 */
const RIGHT = {
  within: { trouble: 0.1, strict: 0 },
  off: { trouble: 0.05, strict: 1 },
  unexplained: { trouble: 0.05, strict: 1 },
} as const;
/** What throwing the whole can away weighs. */
const WASTE = 0.25;
/** Less kept than this is no rescue: mixing anew is simpler. */
const LEAST_KEPT = 0.25;
/** Kept in fewer of the cans than this, a can is not to be fed. */
const LEAST_SURE = 0.3;

export interface Candidate {
  action: Action;
  /** Share of the cans that keep every limit as well as a right batch does, and to the letter. */
  sure: number;
  strictly: number;
  worth: number;
  verdict: Optimal | null;
  limits: CanLimit[];
  allowances: readonly number[];
  /** Per litre, of the likeliest can after it. */
  final: Amounts;
  can: PossibleCan;
}

async function choose(
  judged: Judged,
  request: FeedRequest,
  { capacityLitres, kit }: RescueOptions,
  aside: ReadonlySet<string>,
  allowances: readonly number[],
): Promise<Candidate> {
  const { batch } = judged.weighed;
  const limits = canLimits(request, batch, aside);
  const likeliest = likeliestCause(judged.cans);
  const own = judged.cans.filter((can) => can.cause === likeliest);
  const can = middle(own);
  const table = canTable(limits, judged.cans);
  const weighed = (action: Action, verdict: Optimal | null): Candidate => {
    const inside = margins(limits, action, table);
    const share = (allowed?: readonly number[]): number =>
      inside.filter((of) => kept(of, allowed)).length / table.length;
    const sure = share(allowances);
    const strictly = share();
    const { trouble, strict } = RIGHT[judged.judgement.verdict];
    const effort = verdict === null ? 0 : trouble + (WASTE * verdict.objective) / batch.litres;
    const worth = sure + strict * strictly - effort;
    return {
      action,
      sure,
      strictly,
      worth,
      verdict,
      limits,
      allowances,
      can,
      final: after(can, action, batch, request),
    };
  };
  let best = weighed(nothing(request), null);
  const sets = own.length > ALONE * judged.cans.length ? [judged.cans] : [judged.cans, own];
  for (const cans of sets) {
    let met = 0;
    for (const degree of DEGREES) {
      if (met === COMPARED || best.strictly >= GOOD) break;
      const verdict = await solve(rescueProgram(request, batch, limits, cans, degree, capacityLitres));
      if (verdict.verdict !== 'optimal') continue;
      met += 1;
      for (const action of byHand(actionOf(verdict, request), request, kit)) {
        const candidate = weighed(action, verdict);
        if (action.keep >= LEAST_KEPT && candidate.worth > best.worth) best = candidate;
      }
    }
  }
  return best;
}

/** A remedy that keeps every limit in so many of the cans needs no better one. */
const GOOD = 0.97;
/** A cause with this share of the cans needs no remedy of its own. */
const ALONE = 0.97;

function actionOf({ x }: Optimal, request: FeedRequest): Action {
  return {
    keep: Math.min(1, Math.max(0, x.keep ?? 0)),
    water: request.waters.map((_, i) => Math.max(0, x[waterColumn(i)] ?? 0)),
    add: request.shelf.map((_, i) => Math.max(0, x[productColumn(i)] ?? 0)),
  };
}

/**
 * Rounded to what the kit measures: whole 50 mL of water, whole per cent poured off; once as near as can be, once without what is too little
 * to measure well.
 */
function byHand(action: Action, request: FeedRequest, kit: Kit): Action[] {
  const tools = toolsOf(kit);
  const well = action.add.map((x, i) => (x > 0 ? (measuresOf(request.shelf[i]!, tools, x)[0]?.amount ?? x) : 0));
  const near = action.add.map((x, i) => {
    const step = stepOf(request.shelf[i]!, kit);
    // a scale or syringe can still hit a few of its steps, badly; a spoon cannot
    return step === null ? well[i]! : Math.round(x / step) * step;
  });
  const least = action.add.map((x, i) => (x < 0.5 * well[i]! ? 0 : well[i]!));
  const rest = {
    keep: Math.round(100 * action.keep) / 100,
    water: action.water.map((litres) => Math.round(20 * litres) / 20),
  };
  const ways = new Map([near, well, least].map((add) => [add.join(), add]));
  return [...ways.values()].map((add) => ({ ...rest, add }));
}

function stepOf(product: Product, { scaleStepGrams, syringeMillilitres, syringeStepMillilitres }: Kit): number | null {
  if (product.form === 'powder') return scaleStepGrams ?? null;
  return syringeStepMillilitres ?? (syringeMillilitres === undefined ? null : usualMark(syringeMillilitres));
}

function remedyOf(best: Chosen, judged: Judged, kit: Kit): Omit<Remedy, 'steps' | 'says' | 'checkFirst'> {
  const { action, can, limits, allowances, sure, verdict, request, aside } = best;
  const idle = verdict === null;
  const status = sure < LEAST_SURE ? 'do not feed' : idle ? 'feed' : 'rescue';
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
    action,
    keepShare: action.keep,
    pourLitres: (1 - action.keep) * can.litres,
    waterLitres: action.water.reduce((a, b) => a + b, 0),
    add: action.add.flatMap((amount, i) => {
      const product = request.shelf[i]!;
      const { id, name, composition } = product;
      return amount > 0 ? [{ id, name, unit: composition.per, amount, words: wordsOf(product, amount, kit) }] : [];
    }),
    finalLitres: action.keep * can.litres + action.water.reduce((a, b) => a + b, 0),
    sure,
    safeUnder: safe,
    notUnder: harmed,
    mix,
    misses: missesOf(mix),
    aside: [...aside].map((id) => limits.find((l) => l.id === id)?.text ?? id),
    proof: verdict && proofOf(verdict),
  };
}

/** The measure of the kit that delivers it, else plain grams or millilitres. */
function wordsOf(product: Product, amount: number, kit: Kit): string {
  const [measure] = measuresOf(product, toolsOf(kit), amount);
  if (measure && Math.abs(measure.amount / amount - 1) < 1e-6) return measure.words;
  return `${formatNumber(amount, 3)} ${product.composition.per}`;
}

/** Causes with less of the cans than this are not told of. */
const WORTH_TELLING = 0.05;

function proofOf({ engine, objective, bound, gap, violation }: Optimal): NonNullable<Remedy['proof']> {
  const plain = (x: number): string => x.toPrecision(3);
  const sentence = `no remedy this cautious wastes less: bound ${plain(bound)}, found ${plain(objective)} (litres poured off, and water and products in parts of a litre)`;
  return { engine, found: objective, bound, gap, violation, sentence };
}

/** What a litre holds after an action. */
function after(can: PossibleCan, { keep, water, add }: Action, batch: Batch, request: FeedRequest): Amounts {
  const litres = keep * can.litres + water.reduce((a, b) => a + b, 0);
  return {
    products: request.shelf.map((product, i) => {
      const at = batch.items.findIndex((item) => item.product.id === product.id);
      return (keep * (can.amounts[at] ?? 0) + add[i]!) / litres;
    }),
    waters: request.waters.map((w, i) => {
      const share = batch.waters.find(({ water: own }) => own.id === w.id)?.share ?? 0;
      return (keep * can.litres * share + water[i]!) / litres;
    }),
  };
}

function plannedAmounts(batch: Batch, request: FeedRequest): Amounts {
  const can: PossibleCan = { amounts: batch.items.map((item) => item.planned), litres: batch.litres, cause: 'none' };
  return after(can, nothing(request), batch, request);
}

/** Ids of the rows that the plan itself misses. */
function missedRows(batch: Batch, request: FeedRequest): string[] {
  const limits = canLimits(request, batch, new Set());
  const planned = { amounts: batch.items.map((item) => item.planned), litres: batch.litres, cause: 'none' };
  return limits.filter((limit) => !keepsAll([limit], planned, nothing(request))).map((limit) => limit.id);
}

function planeFor(amounts: Amounts, request: FeedRequest): EcPlane {
  if (ecCap(request) === null) return firstPlane(request);
  return planeAt(conductingMix(amounts, request), 'the can itself');
}

function overCap({ final }: Candidate, request: FeedRequest): boolean {
  const cap = ecCap(request);
  return cap !== null && conductivity(conductingMix(final, request)) > cap * (1 + 1e-6);
}

const conductingMix = (amounts: Amounts, { shelf, waters }: FeedRequest) =>
  ionsOfMix(amounts, shelf, waters, 'value', conductingIons);

function likeliestCause(cans: readonly PossibleCan[]): string {
  const counts = new Map<string, number>();
  for (const { cause } of cans) counts.set(cause, (counts.get(cause) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]![0];
}

/** The can in the middle of several: the median of each amount. */
function middle(cans: readonly PossibleCan[]): PossibleCan {
  const of = (values: number[]): number => quantiles(values, [0.5])[0]!;
  return {
    amounts: cans[0]!.amounts.map((_, i) => of(cans.map((can) => can.amounts[i]!))),
    litres: of(cans.map((can) => can.litres)),
    cause: cans[0]!.cause,
  };
}
