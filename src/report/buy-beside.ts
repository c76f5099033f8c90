import { atDoor } from '../door.js';
import type { PurchaseMade } from '../purchase/types.js';
import { money } from './figures.js';
import { proofSentence } from './says/proof.js';
import { type Block, section } from './sheet.js';

/** What one new product more than was allowed would save. */
function oneMoreSays({ options, oneMoreAllowed, currency }: PurchaseMade): string[] {
  const best = cheapestOf(options);
  if (oneMoreAllowed === null) return [];
  const { spend, products } = oneMoreAllowed;
  const saved = best.total - spend;
  return [
    saved > 1e-6 * best.total
      ? atDoor({
          typed: `with one new product more than --at-most allows, ${money(saved, currency)} would be saved: ${products.join(', ')} for ${money(spend, currency)}`,
          page: `with one new product more than you allow, ${money(saved, currency)} would be saved: ${products.join(', ')} for ${money(spend, currency)}`,
        })
      : atDoor({
          typed: 'one new product more than --at-most allows would save no money',
          page: 'one new product more than you allow would save no money',
        }),
  ];
}

/** It stands first unless its doses miss a limit. */
const cheapestOf = (options: PurchaseMade['options']): PurchaseMade['options'][number] =>
  options.find(({ ways }) => ways.includes('cheapest')) ?? options[0];

/** The joint purchase beside buying for each feed alone, and beside the fewest products. */
export function comparisonBlocks(result: PurchaseMade): Block[] {
  const { comparison, currency, options } = result;
  const more = oneMoreSays(result);
  if (comparison === null) return section('Compared', more);
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
    const isBest =
      cheapestOf(options)
        .packs.map((pack) => pack.id)
        .join() === fewest.products.join();
    lines.push(
      `${proofSentence(fewest.proof)}${isBest && fewest.products.length > 0 ? ', the best option itself' : ''}`,
    );
  }
  return section('Compared', [...lines, ...more]);
}
