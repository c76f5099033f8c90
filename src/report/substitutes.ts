import type { FeedSubstitutes, Judged, Substitute, SubstitutesResult } from '../formulation/substitutes-types.js';
import { cautionBlocks } from './blend.js';
import { amount, figure, money, percent } from './figures.js';
import { missLines } from './mix.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet, table } from './sheet.js';

/** What could stand in for a product, feed by feed. */
export function substitutesSheet(result: SubstitutesResult): Sheet {
  const { product, market } = result;
  return {
    title: `Instead of ${product.name === '' ? product.id : product.name}`,
    blocks: [
      facts(['Market', `${market.name}: ${market.products} products`]),
      ...result.feeds.flatMap((feed) => feedBlocks(feed, result)),
      ...section('Notes', result.notes),
      ...cautionBlocks(result.cautions),
    ],
  };
}

function feedBlocks({ feed, original, leftOut, substitutes }: FeedSubstitutes, result: SubstitutesResult): Block[] {
  if (original.dose === 0) return [];
  const { product, currency } = result;
  const head = [
    heading(`${feed.name}: ${feed.plants} in ${feed.medium}, ${feed.phase}, ${feed.strength}`),
    paragraph(
      `The feed now takes ${amount(original.dose, original.unit)} of ${product.id} to the litre and costs ${money(original.costPerLitre, currency)}.`,
    ),
  ];
  if (substitutes.length === 0) {
    return [
      ...head,
      paragraph('No product of the market, put in its place, would be used.', 'bad'),
      ...leftOutBlocks(leftOut),
    ];
  }
  const rows = substitutes.map((line) => [
    line.name === '' ? line.id : line.name,
    amount(line.dose, line.unit),
    percent(line.largestMiss),
    line.holds ? 'all' : `all but ${line.broken.length}`,
    money(line.costPerLitre, currency),
    `${money(line.price, currency)} for ${amount(line.pack, line.unit)}`,
  ]);
  const best = substitutes[0]!;
  return [
    ...head,
    table(['in its place', '>per litre', '>farthest off', 'limits kept', '>cost per litre', '>pack'], rows),
    paragraph(matching(best, original.unit, product.id)),
    ...(best.holds ? [] : [list(missLines(best.broken))]),
    ...leftOutBlocks(leftOut),
    paragraph(
      'Farthest off: the element that differs most from the feed as it was. The other products of the shelf are dosed anew.',
      'quiet',
    ),
  ];
}

function matching(line: Substitute, unit: 'g' | 'mL', id: string): string {
  const ratio =
    line.perOriginal === null ? '' : `: ${figure(line.perOriginal)} ${line.unit} of it for 1 ${unit} of ${id}`;
  return `Nearest is ${line.id}${ratio}.`;
}

function leftOutBlocks(leftOut: Judged | null): Block[] {
  if (leftOut === null) return [];
  const kept = leftOut.holds ? 'every limit is still kept' : `${leftOut.broken.length} limits are broken`;
  return [
    paragraph(`With nothing in its place the farthest element is ${percent(leftOut.largestMiss)} off and ${kept}.`),
  ];
}
