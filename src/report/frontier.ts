import type { FrontierMade, FrontierPoint, FrontierResult } from '../feed/results.js';
import { headerFacts } from './blend.js';
import { amount, figure, percent } from './figures.js';
import { waterText } from './mix.js';
import { proofSentence } from './says/proof.js';
import { type Block, heading, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { frontierNotes } from './says/blend.js';

/** Cost against closeness as a sheet: one line for each vertex, closest first. */
export function frontierSheet(result: FrontierResult): Sheet {
  const { feed, proof } = result;
  return {
    title: proof.unfinished
      ? `Not finished: what closeness costs for ${feed.name}`
      : `${feed.name}: what closeness costs`,
    blocks: [
      headerFacts(feed, result.status === 'made' ? waterText(result.points[0]!.waters) : ''),
      ...(result.status === 'made'
        ? tradeOff(result)
        : [paragraph(proof.unfinished ? UNFINISHED : REASONS[result.status], 'bad')]),
      heading('Proof'),
      paragraph(spoken(proofSentence(proof)), result.status === 'made' ? 'good' : 'bad'),
      ...section('Notes', frontierNotes(result)),
    ],
  };
}

const UNFINISHED = 'The search ended before it was done; it says nothing of what it did not reach.';

const REASONS = {
  cannot: 'No feed keeps every limit, so there is nothing to trade: `velamen blend` without --frontier says why.',
  open: 'NOT PROVED: no engine’s answer passed its check.',
};

function tradeOff({ points, costUnit }: FrontierMade): Block[] {
  const [closest, cheapest] = [points[0]!, points.at(-1)!];
  const blocks: Block[] = [
    paragraph(
      points.length === 1
        ? `The cheapest mix is also the closest: ${percent(closest.miss)} off its aims at most, for ${figure(closest.cost)} ${costUnit}.`
        : `From ${percent(closest.miss)} off the aims at most, for ${figure(closest.cost)} ${costUnit}, to ${percent(cheapest.miss)} for ${figure(cheapest.cost)} ${costUnit}. Between the lines of the table mixes change in proportion, and so does the cost.`,
    ),
    table(
      ['>largest miss', 'on', `>${costUnit}`, '>each % closer costs'],
      points.map((point) => [
        percent(point.miss),
        missText(point),
        figure(point.cost),
        point.costOfCloser === null ? '' : figure(point.costOfCloser),
      ]),
    ),
    heading('What goes in at each of them, per litre'),
    list(points.map((point) => `${percent(point.miss)}: ${itemsText(point)}`)),
  ];
  return blocks;
}

/** `Fe below, K above`. */
function missText(point: FrontierPoint): string {
  const few = point.misses.slice(0, 3).map(({ element, side }) => `${element} ${side}`);
  return [...few, ...(point.misses.length > 3 ? [`${point.misses.length - 3} more`] : [])].join(', ');
}

function itemsText(point: FrontierPoint): string {
  const waters = point.waters.length > 1 ? [waterText(point.waters)] : [];
  return [
    ...point.items.map((item) =>
      item.gramsPerLitre === undefined
        ? `${item.id} ${amount(item.millilitresPerLitre!, 'mL')}`
        : `${item.id} ${amount(item.gramsPerLitre, 'g')}`,
    ),
    ...waters,
  ].join(', ');
}
