import { isMisfilled } from './batch.js';
import type { Fault } from './cause.js';
import type { Judged } from './judge.js';
import type { Doing, NoRemedy, Remedy } from './remedy.js';
import type { Completion } from './complete-recipe.js';
import type { Told } from './told.js';
import { standingOf } from './weigh-remedy.js';

/** What is answered first, in one sentence. */
export type Verdict = 'good' | 'a little off' | 'top up' | 'mend' | 'find out' | 'do not feed';

/** The one answer about a can, before any reason. */
export function verdictOf(judged: Judged, remedy: Remedy | NoRemedy, completion: Completion | null = null): Verdict {
  const { judgement } = judged;
  // two facts that contradict each other are one to find out
  if (judgement.verdict === 'beyond' || judgement.told?.agrees === false) return 'find out';
  const fine = judgement.verdict === 'within';
  switch (remedy.status) {
    case 'none':
      if (completion !== null) return completes(completion);
      return fine ? 'good' : 'find out';
    case 'feed':
      return standingOf(judged) === 'as planned' ? 'good' : 'a little off';
    case 'improve':
      return 'a little off';
    case 'do not feed':
      return 'do not feed';
    case 'check first':
      return hopeless(remedy) ? 'do not feed' : 'find out';
    case 'rescue':
      if (fillsUp(judged, remedy.doing)) return 'top up';
      return judgement.told === null ? 'find out' : 'mend';
    default:
      return remedy satisfies never;
  }
}

const completes = ({ add, fillTo }: Completion): Verdict =>
  add.length > 0 ? 'mend' : fillTo === null ? 'a little off' : 'top up';

/** Whatever it was, nothing saves the can. */
const hopeless = ({ alternatives, unknowing }: Extract<Remedy, { status: 'check first' }>): boolean =>
  unknowing.status === 'do not feed' && alternatives.every(({ asks }) => asks.status === 'do not feed');

/** Whether the remedy is no more than the water that is missing to the mark. */
function fillsUp(
  { weighed: { batch, told }, judgement }: Judged,
  { keepShare, waterLitres, add, finalLitres }: Doing,
): boolean {
  const meant = batch.meantFor ?? batch.litres;
  const [likeliest] = judgement.causes;
  const short = isMisfilled(batch)
    ? batch.litres < meant
    : likeliest !== undefined &&
      (isShort(likeliest.fault, likeliest.value.likely) || isSaidShort(likeliest.fault, told));
  return short && keepShare === 1 && add.length === 0 && waterLitres > 0 && finalLitres <= TO_THE_MARK * meant;
}

/** Filling to a mark is off by as much. */
const TO_THE_MARK = 1.04;

const isShort = ({ kind }: Fault, factor: number): boolean => kind === 'topping' || (kind === 'volume' && factor < 1);

/** Whether the can was said to hold less than its doses are for. */
const isSaidShort = (fault: Fault, told: Told | null): boolean =>
  fault.kind === 'said' && told!.ways[fault.way]!.slips.some(({ kind }) => kind === 'topping' || kind === 'litres');
