import type { OnePurchase, OnePurchaseResult } from '../purchase/one/one-types.js';
import { cautionBlocks } from './blend.js';
import { labelBlocks, stockTable } from './buy-option.js';
import { buySheet, planFacts } from './buy.js';
import { money } from './figures.js';
import { mixesBlocks } from './one.js';
import { assumedSays } from './says/given.js';
import { listed } from './says/listed.js';
import { apartSays, nameOf, oneSays } from './says/one.js';
import { moneySays, packsSay } from './says/packs.js';
import { purchaseNoteSays } from './says/purchase.js';
import { proofSentence } from './says/proof.js';
import { type Block, heading, inFull, paragraph, section, type Sheet, spoken } from './sheet.js';

/** What to buy so that the fewest mixes feed all feeds; where nothing does, as `buy` says it. */
export function buyOneSheet(result: OnePurchaseResult): Sheet {
  if (result.status !== 'made') return buySheet(result);
  const { one, packs, weeks, currency, proof } = result;
  const [first] = one.mixes;
  const what = packs.length === 0 ? 'Nothing to buy' : `Buy ${packsSay(result)}`;
  return {
    title: [`${what}: ${moneySays(result, weeks, currency)}`, ...missedOf(one), oneSays(one)].join('; '),
    blocks: [
      ...mixesBlocks(one),
      ...(first ? assumedSays(one.assumed, first.plan.batchLitres).map((line) => paragraph(line)) : []),
      ...comparedBlocks(result),
      ...section('Why not fewer mixes', one.mixes.length === 1 ? [] : whySays(result)),
      ...(result.isFewest
        ? []
        : [paragraph('With so many feeds not every way of sharing was tried: fewer mixes may do.')]),
      ...labelBlocks(result),
      planFacts(result),
      ...inFull([
        ...(result.stock.length === 0 ? [] : [heading('How long it lasts'), stockTable(result, currency)]),
        heading('Proof'),
        paragraph(spoken(proofSentence(proof)), proof.verdict === 'uncertified' ? 'bad' : 'good'),
        ...one.mixes.map((mix) => paragraph(spoken(proofSentence(mix.proof)))),
        ...result.apart.map((group) => paragraph(spoken(proofSentence(group.proof)))),
      ]),
      ...section('Notes', result.notes.map(purchaseNoteSays)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

/** Feeds that miss what hurts or what plants need, as the kit measures the mix. */
function missedOf({ mixes }: OnePurchase['one']): string[] {
  const names = mixes.flatMap(({ cans }) => cans.filter(({ violations }) => violations.length > 0).map(nameOf));
  return names.length === 0 ? [] : [`NOT EVERY LIMIT IS KEPT as this kit measures ${listed(names)}`];
}

/** What sharing costs or saves against a mix for each feed. */
function comparedBlocks({ separate, currency }: OnePurchase): Block[] {
  if (separate === null) return [];
  const more = separate.shared - separate.spend;
  const differs =
    Math.abs(more) < 0.005 ? 'the same' : `${money(Math.abs(more), currency)} ${more < 0 ? 'more' : 'less'}`;
  const bought = separate.products.length === 0 ? 'nothing to buy' : separate.products.join(', ');
  return [paragraph(`A mix for each feed would take ${money(separate.spend, currency)} (${differs}): ${bought}.`)];
}

function whySays({ apart, forbidden }: OnePurchase): string[] {
  return [
    ...apart.map(apartSays),
    ...forbidden.map(
      (mixes) =>
        `One mix for ${mixes.map((feeds) => listed(feeds)).join(', another for ')}: it could be mixed, but not from packs that stock, budget and the number of new products allow.`,
    ),
  ];
}
