import type {
  Failure,
  OptionFeed,
  PurchaseCannot,
  PurchaseMade,
  PurchaseOpen,
  PurchaseOption,
  PurchaseResult,
  StockLine,
} from '../purchase/types.js';
import type { Proof, PurchaseAnswer } from '../feed/proof.js';
import { cautionBlocks } from './blend.js';
import { comparisonBlocks, extraBlocks } from './buy-beside.js';
import { amount, figure, money, percent } from './figures.js';
import { boundedName, waterText } from './mix.js';
import { becauseLines } from './says/because.js';
import { limitFrom, limitSays } from './says/limits.js';
import { purchaseNoteSays } from './says/purchase.js';
import { proofSentence } from './says/proof.js';
import { volumeText } from './volume.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';

/** What to buy: the best option, the next ones, what they are worth beside other ways; or why nothing does. */
export function buySheet(result: PurchaseResult): Sheet {
  const made = result.status === 'made' ? result : null;
  return {
    title: titleOf(result),
    blocks: [
      planFacts(result),
      ...(result.status === 'made'
        ? [...overview(result), ...optionBlocks(result.options[0], 1, result)]
        : result.status === 'unfinished'
          ? []
          : failureBlocks(result)),
      heading('Proof'),
      paragraph(spoken(proofSentence(result.proof)), result.proof.verdict === 'uncertified' ? 'bad' : 'good'),
      ...(made ? [...extraBlocks(made), ...comparisonBlocks(made)] : []),
      ...(made ? made.options.slice(1).flatMap((option, i) => optionBlocks(option, i + 2, made)) : []),
      ...section('Notes', result.notes.map(purchaseNoteSays)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

function titleOf(result: PurchaseResult): string {
  const feeds = listed(result.plan.map((line) => line.feed.name));
  if (result.status === 'cannot') return `No purchase serves ${feeds}`;
  if (result.status === 'open') return `No purchase was found for ${feeds}`;
  if (result.status === 'unfinished') return `Not finished: no purchase found yet for ${feeds}, and none ruled out`;
  if (!isFinished(result)) return `Not finished: what to buy for ${feeds}, the best so far`;
  return result.options[0].packs.length === 0
    ? `Nothing to buy for ${feeds}: the shelf suffices`
    : `What to buy for ${feeds}`;
}

function planFacts({ plan, weeks, market }: PurchaseResult): Block {
  return facts(
    ...plan.map(({ feed, weeklyLitres, litres }): [string, string] => [
      feed.name,
      `${feed.plants} in ${feed.medium}, ${feed.phase}, ${feed.strength}: ${volumeText(weeklyLitres)} a week, ${volumeText(litres)} in all`,
    ]),
    ['For', `${figure(weeks)} weeks`],
    ['Market', `${market.name}: ${market.products} products`],
  );
}

/** Every option in one line. */
function overview({ options, currency }: PurchaseMade): Block[] {
  const hasWater = options.some((option) => option.waterCost > 0);
  const rows = options.map((option, i) => [
    `${i + 1}`,
    packsText(option),
    money(option.spend, currency),
    ...(hasWater ? [money(option.waterCost, currency)] : []),
    option.closest === null ? '' : percent(option.closest),
  ]);
  return [
    heading('Ways to buy, the cheapest first'),
    table(['', 'packs', '>spend', ...(hasWater ? ['>water'] : []), '>aims within'], rows),
    paragraph(
      'Aims within: how near to every aim of every feed these packs could come. The blends below are the thriftiest that keep every limit.',
      'quiet',
    ),
  ];
}

function packsText({ packs }: PurchaseOption): string {
  if (packs.length === 0) return 'nothing';
  return packs.map((pack) => `${pack.count} × ${pack.id}, ${amount(pack.pack, pack.unit)}`).join('; ');
}

function optionBlocks(option: PurchaseOption, number: number, { currency }: PurchaseResult): Block[] {
  const doubt = doubtOf(option.proof);
  return [
    heading(`Option ${number}: ${money(option.spend, currency)}${doubt}`),
    stockTable(option, currency),
    ...option.feeds.flatMap((feed) => feedBlocks(feed, currency)),
    ...(number > 1
      ? [paragraph(spoken(proofSentence(option.proof)), doubt.startsWith(' (NOT') ? 'bad' : 'quiet')]
      : []),
  ];
}

/** False where something cheaper may exist because the search was not finished. */
export function isFinished({ options }: PurchaseMade): boolean {
  return options.every(({ proof: { settled } }) => settled.question !== 'purchase' || !isCutShort(settled.answer));
}

const isCutShort = (answer: PurchaseAnswer): boolean => answer.found && answer.boundBy === null;

/** What has to be said of an option that arithmetic does not prove. */
function doubtOf({ verdict, settled }: Proof): string {
  if (verdict !== 'uncertified' || settled.question !== 'purchase') return '';
  if (isCutShort(settled.answer)) return ' (NOT FINISHED, the best so far)';
  const onWord = settled.answer.found && settled.answer.boundBy === 'search' && settled.overCap.length === 0;
  return onWord ? ' (on the search’s word)' : UNPROVED;
}

const UNPROVED = ' (NOT PROVED to be the cheapest)';

function stockTable({ packs, stock }: PurchaseOption, currency: string): Block {
  const rows = stock.map((line) => {
    const pack = packs.find((p) => p.id === line.id);
    return [
      line.id,
      pack ? `${pack.count} × ${amount(pack.pack, pack.unit)}` : 'on hand',
      pack ? money(pack.count * pack.price, currency) : '',
      amount(line.used, line.unit),
      lasts(line),
      line.left === null ? 'unknown' : amount(tidy(line.left, line), line.unit),
    ];
  });
  return table(['', 'buy', '>money', '>used', '>lasts', '>left then'], rows);
}

/** Rounding dust is nothing. */
const tidy = (left: number, line: StockLine): number => (left <= 1e-6 * line.used ? 0 : left);

function lasts({ months, used }: StockLine): string {
  if (months === null) return used > 0 ? 'unknown' : 'not used';
  return months > 120 ? '10+ years' : `${figure(months)} months`;
}

/** One feed's blend in a table, and its tight limits in a line. */
function feedBlocks(feed: OptionFeed, currency: string): Block[] {
  const rows = feed.items.map((item) => [
    item.name === '' ? item.id : item.name,
    amount(item.gramsPerLitre ?? item.millilitresPerLitre ?? 0, item.gramsPerLitre === undefined ? 'mL' : 'g'),
    item.costPerLitre === null ? 'price unknown' : money(item.costPerLitre, currency),
  ]);
  const met = feed.justMet.map(({ limit, bound }) => boundedName(limit, bound));
  const tight = met.length === 0 ? 'Nothing is tight.' : `Only just met: ${met.join(', ')}.`;
  return [
    table([`${feed.feed.name}, in ${waterText(feed.waters)}`, '>per litre', '>value per litre'], rows, [
      'together',
      '',
      money(feed.costPerLitre, currency),
    ]),
    paragraph(`${tight}${farthest(feed)}`),
  ];
}

/** The element that lies farthest from its aim. */
function farthest({ elements, largestMiss }: OptionFeed): string {
  const miss = ({ mgPerLitre, aim }: OptionFeed['elements'][number]): number =>
    aim !== null && aim > 0 ? Math.abs(mgPerLitre - aim) / aim : 0;
  const worst = elements.find((line) => largestMiss > 0 && miss(line) >= largestMiss * (1 - 1e-9));
  if (!worst) return '';
  const side = worst.mgPerLitre < worst.aim! ? 'below' : 'above';
  return ` Farthest from its aim: ${worst.element}, ${percent(largestMiss)} ${side}.`;
}

function failureBlocks({ failures }: PurchaseCannot | PurchaseOpen): Block[] {
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

/** `moss`, `moss and bark`, `moss, bark and fern`. */
function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
