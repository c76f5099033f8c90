import { atDoor } from '../door.js';
import type { FrontierMade, FrontierPoint, FrontierResult } from '../feed/results.js';
import { headerFacts } from './blend.js';
import { amount, figure } from './figures.js';
import { waterText } from './mix.js';
import { canCount, offSays } from './says/given.js';
import { proofSentence } from './says/proof.js';
import { type Block, heading, list, paragraph, section, type Sheet, spoken, table } from './sheet.js';
import { frontierNotes } from './says/blend.js';

/** Cost against nearness as a sheet: one line for each feed, nearest first. */
export function frontierSheet(result: FrontierResult): Sheet {
  const { feed, proof } = result;
  return {
    title: proof.unfinished
      ? `Not finished: what nearness costs for ${feed.name}`
      : `${feed.name}: what nearness costs`,
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
  cannot: atDoor({
    typed: 'No feed keeps every limit, so there is nothing to trade: `velamen blend` without --frontier says why.',
    page: 'No feed keeps every limit, so there is nothing to trade: the report above says why.',
  }),
  open: 'NOT PROVED: no engine’s answer passed its check.',
};

function tradeOff({ points, costUnit }: FrontierMade): Block[] {
  const [nearest, cheapest] = [points[0]!, points.at(-1)!];
  return [
    paragraph(
      points.length === 1
        ? `The cheapest feed is also the nearest: ${farthestText(nearest)}, for ${figure(nearest.cost)} ${costUnit}.`
        : atDoor({
            typed: `From --near ${nearText(nearest)}, for ${figure(nearest.cost)} ${costUnit}, to --near ${nearText(cheapest)}, for ${figure(cheapest.cost)} ${costUnit}. Every line is the feed that \`blend --near\` gives at its share: main elements may be as far from their aims as that, trace elements in step, or as far as the shelf comes; shares between two lines give no cheaper feed that was found.`,
            page: `From within ${nearText(nearest)}, for ${figure(nearest.cost)} ${costUnit}, to within ${nearText(cheapest)}, for ${figure(cheapest.cost)} ${costUnit}. Every line is the feed that the slider of nearness gives at its share: main elements may be as far from their aims as that, trace elements in step, or as far as the shelf comes; shares between two lines give no cheaper feed that was found.`,
          }),
    ),
    table(
      [
        atDoor({ typed: '>--near', page: '>nearness' }),
        'main elements within',
        'farthest',
        `>${costUnit}`,
        '>cans of 100',
        '>each % nearer costs',
      ],
      points.map((point) => [
        nearText(point),
        `× ${figure(point.main)}`,
        farthestText(point),
        figure(point.cost),
        canCount(point.sure).replace(' of 100', ''),
        point.costOfCloser === null ? '' : figure(point.costOfCloser),
      ]),
    ),
    heading('What goes in at each of them, per litre'),
    list(points.map((point) => `${nearText(point)}: ${itemsText(point)}`)),
  ];
}

/** Whole percents, so that it can be asked for as it stands: `30%`. */
const nearText = ({ near }: FrontierPoint): string => `${Math.round(100 * near)}%`;

/** `P 48 % below`. */
const farthestText = ({ farthest }: FrontierPoint): string => (farthest === null ? 'no aims' : offSays(farthest));

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
