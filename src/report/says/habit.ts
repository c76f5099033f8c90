import type { AssessJudged, ChangeTold } from '../../advice/types.js';
import type { GradedMiss } from '../../blend/nearest-doses.js';
import type { Grade } from '../../feed/grade.js';
import { amount, figure } from '../figures.js';
import type { PenScale } from '../mix.js';
import { missName } from './limits.js';

/** What a habit comes to. */
export type Verdict = 'good' | 'conventions' | 'lacks' | 'harms';

/** By the gravest of what it misses. */
export function verdictOf(graded: readonly GradedMiss[]): Verdict {
  const has = (grade: Grade): boolean => graded.some((miss) => miss.grade === grade);
  if (has('harm')) return 'harms';
  if (has('need')) return 'lacks';
  return graded.length > 0 ? 'conventions' : 'good';
}

/** The answer in one sentence. */
export function habitSays({ graded, feed }: Pick<AssessJudged, 'graded' | 'feed'>): string {
  const of = (grade: Grade): string => named(graded.filter((miss) => miss.grade === grade));
  switch (verdictOf(graded)) {
    case 'good':
      return `Good: it keeps every limit of ${feed.name}. Keep to it.`;
    case 'conventions':
      return `Good enough: nothing hurts and nothing needed is short; by convention ${of('custom')} should be otherwise.`;
    case 'lacks':
      return `Not enough by itself: short of what ${feed.plants} need (${of('need')}); nothing in it hurts.`;
    case 'harms': {
      const short = of('need');
      return `Don’t feed it as it is: too much of what hurts (${of('harm')})${short === '' ? '' : `; and what plants need is off (${short})`}.`;
    }
  }
}

const NAMED = 4;

/** `N, P, K and 3 more`, each once. */
function named(misses: readonly GradedMiss[]): string {
  const names = [...new Set(misses.map(({ limit }) => nameOf(limit)))];
  if (names.length <= NAMED) return names.join(', ');
  return `${names.slice(0, NAMED).join(', ')} and ${names.length - NAMED} more`;
}

/** `N`; of a rule between two elements `the balance of NO3 and N`. */
function nameOf(limit: GradedMiss['limit']): string {
  if (limit.kind === 'nutrient') return limit.nutrient;
  if (limit.kind !== 'rule') return missName(limit);
  const elements = [...new Set(limit.rule.text.match(/[A-Za-z][A-Za-z0-9-]*/g) ?? [])];
  return elements.length === 2 ? `the balance of ${elements.join(' and ')}` : limit.rule.text;
}

/** The change of one dose, and what it leaves. */
export function changeSays(change: ChangeTold): string {
  const { name, unit, from, to, words, graded } = change;
  const now = from === 0 ? 'none' : amount(from, unit);
  const told = amount(to, unit);
  // weighed words are the amount already
  const by = words === null || words === told || words.endsWith(` ${unit}`) ? words : `${words} (${told})`;
  const does =
    words === null
      ? `leave ${name} out (now ${now})`
      : from === 0
        ? `add ${by} ${name}`
        : `${by} ${name} instead of ${now}`;
  const hurting = graded.filter(({ grade }) => grade === 'harm');
  const short = graded.filter(({ grade }) => grade === 'need');
  const left = [
    ...(hurting.length === 0 ? [] : [`still too much: ${named(hurting)}`]),
    ...(short.length === 0 ? [] : [`still off: ${named(short)}`]),
  ];
  const rest = left.length === 0 ? 'nothing then hurts, and nothing needed is short' : left.join('; ');
  return `${does.charAt(0).toUpperCase()}${does.slice(1)}; ${rest}.`;
}

/** What the pen shows of a can made right. */
export function madeRightSays({ mSPerCm, low, high }: ChangeTold['ec'], pen: PenScale | null): string {
  const ec = `${figure(mSPerCm)} mS/cm (${figure(low)} to ${figure(high)})`;
  if (pen === null || pen === 'EC') return `the pen shows ${ec} at 25 °C`;
  return `the pen shows ${figure(mSPerCm * pen)} ppm on its ${pen} scale (${figure(low * pen)} to ${figure(high * pen)}), ${ec} at 25 °C`;
}
