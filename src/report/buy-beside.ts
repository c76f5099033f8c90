import type { PurchaseMade, PurchaseOption } from '../purchase/types.js';
import { money, percent } from './figures.js';
import { proofSentence } from './says/proof.js';
import { type Block, heading, list, paragraph, table } from './sheet.js';

/** What one more product than the best option buys would do. */
export function extraBlocks({ options: [best], extras, oneMoreAllowed, currency }: PurchaseMade): Block[] {
  const blocks: Block[] = [heading('What one more product would buy')];
  if (oneMoreAllowed !== null) {
    const { spend, products } = oneMoreAllowed;
    const saved = best.total - spend;
    blocks.push(
      paragraph(
        saved > 1e-6 * best.total
          ? `With one new product more than --at-most allows, ${money(saved, currency)} would be saved: ${products.join(', ')} for ${money(spend, currency)}.`
          : 'One new product more than --at-most allows would save no money.',
      ),
    );
  }
  if (extras.length === 0) {
    blocks.push(
      paragraph('No single product more that the budget allows would bring the feeds noticeably closer to their aims.'),
    );
    return blocks;
  }
  const rows = extras.map((extra) => [
    extra.name === '' ? extra.id : extra.name,
    money(extra.extraSpend, currency),
    percent(extra.closest),
    money(extra.costPerLitre, currency),
  ]);
  const now = ['as it is', '', best.closest === null ? '' : percent(best.closest), money(meanValue(best), currency)];
  blocks.push(table(['', '>extra spend', '>aims within', '>value per litre'], [now, ...rows]));
  return blocks;
}

/** Value of what goes into an average litre. */
function meanValue({ feeds }: PurchaseOption): number {
  const litres = feeds.reduce((sum, feed) => sum + feed.litres, 0);
  return feeds.reduce((sum, feed) => sum + feed.litres * feed.costPerLitre, 0) / litres;
}

/** The joint purchase beside buying for each feed alone, and beside the fewest products. */
export function comparisonBlocks({ comparison, currency, options }: PurchaseMade): Block[] {
  if (comparison === null) return [];
  const { alone, aloneSpend, jointSpend, fewest } = comparison;
  const lines: string[] = alone.map(({ feed, spend, products }) =>
    spend === null
      ? `${feed} alone: not finished`
      : `${feed} alone, with the whole shelf to itself: ${money(spend, currency)} (${products.length === 0 ? 'nothing to buy' : products.join(', ')})`,
  );
  if (aloneSpend !== null) {
    const saved = aloneSpend - jointSpend;
    const size = 1e-6 * Math.max(aloneSpend, jointSpend);
    lines.push(
      saved > size
        ? `together: ${money(jointSpend, currency)}, ${money(saved, currency)} less than the ${money(aloneSpend, currency)} of buying for each alone`
        : saved < -size
          ? `together: ${money(jointSpend, currency)}; each alone comes to ${money(aloneSpend, currency)}, but counts the same shelf more than once`
          : `together: ${money(jointSpend, currency)}, the same as for each alone`,
    );
  }
  if (fewest !== null) {
    const isBest = options[0].packs.map((pack) => pack.id).join() === fewest.products.join();
    lines.push(
      `${proofSentence(fewest.proof)}${isBest && fewest.products.length > 0 ? ', the best option itself' : ''}`,
    );
  }
  return [heading('Compared'), list(lines)];
}
