import type { Verdict } from '../../solver/index.js';
import type { EcStanding } from './ec-linearisation.js';
import type { NearAsked } from './near.js';

/**
 * Why an answer can be believed. It is made by `Proof.of` alone, from the solver's verdicts and the very question that they answer; nobody
 * can set or add to any of it afterwards, and its sentence is read off `settled`.
 */
export class Proof {
  /** Keeps objects that merely look alike from passing for a proof. */
  protected readonly isProof = true;

  private constructor(
    readonly settled: Settled,
    readonly verdict: 'optimal' | 'infeasible' | 'uncertified',
    readonly engine: string,
    readonly figures: ProofFigures,
    readonly stages: readonly ProofStage[],
  ) {}

  /** The proof of a question by what the solver answered. @throws where a feed is said to cost ever less */
  static of(settled: Settled): Proof {
    const { verdict, engine = 'none', figures = NO_FIGURES, stages = [] } = judged(settled);
    const proof = new Proof(settled, verdict, engine, figures, stages);
    Object.freeze(proof);
    return proof;
  }
}

/** What was asked of the solver together with what it answered. */
export type Settled =
  | FeedSettled
  | PlanSettled
  | FewSettled
  | CurveSettled
  | ReachSettled
  | PurchaseSettled
  | FewestSettled;

/** The cheapest, lightest or closest feed within its limits. */
export interface FeedSettled {
  question: 'feed';
  goal: FeedGoal;
  /** What a cost is counted in: `EUR/L`, `g/L`. */
  unit: string;
  /** Null where the EC cap holds nothing back. */
  ec: EcStanding | null;
  /** Goal after goal, each without giving up the one before; the last is the first that was not proved. */
  stages: readonly Stage[];
}

/** The cheapest mix near its aims, with limits moved in so that cans keep them, and the fewest products for hardly more. */
export interface PlanSettled extends Omit<FeedSettled, 'question'> {
  question: 'plan';
  near: NearAsked;
  /** True where it is proved that no mix lies nearer; false where nearer was not asked for. */
  nearest: boolean;
  /** True where limits were moved in. */
  movedIn: boolean;
  /** With at most so much cost, in `unit`, no mix has fewer products: proved, or not searched to the end; null where not sought. */
  fewest: { items: number; mostCost: number; isProved: boolean } | null;
}

/** The same with at most so many products. */
export interface FewSettled extends Omit<FeedSettled, 'question'> {
  question: 'at most';
  atMost: number;
  /** Over every choice of so many products; `stages` are those of the choice that was made, empty where there is none. */
  choice: readonly Stage[];
  /** Where no choice was found: whether a mix exists with any number of products. */
  anyNumber: boolean;
}

/** The least cost at every closeness, vertex by vertex, or what stopped the search for it. */
export interface CurveSettled {
  question: 'curve';
  unit: string;
  ec: EcStanding | null;
  /** Empty where one of them could not be proved. */
  vertices: readonly Verdict[];
  /** Largest miss from the aims of the closest mix, cost of the cheapest; null where there is no curve. */
  ends: { closest: number; cheapest: number } | null;
}

/** How far each element can be moved; `whole` tells whether all limits can be kept together. */
export interface ReachSettled {
  question: 'reach';
  whole: Verdict;
  ends: readonly Verdict[];
}

/** The least money for whole packs over a horizon. */
export interface PurchaseSettled {
  question: 'purchase';
  currency: string;
  weeks: number;
  /** Options listed before this one, without part of each of which this one does. */
  earlier: number;
  answer: PurchaseAnswer;
  /** Feeds that these packs give no blend under the EC cap for, by the full model. */
  overCap: readonly string[];
  /** Feeds whose EC cap, as a straight line, may have hidden something cheaper; null where it can't have. */
  reserve: { feeds: readonly string[]; leastWithoutCap: number | null } | null;
}

/** The fewest products to buy, and the least money with so few. */
export interface FewestSettled {
  question: 'fewest products';
  currency: string;
  /** How many feeds they serve. */
  feeds: number;
  products: readonly string[];
  /** Money for their packs and for water. */
  spend: number;
  /** What a search for the number alone ended with; null where the purchase itself shows that fewer will not do. */
  number: PurchaseFound | null;
  purchase: PurchaseFound;
  /** Feeds that these packs give no blend under the EC cap for, by the full model. */
  overCap: readonly string[];
}

/** What a search for whole packs ended with. */
export type PurchaseAnswer =
  | PurchaseFound
  | { found: false; none: true; byArithmetic: boolean; engine: string }
  | { found: false; none: false; stopped: Stop };

/** What ended a search before it was finished: its work was spent, its seconds, those seconds while labels were read; or rounding. */
export type Stop =
  | { by: 'work' }
  | { by: 'time' }
  | { by: 'labels'; read: number; of: number }
  | { by: 'rounding'; why: string };

/** Packs that a search found, and the bound below which there are none. */
export interface PurchaseFound {
  found: true;
  objective: number;
  bound: number;
  gap: number;
  violation: number;
  engine: string;
  /** Null: the search was not finished. */
  boundBy: 'multipliers' | 'cases' | 'search' | null;
}

export type FeedGoal = 'cheapest' | 'lightest' | 'closest';

/** One goal of a search with the solver's verdict on it. */
export interface Stage {
  goal: 'largest miss' | 'sum of misses' | 'cost';
  verdict: Verdict;
}

/** What was found and the bound below which there is nothing; all null where there is no answer. */
export interface ProofFigures {
  found: number | null;
  bound: number | null;
  gap: number | null;
  violation: number | null;
}

export interface ProofStage {
  goal: Stage['goal'];
  found: number;
  bound: number;
  gap: number;
  violation: number;
  engine: string;
}

interface Judged {
  verdict: Proof['verdict'];
  engine?: string;
  figures?: ProofFigures;
  stages?: ProofStage[];
}

const NO_FIGURES: ProofFigures = { found: null, bound: null, gap: null, violation: null };

function judged(settled: Settled): Judged {
  switch (settled.question) {
    case 'feed':
      return ofFeed(settled);
    case 'plan':
      return ofFeed(settled);
    case 'at most':
      return ofFew(settled);
    case 'curve':
      return ofCurve(settled);
    case 'reach':
      return ofReach(settled);
    case 'purchase':
      return ofPurchase(settled);
    case 'fewest products':
      return ofFewest(settled);
  }
}

function ofFeed({ stages, goal, ec }: Pick<FeedSettled, 'stages' | 'goal' | 'ec'>): Judged {
  const last = ofVerdict(stages.at(-1)!.verdict);
  if (last.verdict !== 'optimal') return last;
  return {
    ...last,
    // over the cap by the full model it is no answer at all
    verdict: ec?.keeps === false ? 'uncertified' : 'optimal',
    stages: goal === 'closest' ? stages.map(figuresOfStage) : [],
  };
}

function ofFew(settled: FewSettled): Judged {
  const { stages, choice } = settled;
  const last = choice.at(-1)!.verdict;
  if (last.verdict !== 'optimal') return ofVerdict(last);
  const own = ofFeed(settled);
  if (own.verdict !== 'optimal') return own;
  // the amounts carry the certificate of the chosen products alone: the bound over all choices is that of the choice
  const found = stages.at(-1)!.verdict;
  const bound = Math.min(last.bound, last.objective);
  const objective = found.verdict === 'optimal' ? found.objective : last.objective;
  return {
    ...own,
    verdict: choice.every(({ verdict }) => byArithmetic(verdict)) ? 'optimal' : 'uncertified',
    figures: {
      found: objective,
      bound,
      gap: gapOf(objective, bound),
      violation: own.figures?.violation ?? null,
    },
    stages: own.stages?.map((stage, i) => withBound(stage, choice[i]!.verdict)) ?? [],
  };
}

function ofCurve({ vertices }: CurveSettled): Judged {
  const stopped = vertices.find(({ verdict }) => verdict !== 'optimal');
  if (stopped) return ofVerdict(stopped);
  if (vertices.length === 0) return { verdict: 'uncertified' };
  return { ...ofVerdict(vertices.at(-1)!), figures: { ...figuresOf(vertices.at(-1)!), ...worstOf(vertices) } };
}

function ofReach({ whole, ends }: ReachSettled): Judged {
  const unproved = ends.find(({ verdict }) => verdict === 'uncertified');
  return { ...ofVerdict(unproved ?? whole), figures: { ...NO_FIGURES, ...worstOf([whole, ...ends]) } };
}

function ofPurchase({ answer, overCap }: PurchaseSettled): Judged {
  if (!answer.found) {
    if (!answer.none) return { verdict: 'uncertified' };
    return { verdict: answer.byArithmetic ? 'infeasible' : 'uncertified', engine: answer.engine };
  }
  return ofPacks(answer, isByArithmetic(answer) && overCap.length === 0);
}

function ofFewest({ number, purchase, overCap }: FewestSettled): Judged {
  const answers = number === null ? [purchase] : [number, purchase];
  return ofPacks(purchase, answers.every(isByArithmetic) && overCap.length === 0);
}

function ofPacks({ objective, bound, gap, violation, engine }: PurchaseFound, proved: boolean): Judged {
  return {
    verdict: proved ? 'optimal' : 'uncertified',
    engine,
    figures: { found: objective, bound, gap, violation },
  };
}

const isByArithmetic = ({ boundBy }: PurchaseFound): boolean => boundBy === 'multipliers' || boundBy === 'cases';

function ofVerdict(verdict: Verdict): Judged {
  switch (verdict.verdict) {
    case 'optimal':
      return { verdict: 'optimal', engine: verdict.engine, figures: figuresOf(verdict) };
    case 'infeasible':
      return { verdict: 'infeasible', engine: verdict.engine };
    case 'uncertified':
      return { verdict: 'uncertified' };
    case 'unbounded':
      throw new Error('modelling fault: cost falls for ever; no feed has a negative price');
  }
}

function figuresOf(verdict: Verdict): ProofFigures {
  if (verdict.verdict !== 'optimal') return NO_FIGURES;
  const { objective, bound, gap, violation } = verdict;
  return { found: objective, bound, gap, violation };
}

/** A search's word that nothing is better is no proof. */
const byArithmetic = (verdict: Verdict): boolean => verdict.verdict === 'optimal' && verdict.boundBy !== 'search';

/** The largest gap and violation among the answers. */
function worstOf(verdicts: readonly Verdict[]): Pick<ProofFigures, 'gap' | 'violation'> {
  const solved = verdicts.flatMap((v) => (v.verdict === 'optimal' ? [v] : []));
  const most = (of: 'gap' | 'violation'): number | null =>
    solved.length === 0 ? null : Math.max(...solved.map((v) => v[of]));
  return { gap: most('gap'), violation: most('violation') };
}

function figuresOfStage({ goal, verdict }: Stage): ProofStage {
  if (verdict.verdict !== 'optimal') throw new Error('a stage after which nothing was found is no stage');
  const { objective, bound, gap, violation, engine } = verdict;
  return { goal, found: objective, bound, gap, violation, engine };
}

/** A stage of the choice that was made, bounded over all choices. */
function withBound(stage: ProofStage, choice: Verdict): ProofStage {
  if (choice.verdict !== 'optimal') return stage;
  const bound = Math.min(choice.bound, stage.found);
  return { ...stage, bound, gap: gapOf(stage.found, bound) };
}

function gapOf(found: number, bound: number): number {
  const size = Math.max(Math.abs(found), Math.abs(bound));
  return size === 0 ? 0 : Math.max(0, found - bound) / size;
}
