import { moreSays, stopSays } from './purchase.js';
import type { EcStanding, EcTouch } from '../../feed/ec-linearisation.js';
import type {
  CurveSettled,
  FeedGoal,
  FeedSettled,
  FewestSettled,
  FewSettled,
  PlanSettled,
  PurchaseAnswer,
  PurchaseSettled,
  ReachSettled,
  SharedSettled,
  Stage,
} from '../../feed/proof.js';
import type { Nutrient } from '../../chemistry/nutrients.js';
import { type NearAsked, widthOf } from '../../feed/near.js';
import { isAnswered, isRuledOut, isSearched, Proof } from '../../feed/proof.js';
import { products } from './limits.js';
import { listed } from './listed.js';
import { figure, money } from '../figures.js';
import { formatDigits, formatNumber } from '../../units/index.js';

/** What a proof says, in one line: always of the very question that was answered, and never more than the certificate. */
export function proofSentence({ settled }: Pick<Proof, 'settled'>): string {
  switch (settled.question) {
    case 'feed':
      return `${feedSentence(settled)}${ecWords(settled.ec)}`;
    case 'plan':
      return `${planSentence(settled)}${ecWords(settled.ec)}`;
    case 'shared':
      return `${sharedSentence(settled)}${ecWords(settled.ec)}`;
    case 'at most':
      return `${fewSentence(settled)}${ecWords(settled.ec)}`;
    case 'curve':
      return curveSentence(settled);
    case 'reach':
      return reachSentence(settled);
    case 'purchase':
      return purchaseSentence(settled);
    case 'fewest products':
      return fewestSentence(settled);
  }
}

/** `least largest miss`, `least cost`. */
export const stageWords = (goal: Stage['goal']): string => `least ${goal}`;

const NOUNS: Record<FeedGoal, string> = { cheapest: 'cheaper', lightest: 'lighter', closest: 'closer' };

function feedSentence({ goal, unit, stages }: Pick<FeedSettled, 'goal' | 'unit' | 'stages'>): string {
  const { verdict } = stages.at(-1)!;
  const first = stages[0]!.verdict;
  if (verdict.verdict !== 'optimal' || first.verdict !== 'optimal') return noneSentence(verdict);
  return goal === 'closest'
    ? `no closer mix exists within these limits: largest miss ${percent(first.objective)} (bound ${percent(first.bound)}); ` +
        `of those as close, none is cheaper: bound ${plain(verdict.bound)}, found ${plain(verdict.objective)} ${unit}`
    : `no ${NOUNS[goal]} mix exists within these limits: bound ${plain(verdict.bound)}, found ${plain(verdict.objective)} ${unit}`;
}

function planSentence({ goal, unit, stages, near, nearer, nearerAt, movedIn, few, fewest }: PlanSettled): string {
  const { verdict } = stages.at(-1)!;
  const over = few === null ? verdict : few.choice.at(-1)!.verdict;
  if (verdict.verdict !== 'optimal') return noneSentence(verdict);
  const sure = movedIn ? ', with the limits moved in so that cans keep them' : '';
  const of = few === null ? '' : ` of at most ${products(few.atMost)}`;
  const least =
    nearer !== null && nearerAt !== null && isRuledOut(nearer) ? `no mix${of} has ${nearWords(nearerAt)}; ` : '';
  if (over.verdict !== 'optimal')
    return `${least}this mix${of} keeps the limits with ${nearWords(near)}${sure}, but ${unendedWords(over, goal)}`;
  const cost = `bound ${plain(Math.min(over.bound, verdict.objective))}, found ${plain(verdict.objective)} ${unit}`;
  const how = few === null ? '' : ` (${howChosen(few.choice)})`;
  return `${least}no ${NOUNS[goal]} mix${of} exists within these limits with ${nearWords(near)}${sure}: ${cost}${how}${fewWords(fewest, unit)}`;
}

function fewWords(fewest: PlanSettled['fewest'], unit: string): string {
  if (fewest === null) return '';
  return isSearched(fewest.branches)
    ? `; none of up to ${plain(fewest.mostCost)} ${unit} has fewer than ${fewest.items} products`
    : `; of up to ${plain(fewest.mostCost)} ${unit} none with fewer than ${fewest.items} products was found (not searched to the end)`;
}

/** Of feeds that share a mix; where none does, why they can't. */
function sharedSentence({ goal, unit, stages, feeds, stretch, movedIn, fewest }: SharedSettled): string {
  const { verdict } = stages.at(-1)!;
  const names = feeds.map(({ name }) => name).join(', ');
  const within = `at most ${formatDigits(stretch, 3)} times as far from ${feeds.length > 1 ? 'their aims as each by itself' : 'its aims'}`;
  if (verdict.verdict === 'infeasible')
    return `no one mix, with water added, keeps the limits of ${names}, ${within}: a weighted sum of them contradicts itself (checked on the labels’ own figures)`;
  if (verdict.verdict !== 'optimal') return noneSentence(verdict);
  const sure = movedIn ? ', with the limits moved in so that cans keep them' : '';
  const cost = `bound ${plain(verdict.bound)}, found ${plain(verdict.objective)} ${unit} of the mix`;
  return `no ${NOUNS[goal]} one mix keeps the limits of ${names}, ${within}${sure}: ${cost}${fewWords(fewest, unit)}`;
}

/** `nitrogen within 2 % of its aim, P K Ca Mg S within 1.35 times theirs, trace elements within 2 times`. */
function nearWords({ factor, nitrogenWithin, own = {} }: NearAsked): string {
  const times = (nutrient: Nutrient, by = factor): string => `${formatDigits(widthOf(nutrient, by), 3)} times`;
  const apart = (Object.entries(own) as [Nutrient, number][]).map(
    ([nutrient, by]) => `${nutrient} within ${times(nutrient, by)}`,
  );
  return [
    `nitrogen within ${formatNumber(100 * nitrogenWithin)} % of its aim`,
    `main elements within ${times('P')} theirs`,
    `trace elements within ${times('Fe')}`,
    ...apart,
  ].join(', ');
}

function noneSentence(verdict: Stage['verdict']): string {
  switch (verdict.verdict) {
    case 'infeasible':
      return 'no mix keeps all these limits: a weighted sum of them contradicts itself (checked on the labels’ own figures)';
    case 'uncertified':
      return verdict.unfinished ? `not finished: ${verdict.why}` : `not proved: ${verdict.why}`;
    default:
      return 'not proved: the search ended without an answer';
  }
}

/** What a search leaves open that found something and was not finished. */
function unendedWords(verdict: Stage['verdict'], goal: FeedGoal): string {
  return `a ${NOUNS[goal]} one may exist (${noneSentence(verdict)})`;
}

const howChosen = (choice: readonly Stage[]): string =>
  choice.every(({ verdict }) => verdict.verdict === 'optimal' && verdict.boundBy !== 'search')
    ? 'each choice of products proved'
    : 'the search’s own word for the other choices: no arithmetic proves it';

function fewSentence({ goal, unit, atMost, stages, choice, any }: FewSettled): string {
  const over = choice.at(-1)!.verdict;
  const most = products(atMost);
  const found = stages.at(-1)?.verdict;
  const [firstChoice, firstFound] = [choice[0]!.verdict, stages[0]?.verdict];
  if (
    over.verdict === 'optimal' &&
    found?.verdict === 'optimal' &&
    firstChoice.verdict === 'optimal' &&
    firstFound?.verdict === 'optimal'
  ) {
    const how = howChosen(choice);
    const cost = `bound ${plain(Math.min(over.bound, found.objective))}, found ${plain(found.objective)} ${unit}`;
    return goal === 'closest'
      ? `no closer mix of at most ${most} exists within these limits: largest miss ${percent(firstFound.objective)} (bound ${percent(Math.min(firstChoice.bound, firstFound.objective))}); of those as close, none is cheaper: ${cost} (${how})`
      : `no ${NOUNS[goal]} mix of at most ${most} exists within these limits: ${cost} (${how})`;
  }
  if (found?.verdict === 'optimal')
    return `this mix of at most ${most} keeps every limit, but ${unendedWords(over, goal)}`;
  const others = any !== null && isAnswered(any) ? 'with any number of products a mix exists; ' : '';
  if (over.verdict === 'infeasible') return `${others}of every choice of at most ${atMost}, each proved impossible`;
  return over.verdict === 'uncertified' && over.claim === 'integer-infeasible'
    ? `${others}of every choice of at most ${atMost}, the search found none (its own word: no arithmetic proves it)`
    : `${others}for at most ${most} ${noneSentence(over)}`;
}

function curveSentence({ unit, points }: CurveSettled): string {
  const told = points.map(({ near, settled }) => ({
    near,
    verdict: Proof.of(settled).verdict,
    says: proofSentence({ settled }),
  }));
  if (told.length === 1) return told[0]!.says;
  const open = told.filter(({ verdict }) => verdict !== 'optimal');
  if (open.length > 0) return open.map(({ near, says }) => `at ${formatNumber(100 * near)} %: ${says}`).join('; ');
  return `each of the ${told.length} feeds rests on a plan of its own, proved the cheapest (${unit}) within its widths; of shares between them nothing is said`;
}

function reachSentence({ whole, ends }: ReachSettled): string {
  const all = [whole, ...ends];
  const unproved = all.find(({ verdict }) => verdict === 'uncertified');
  if (unproved) return noneSentence(unproved);
  const solved = all.filter(({ verdict }) => verdict === 'optimal').length;
  return `every figure is the end of a proved program (${solved} optimal, ${all.length - solved} proved impossible)`;
}

function purchaseSentence(settled: PurchaseSettled): string {
  const over =
    settled.overCap.length === 0
      ? ''
      : `; but by the full model the EC of ${settled.overCap.join(' and ')} is over its cap with these packs`;
  return `${packsSentence(settled)}${over}${reserveWords(settled)}`;
}

function packsSentence(settled: PurchaseSettled): string {
  const { answer, currency, weeks } = settled;
  if (!answer.found) return nothingSentence(answer);
  const { objective, bound, gap, boundBy } = answer;
  const figures = `bound ${formatNumber(bound)}, found ${formatNumber(objective)} ${currency}, gap ${gapText(gap)}, for packs and water over ${formatNumber(weeks)} weeks`;
  if (boundBy === null) {
    const share = objective > 0 ? formatNumber((100 * (objective - bound)) / objective) : '0';
    return `not finished: this purchase does, but one that costs up to ${share} % less may exist (${figures})`;
  }
  const other = `no purchase${ofItsWay(settled)} costs less`;
  const least =
    boundBy === 'search'
      ? `on the search’s word ${other}: ${figures} (by exhaustion; no arithmetic proves it, but the purchase itself is checked)`
      : `${other}: ${figures} (${HOW[boundBy]})`;
  return `${least}${fewerSentence(settled)}`;
}

/** Of which purchases it is the cheapest. */
function ofItsWay({ way, near, mixes }: PurchaseSettled): string {
  const shared = mixes?.map((names) => listed(names)).join(', another feeds ');
  const held =
    near === null
      ? ''
      : `${shared === undefined ? '' : `, with which one mix feeds ${shared}`} that holds every feed’s main elements within ${figure(widthOf('P', near))} and its trace elements within ${figure(widthOf('Fe', near))} times their aims`;
  return way.kind === 'simplest' ? ` of ${way.products} new products or fewer${held}` : held;
}

function fewerSentence({ way }: PurchaseSettled): string {
  if (way.kind !== 'simplest' || way.fewer === null || way.fewer.found || !way.fewer.none) return '';
  const how = way.fewer.byArithmetic ? 'proved by arithmetic' : 'on the search’s word';
  return `; none of fewer new products does (${how})`;
}

const HOW = { multipliers: 'proved by arithmetic', cases: 'proved case by case, by arithmetic' };

function nothingSentence(answer: Extract<PurchaseAnswer, { found: false }>): string {
  if (!answer.none)
    return `not finished: ${stopSays(answer.stopped)} before anything was found or ruled out${moreSays(answer.stopped)}`;
  return answer.byArithmetic
    ? 'no purchase serves every feed (proved by arithmetic)'
    : 'the search found no purchase that serves every feed (its own word: no arithmetic proves it)';
}

function reserveWords({ reserve, currency }: PurchaseSettled): string {
  if (reserve === null) return '';
  const least =
    reserve.leastWithoutCap === null
      ? 'how little it would cost without the cap was not found before the search ended'
      : `without the cap the least is ${formatNumber(reserve.leastWithoutCap)} ${currency}`.trimEnd();
  return `; with the EC cap of ${reserve.feeds.join(' and ')} as a straight line: ${least}, so a cheaper purchase in between is not excluded`;
}

function fewestSentence({ currency, feeds, products, spend, number, purchase, overCap }: FewestSettled): string {
  if (products.length === 0) return 'the fewest products to buy: none';
  const rests = (number === null ? [purchase] : [number, purchase]).map(({ boundBy }) => boundBy);
  const doubt =
    overCap.length > 0 || rests.includes(null)
      ? ' (not proved)'
      : rests.includes('search')
        ? ' (on the search’s word)'
        : '';
  return `the fewest products that serve ${feeds > 1 ? 'all feeds' : 'the feed'}${doubt}: ${figure(products.length)}, ${products.join(', ')}, for ${money(spend, currency)}`;
}

/** The search's own tolerance is 0.0001 %. */
const gapText = (gap: number): string => (gap <= 1e-6 ? 'below 0.0001 %' : `${formatNumber(100 * gap)} %`);

/** What the proof says about the EC row; empty where it does not matter. */
function ecWords(ec: EcStanding | null): string {
  if (ec === null) return '';
  // six rounds have always been enough; should they not be, the answer must not pass for proved
  if (!ec.keeps) return `; but by the full model its EC is over the cap after ${ec.round} rounds`;
  return `; EC row linearised at ${touchWords(ec.touches)} (round ${ec.round})`;
}

function touchWords(touches: EcTouch): string {
  switch (touches.at) {
    case 'aims':
      return 'the programme’s aims at the strength of the cap';
    case 'round':
      return `${formatNumber(touches.mSPerCm)} mS/cm, the mix of round ${touches.round}`;
    case 'way':
      return `${formatNumber(touches.mSPerCm)} mS/cm, on the way to the mix of round ${touches.round}`;
    case 'least':
      return `${formatNumber(touches.mSPerCm)} mS/cm, the least found with every other limit kept`;
    case 'mix':
      return `${formatNumber(touches.mSPerCm)} mS/cm`;
  }
}

/** Three significant digits, never an exponent. */
function plain(x: number): string {
  return formatDigits(x, 3);
}

function percent(share: number): string {
  return `${plain(100 * Math.max(0, share))} %`;
}
