import type { FeedCompared, Judged, Substitute, SubstitutesResult } from '../purchase/substitutes-types.js';
import { cautionBlocks } from './blend.js';
import { amount, figure, money, percent } from './figures.js';
import { missLines } from './mix.js';
import { type Block, facts, heading, list, paragraph, section, type Sheet, table } from './sheet.js';
import { substitutesNotes } from './says/purchase.js';

/** What could stand in for a product, feed by feed. */
export function substitutesSheet(result: SubstitutesResult): Sheet {
  const { product, market } = result;
  return {
    title: `Instead of ${product.name === '' ? product.id : product.name}`,
    blocks: [
      facts(['Market', `${market.name}: ${market.products} products`]),
      ...result.feeds.flatMap((feed) => (feed.status === 'compared' ? feedBlocks(feed, result) : [])),
      ...section('Notes', substitutesNotes(result)),
      ...cautionBlocks(result.cautions),
    ],
  };
}

function feedBlocks({ feed, original, leftOut, substitutes }: FeedCompared, result: SubstitutesResult): Block[] {
  const { product, currency } = result;
  const head = [
    heading(`${feed.name}: ${feed.plants} in ${feed.medium}, ${feed.phase}, ${feed.strength}`),
    paragraph(
      `The feed now takes ${amount(original.dose, original.unit)} of ${product.id} to the litre and costs ${money(original.costPerLitre, currency)}.${original.broken > 0 ? ` Limits broken even so: ${original.broken}.` : ''}`,
    ),
  ];
  if (substitutes.length === 0) {
    return [
      ...head,
      paragraph('No product of the market, put in its place, would be used.', 'bad'),
      ...leftOutBlocks(leftOut),
    ];
  }
  const allKept = substitutes.every((line) => line.holds);
  const rows = substitutes.map((line) => [
    line.id,
    amount(line.dose, line.unit),
    percent(line.largestMiss),
    ...(allKept ? [] : [line.holds ? 'kept' : `${line.broken.length} broken`]),
    line.price === null ? 'price unknown' : money(line.costPerLitre, currency),
    ...(allKept
      ? [`${amount(line.pack, line.unit)}${line.price === null ? '' : `, ${money(line.price, currency)}`}`]
      : []),
  ]);
  const best = substitutes[0]!;
  return [
    ...head,
    table(
      ['', '>per litre', '>off by', ...(allKept ? [] : ['limits']), '>feed per litre', ...(allKept ? ['>pack'] : [])],
      rows,
    ),
    paragraph(matching(best, original.unit, product.id)),
    ...(best.holds ? [] : [list(missLines(best.broken))]),
    ...leftOutBlocks(leftOut),
    paragraph(
      `Off by: how far the element that differs most lies from the feed as it was; the other products of the shelf are dosed anew.${allKept ? ' Every limit is kept.' : ''}`,
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
