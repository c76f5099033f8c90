import type { Verdict } from '../../solver/index.js';
import type {
  Branches,
  Settled,
  FeedSettled,
  FewSettled,
  CurveSettled,
  ReachSettled,
  PurchaseSettled,
  FewestSettled,
  PurchaseFound,
  Stage,
  ProofFigures,
  ProofStage,
} from './settled.js';

export type * from './settled.js';

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

  /** True where a limit of work or time ended the search: more of it might settle the question. */
  get unfinished(): boolean {
    return this.verdict === 'uncertified' && verdictsOf(this.settled).some(isUnfinished);
  }
}

/** Whether the verdicts prove that nothing answers the question. */
export const isRuledOut = (settled: Settled): boolean => judged(settled).verdict === 'infeasible';

/** Whether the verdicts prove that something answers it. */
export const isAnswered = (settled: Settled): boolean => judged(settled).verdict === 'optimal';

/** Whether each branch of a search is closed by arithmetic, and none was left unasked. */
export const isSearched = ({ answers, ended }: Branches): boolean =>
  ended && answers.every((answer) => answer === 'optimal' || answer === 'infeasible');

const isUnfinished = (verdict: Verdict): boolean => verdict.verdict === 'uncertified' && verdict.unfinished === true;

/** Every verdict that a question of programs was answered with; whole packs say themselves what stopped their search. */
function verdictsOf(settled: Settled): Verdict[] {
  const of = (stages: readonly Stage[]): Verdict[] => stages.map(({ verdict }) => verdict);
  switch (settled.question) {
    case 'feed':
    case 'shared':
      return of(settled.stages);
    case 'plan':
      return of([...settled.stages, ...(settled.few?.choice ?? [])]);
    case 'at most':
      return of([...settled.stages, ...settled.choice]);
    case 'curve':
      return settled.points.flatMap((point) => verdictsOf(point.settled));
    case 'reach':
      return [settled.whole, ...settled.ends];
    case 'purchase':
    case 'fewest products':
      return [];
  }
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
      return settled.few === null ? ofFeed(settled) : ofFew({ ...settled, ...settled.few });
    case 'shared':
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

function ofFew(settled: Pick<FewSettled, 'stages' | 'goal' | 'ec' | 'choice'>): Judged {
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

/** As good as the worst of its feeds. */
function ofCurve({ points }: CurveSettled): Judged {
  const each = points.map(({ settled }) => judged(settled));
  const worst = each.find(({ verdict }) => verdict !== 'optimal') ?? each.at(-1);
  return worst ?? { verdict: 'uncertified' };
}

function ofReach({ whole, ends }: ReachSettled): Judged {
  const unproved = ends.find(({ verdict }) => verdict === 'uncertified');
  return { ...ofVerdict(unproved ?? whole), figures: { ...NO_FIGURES, ...worstOf([whole, ...ends]) } };
}

function ofPurchase({ answer, overCap, way }: PurchaseSettled): Judged {
  if (!answer.found) {
    if (!answer.none) return { verdict: 'uncertified' };
    return { verdict: answer.byArithmetic ? 'infeasible' : 'uncertified', engine: answer.engine };
  }
  const fewer = way.kind === 'simplest' ? way.fewer : null;
  const noneFewer = fewer === null || (!fewer.found && fewer.none && fewer.byArithmetic);
  return ofPacks(answer, isByArithmetic(answer) && noneFewer && overCap.length === 0);
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
