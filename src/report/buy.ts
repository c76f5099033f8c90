import type { Failure, PurchaseCannot, PurchaseMade, PurchaseOpen, PurchaseResult } from '../purchase/types.js';
import { cautionBlocks } from './blend.js';
import { comparisonBlocks } from './buy-beside.js';
import { isFinished, labelBlocks, optionBlocks, optionsTable } from './buy-option.js';
import { figure } from './figures.js';
import { becauseLines } from './says/because.js';
import { limitFrom, limitSays } from './says/limits.js';
import { listed } from './says/listed.js';
import { feedsSay, missedSays, moneySays, packsSay } from './says/packs.js';
import { purchaseNoteSays } from './says/purchase.js';
import { proofSentence } from './says/proof.js';
import { volumeText } from './volume.js';
import { type Block, facts, heading, inFull, list, paragraph, section, type Sheet, spoken } from './sheet.js';

/** What to buy: the best option, the next ones, what they are worth beside other ways; or why nothing does. */
export function buySheet(result: PurchaseResult): Sheet {
  const proof = paragraph(spoken(proofSentence(result.proof)), result.proof.verdict === 'uncertified' ? 'bad' : 'good');
  return {
    title: titleOf(result),
    blocks: [
      ...(result.status === 'made' ? madeBlocks(result) : result.status === 'unfinished' ? [] : failureBlocks(result)),
      planFacts(result),
      ...(result.status === 'made' ? inFull([heading('Proof'), proof]) : [heading('Proof'), proof]),
      ...section('Notes', result.notes.map(purchaseNoteSays)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

function madeBlocks(result: PurchaseMade): Block[] {
  const [best, ...others] = result.options;
  return [
    ...optionsTable(result),
    ...optionBlocks(best, result),
    ...labelBlocks(result),
    ...inFull([...others.flatMap((option) => optionBlocks(option, result)), ...comparisonBlocks(result)]),
  ];
}

/** The answer in one line. */
function titleOf(result: PurchaseResult): string {
  const feeds = listed(result.plan.map((line) => line.feed.name));
  if (result.status === 'cannot') return `No purchase serves ${feeds}`;
  if (result.status === 'open') return `No purchase was found for ${feeds}`;
  if (result.status === 'unfinished') return `Not finished: no purchase found yet for ${feeds}, and none ruled out`;
  if (!isFinished(result)) return `Not finished: what to buy for ${feeds}, the best so far`;
  const [best] = result.options;
  const cost = moneySays(best, result.weeks, result.currency);
  const told = [missedSays(best), feedsSay(best)].flatMap((says) => says || []).join('; ');
  const answer =
    best.packs.length === 0 ? `Nothing to buy for ${feeds}: the shelf suffices` : `Buy ${packsSay(best)}: ${cost}`;
  return told === '' ? answer : `${answer}; ${told}`;
}

/** Feeds, weeks and market. */
export function planFacts({ plan, weeks, market }: Pick<PurchaseResult, 'plan' | 'weeks' | 'market'>): Block {
  return facts(
    ...plan.map(({ feed, weeklyLitres, litres }): [string, string] => [
      feed.name,
      `${feed.plants} in ${feed.medium}, ${feed.phase}, ${feed.strength}: ${volumeText(weeklyLitres)} a week, ${volumeText(litres)} in all`,
    ]),
    ['For', `${figure(weeks)} weeks`],
    ['Market', `${market.name}: ${market.products} products`],
  );
}

export function failureBlocks({ failures }: Pick<PurchaseCannot | PurchaseOpen, 'failures'>): Block[] {
  return failures.flatMap(({ feed, conflict }) => [
    heading(`Why: ${feed}`),
    paragraph(reasonOf(conflict), 'bad'),
    list(
      conflict.map((line) => {
        const because = line.because.flatMap(becauseLines).slice(0, 2).join('; ');
        return `${limitSays(line.limit)} (${limitFrom(line.limit)})${because === '' ? '' : `: ${because}`}`;
      }),
    ),
  ]);
}

/** A feed's own limits conflict; or each feed could be mixed, and a wish or the stock is in the way. */
function reasonOf(conflict: Failure['conflict']): string {
  return conflict.every(({ limit }) => limit.owner === 'you' || limit.owner === 'shelf') && conflict.length < 3
    ? 'Each feed could be mixed from market and shelf, but this is in the way:'
    : 'With everything on the market and on the shelf, these cannot all hold together:';
}
