import { widthOf } from '../feed/near.js';
import type { Proof, PurchaseAnswer } from '../feed/proof.js';
import type { OptionFeed, PurchaseMade, PurchaseOption, StockLine } from '../purchase/types.js';
import { amount, figure, money, percent } from './figures.js';
import { boundedName, waterText } from './mix.js';
import { farthestSays, nearSays, sureSays } from './says/given.js';
import { missSays } from './says/limits.js';
import { gradedLines } from './says/none-given.js';
import { labelSays, leastCans, missedSays, packSays, packsSay, waysSay } from './says/packs.js';
import { proofSentence } from './says/proof.js';
import { type Block, heading, inFull, list, paragraph, spoken, table } from './sheet.js';

/** Every option in one line. */
export function optionsTable({ options, currency, weeks }: PurchaseMade): Block[] {
  if (options.length === 1 && options[0].packs.length === 0) return [];
  const rows = options.map((option) => [
    waysSay(option.ways),
    money(option.total, currency),
    option.laterYears === null ? 'unknown' : money(option.laterYears, currency),
    widthSays(option),
    option.feeds.every(({ given }) => given === null) ? '' : `${leastCans(option.feeds)}`,
  ]);
  return [
    heading('Ways to buy'),
    table(['', `>${figure(weeks)} weeks`, '>a year later', '>main within', '>cans of 100'], rows),
    ...(options.length === 1
      ? []
      : [
          list(
            options.map((one) =>
              [`${waysSay(one.ways)}: ${packsSay(one)}`, missedSays(one)].filter((says) => says !== null).join('; '),
            ),
          ),
        ]),
  ];
}

/** What to look for in place of invented products. */
export function labelBlocks({ lookFor }: Pick<PurchaseMade, 'lookFor'>): Block[] {
  if (lookFor.length === 0) return [];
  return [
    heading('The label to look for'),
    paragraph(
      'The names above are invented. Any product within these ranges does as well, the other packs as they are:',
    ),
    list(lookFor.map((label) => `for ${label.name === '' ? label.id : label.name}: ${labelSays(label)}`)),
  ];
}

/** `1.35 ×`: times or parts of its aim that a main element may be in the feeds as they are given. */
function widthSays({ factor, feeds }: PurchaseOption): string {
  const given = feeds.flatMap((feed) => (feed.given === null ? [] : [feed.given.near.main]));
  if (given.length > 0) return `${figure(Math.max(...given))} ×`;
  return factor === null ? '' : `${figure(widthOf('P', factor))} ×`;
}

/** One option: what goes into a can of each feed; how long packs last and what proves it under `--full`. */
export function optionBlocks(option: PurchaseOption, { currency }: Pick<PurchaseMade, 'currency'>): Block[] {
  const doubt = doubtOf(option.proof);
  const missed = missedSays(option);
  return [
    heading(`${capital(waysSay(option.ways))}: ${money(option.total, currency)}${doubt}`),
    ...(missed === null ? [] : [paragraph(`${missed}.`, 'bad')]),
    ...option.feeds.flatMap(dosesBlocks),
    ...inFull([
      ...(option.packs.length === 0 ? [] : [list(option.packs.map(packSays))]),
      stockTable(option, currency),
      ...option.feeds.flatMap((feed) => feedBlocks(feed, currency)),
      paragraph(spoken(proofSentence(option.proof)), doubt.startsWith(' (NOT') ? 'bad' : 'quiet'),
    ]),
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What `blend` prints of the feed once the packs stand on the shelf. */
function dosesBlocks({ feed, given, missed }: OptionFeed): Block[] {
  if (given === null) return missed.length === 0 ? [] : [list(gradedLines(missed))];
  const { plan, near, sure, custom } = given;
  const short = [...farthestSays(near), ...custom.map(missSays)];
  return [
    table(
      [`${feed.name}: ${nearSays(near)}; ${sureSays(sure)}`, `for ${figure(plan.batchLitres)} L`],
      plan.items.map(({ product, chosen }) => [product.name || product.id, chosen.words]),
    ),
    ...(missed.length === 0 ? [] : [list(gradedLines(missed))]),
    ...(short.length === 0 ? [] : inFull([list(short)])),
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
  return onWord || (settled.way.kind === 'simplest' && settled.overCap.length === 0) ? ON_WORD : UNPROVED;
}

const ON_WORD = ' (on the search’s word)';
const UNPROVED = ' (NOT PROVED to be the cheapest)';

/** How long every pack and what is on hand lasts. */
export function stockTable({ packs, stock }: Pick<PurchaseOption, 'packs' | 'stock'>, currency: string): Block {
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

/** One feed's mix in a table, its tight limits in a line, and what it costs. */
function feedBlocks(feed: OptionFeed, currency: string): Block[] {
  const rows = feed.items.map((item) => [
    item.name === '' ? item.id : item.name,
    amount(item.gramsPerLitre ?? item.millilitresPerLitre ?? 0, item.gramsPerLitre === undefined ? 'mL' : 'g'),
    item.costPerLitre === null ? 'price unknown' : money(item.costPerLitre, currency),
  ]);
  const met = feed.justMet.map(({ limit, bound }) => boundedName(limit, bound));
  const year = feed.given?.litresPerYear ?? null;
  const told = [
    met.length === 0 ? 'Nothing is tight.' : `Only just met: ${met.join(', ')}.`,
    ...(year === null ? [] : [`A year of it: ${money(year * feed.costPerLitre, currency)}.`]),
    ...(feed.given === null ? [] : [`Cans that keep the limits: ${percent(feed.given.sure.share)}.`]),
  ];
  return [
    table([`${feed.feed.name}, in ${waterText(feed.waters)}`, '>per litre', '>value per litre'], rows, [
      'together',
      '',
      money(feed.costPerLitre, currency),
    ]),
    paragraph(told.join(' ')),
  ];
}
