import { atDoor } from '../../door.js';
import { cloudingSays, mineralName, pairNames } from './clouding.js';
import type { StockRemark } from '../../stock/concentrate-request.js';
import type { Filling } from '../../stock/concentrate-result.js';
import type { Apartness, StockLimit, StockNote } from '../../stock/findings.js';
import { formatNumber, formatUpTo } from '../../units/format.js';
import { ml } from './measures.js';

/** What stands in the way of a stronger stock, as half a sentence. */
export function stockLimitSays(limit: StockLimit): string {
  switch (limit.kind) {
    case 'room':
      return 'the products would leave too little room for water in the bottle';
    case 'mineral': {
      const from = limit.between === null ? '' : `, from ${pairNames(limit.between)}`;
      const past = limit.index - limit.most < 0.02 ? 'past' : `${shown(limit.index)}, clear up to`;
      return `${mineralName(limit.mineral)} would come out${from} (saturation index ${past} ${shown(limit.most)})`;
    }
    case 'salt':
    case 'product':
      return `${limit.name} would crystallise at ${shown(limit.celsius)} °C`;
    case 'powder':
      return `${limit.name}: at most ${limit.gramsPerLitre} g per litre of stock (${
        limit.known
          ? 'common practice; its salts are checked one by one'
          : 'its make-up is not known: a careful guess, try it in a jar first'
      })`;
    case 'dose':
      return 'less than 1 mL in a litre cannot be measured well';
    default:
      return limit satisfies never;
  }
}

/** Each sentence once, in the order of the limits. */
export const stockLimitsSay = (limits: readonly StockLimit[]): string[] => [...new Set(limits.map(stockLimitSays))];

const shown = (value: number): string => formatUpTo(value, 2).replace('-', '−');

/** Why an item is kept out of the stock, as half a sentence. */
export const apartSays = (why: Apartness): string => APART[why];

const APART: Readonly<Record<Apartness, string>> = {
  silicate: 'silicate turns to jelly in a stock and throws out calcium: stir it into the full can first, by itself',
  alkali: 'strongly alkaline: it would throw out calcium and magnesium, and ammonia; stir it into the full can first',
  acid: 'an acid: it goes by its own label, measured by someone trained for it, never into a mixed stock',
};

export const remarkSays = (remark: StockRemark): string => REMARKS[remark];

const REMARKS: Readonly<Record<StockRemark, string>> = {
  'no feed': atDoor({
    typed: 'No feed keeps every limit, so there is none to concentrate: `velamen blend` says why.',
    page: 'No feed keeps every limit, so there is none to concentrate: Feed says why.',
  }),
  'not proved': atDoor({
    typed: 'No feed was found or ruled out, so there is none to concentrate: `velamen blend` says more.',
    page: 'No feed was found or ruled out, so there is none to concentrate: Feed says more.',
  }),
  'equal shares': 'Several waters are given: taken in equal shares.',
};

/** The water that the bottles are filled with. */
export const fillingSays = (fill: Filling): string =>
  fill.kind === 'pure' ? 'rain or purified water, not the hard water of the can' : fill.waters.join(' and ');

/** What the reader should know about this very answer. */
export function stockNoteSays(note: StockNote): string {
  switch (note.kind) {
    case 'remark':
      return remarkSays(note.remark);
    case 'ratio':
      return `1:${formatNumber(note.ratio, 4)} means ${ml(1000 / note.ratio)} of each stock in a litre of finished feed.`;
    case 'strongest':
      return `The usual 1:100 would be too strong, so the strongest that holds was taken: 1:${formatNumber(note.ratio, 3)}.`;
    case 'too many for every split':
      return `More than ${note.exact} items that matter: the ${note.exact} heaviest were tried in every way, the rest follow the rule (calcium apart).`;
    case 'make-up unknown':
      return `The make-up of ${note.products.join(', ')} is not known: at most 100 g in a litre of stock was allowed; the jar test decides.`;
    case 'liquids':
      return `${note.products.join(', ')}: liquids are diluted in the stock; what keeps them clear in their own bottle may be missing here, so do the jar test.`;
    case 'organic':
      return `${note.products.join(', ')}: organic matter spoils a stock within two weeks; better dosed by itself.`;
    case 'label open':
      return `${note.products.join(', ')}: the label leaves sulfate or alkalinity open; the bottles are judged by the most it may hold.`;
    case 'short on hand':
      return `A jug takes ${formatNumber(note.needed, 3)} ${note.unit} of ${note.product}; there are ${formatNumber(note.onHand, 3)} ${note.unit} on hand.`;
    case 'too little to weigh':
      return `${note.products.join(', ')}: less in a jug than a scale with steps of ${formatNumber(note.scaleStepGrams, 3)} g weighs well; make a larger jug.`;
    case 'can clouds':
      return `The finished can itself: ${note.minerals.map(cloudingSays).join(' ')}`;
    case 'own pH':
      return 'The bottles stay clear at the pH they have by themselves: add nothing alkaline to them (hard water, silicate).';
    case 'acid holds phosphate':
      return 'pH decides how much phosphate stands beside calcium: the more acid, the more. Acidifying a stock is for trained hands, by the label of the acid; no recipe for it here.';
    default:
      return note satisfies never;
  }
}
