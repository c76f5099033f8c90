import { atDoor } from '../../door.js';
import { MONTH_NAMES, monthOf } from '../../year/days.js';
import type {
  FeedSpan,
  FlushPlan,
  ProductYear,
  SeasonMix,
  SeasonNote,
  SeasonOrder,
  SeasonResult,
} from '../../year/season-types.js';
import { dampGrams, type Storage } from '../../year/storage.js';
import { amount, figure, money, percent } from '../figures.js';
import { volumeText } from '../volume.js';
import { listed } from './listed.js';
import { strengthSays } from './strength.js';
import { cansSay } from './sureness.js';

/** `1 Dec 2026`. */
export const daySays = (day: string): string =>
  `${Number(day.slice(8))} ${MONTH_NAMES[monthOf(day) - 1]!.slice(0, 3)} ${day.slice(0, 4)}`;

/** `Dec 2026` of `2026-12`. */
export const monthSays = (key: string): string => daySays(`${key}-01`).slice(2);

/** `500 g`, `1.2 kg`, `250 mL`. */
export const bulkSays = (value: number, unit: 'g' | 'mL'): string =>
  value < 1000 ? amount(value, unit) : `${figure(value / 1000)} ${unit === 'g' ? 'kg' : 'L'}`;

/** The answer of a year in a sentence or two: what runs out first, what is ordered, who gets no feed. */
export function answerSays(result: SeasonResult): string {
  const { products, orders, spend, currency, feeds, notes } = result;
  const short = [
    ...new Set(notes.flatMap((note) => (note.kind === 'no doses' || note.kind === 'missed' ? note.feeds : []))),
  ];
  const resting = feeds.filter(({ spans }) => spans.some(({ state }) => state.kind === 'rest'));
  const priceless = orders.some(({ cost }) => cost === null) ? ', packs without a price not counted' : '';
  return [
    ...(short.length === 0
      ? []
      : [
          atDoor({
            typed: `This shelf has no right feed for ${listed(short)} in some months, so what follows tells the nearest only: --buy plans with what would do.`,
            page: `This shelf has no right feed for ${listed(short)} in some months, so what follows tells the nearest only: Buy tells what would do.`,
          }),
        ]),
    ...(products.length === 0 ? [] : [firstOutSays(result)]),
    ...(orders.length === 0
      ? []
      : [
          `${orders.length} order${orders.length === 1 ? '' : 's'}, ${money(spend, currency)} in all${priceless}; the first by ${daySays(orders[0]!.day)}.`,
        ]),
    ...(resting.length === 0 ? [] : [`No feed while they rest: ${listed(resting.map(({ name }) => name))}.`]),
  ].join(' ');
}

/** Which jar is empty first, or that none is. */
function firstOutSays({ products, orders, notes }: SeasonResult): string {
  const [first] = products.filter(({ runsOut }) => runsOut !== null).sort((a, b) => a.runsOut!.week - b.runsOut!.week);
  if (first !== undefined)
    return `First to run out: ${first.name === '' ? first.id : first.name}, in ${runsOutSays(first)}.`;
  if (products.every(({ onHand }) => onHand === null))
    return 'No jar says what is on hand, so no end is told: column on_hand of the shelf does.';
  if (notes.some(({ kind }) => kind === 'stock unknown')) return 'Nothing whose stock is known runs out.';
  return orders.length > 0
    ? 'With what is bought first, everything lasts the year.'
    : 'What is on hand lasts the year.';
}

/** `week 9 (26 Jan 2027)`; empty where it lasts. */
export const runsOutSays = ({ runsOut }: Pick<ProductYear, 'runsOut'>): string =>
  runsOut === null ? '' : `week ${runsOut.week} (${daySays(runsOut.day)})`;

/** How long it lasts: a week, `lasts`, or where nobody knows what is left, how long a pack does. */
export function lastsSays({ runsOut, onHand, pack, used }: ProductYear, weeks: number): string {
  if (runsOut !== null) return runsOutSays({ runsOut });
  if (onHand !== null) return 'lasts';
  const lasting = pack === null || !(used > 0) ? null : (pack * weeks) / used;
  if (lasting === null) return 'not known';
  return lasting >= 2 * weeks ? `a pack: ${figure(lasting / weeks)} years` : `a pack: ${figure(lasting)} weeks`;
}

/** `growth`, `no feed`; what a feed is in these weeks. */
export function phaseSays({ state }: FeedSpan): string {
  switch (state.kind) {
    case 'fed':
      return state.phase;
    case 'rest':
      return 'no feed: plain water';
    case 'other':
      return `see ${listed(state.feeds)}`;
    case 'none':
      return state.why === 'asked' ? 'no feed, as asked' : 'no doses';
    default:
      return state satisfies never;
  }
}

/** `moss, growth, 80 %, 4 L: 1 level 1/4 US tsp sample-base, 0.62 g potassium-nitrate`. */
export function mixSays({ feeds, batchLitres, items }: SeasonMix): string {
  const of = feeds
    .map(({ name, phase, strength, parts }) =>
      parts.water === 0
        ? `${name}, ${phase}, ${strength}`
        : `${name}, ${phase}, ${strength} (${parts.mix} part${parts.mix === 1 ? '' : 's'} with ${parts.water} of water)`,
    )
    .join('; ');
  return `${of}; for ${volumeText(batchLitres)}: ${doseSays({ items })}.`;
}

/** `moss, growth, 80 %: About 93 of 100 cans keep every limit.` */
export const mixSureSays = ({ feeds, sure }: SeasonMix): string =>
  `${feeds.map(({ name, phase, strength }) => `${name}, ${phase}, ${strength}`).join('; ')}: ${cansSay(sure)} keep every limit.`;

export const doseSays = ({ items }: Pick<SeasonMix, 'items'>): string =>
  items.length === 0
    ? 'water alone'
    : items.map(({ id, inBatch, isByPen }) => (isByPen ? `${id} in ${inBatch}` : `${inBatch} ${id}`)).join(', ');

/** `2 packs of 500 g`. */
export const packsSay = ({ packs, pack, unit }: Pick<SeasonOrder, 'packs' | 'pack' | 'unit'>): string =>
  `${packs} pack${packs === 1 ? '' : 's'} of ${bulkSays(pack, unit)}`;

/** `0.6 L a pot, 24 L in all`; what is not known is told in pots. */
export function flushSays({ potVolumes, litresPerPot, litres }: FlushPlan): string {
  if (potVolumes === null) return 'one watering with plain water instead';
  const times = potVolumes === 2 ? 'twice' : `${figure(potVolumes)} times`;
  if (litresPerPot === null) return `${times} what the empty pot holds`;
  return `${volumeText(litresPerPot)} a pot${litres === null ? '' : `, ${volumeText(litres)} in all`}`;
}

/** Why one flushes so, and how well that is supported. */
export const supportSays = ({ support }: Pick<FlushPlan, 'support'>): string =>
  [support.source, support.notes, support.evidence].filter((part) => part !== '').join('; ');

/** What a season should be known with. */
export function seasonNoteSays(note: SeasonNote): string {
  switch (note.kind) {
    case 'no purchase':
      return atDoor({
        typed: 'Nothing was found to buy that serves every feed of the year: `velamen buy` says why. Planned without.',
        page: 'Nothing was found to buy that serves every feed of the year: Buy says why. Planned without.',
      });
    case 'hemisphere assumed':
      return atDoor({
        typed:
          'Months of rest are those of the north, because nobody said otherwise: --hemisphere south, or season: in bench.yaml.',
        page: 'Months of rest are those of the north, because nobody said otherwise: choose your half of the world above, or in Plants.',
      });
    case 'stock unknown':
      return `On hand is not known, so no end is told: ${listed(note.products)}.`;
    case 'no pack':
      return atDoor({
        typed: `Runs out and no pack is known to order: ${listed(note.products)}. \`velamen buy --instead-of ${note.products[0]}\` looks for what could stand in.`,
        page: `Runs out and no pack is known to order: ${listed(note.products)}. Write its pack beside the jar on the shelf.`,
      });
    case 'no price':
      return `Without a price, counted as nothing: ${listed(note.products)}.`;
    case 'no doses':
      return atDoor({
        typed: `No doses for ${listed(note.feeds)} in some months: \`velamen blend --feed "${note.feeds[0]}"\` says why, \`velamen buy\` what would do.`,
        page: `No doses for ${listed(note.feeds)} in some months: Feed says why, Buy what would do.`,
      });
    case 'missed':
      return atDoor({
        typed: `The nearest doses for ${listed(note.feeds)} miss a limit in some months: \`velamen blend --feed "${note.feeds[0]}"\` says which, \`velamen buy\` what would do.`,
        page: `The nearest doses for ${listed(note.feeds)} miss a limit in some months: Feed says which, Buy what would do.`,
      });
    case 'watered once a week':
      return `One watering with feed a week is assumed for ${listed(note.feeds)}: say weekly in bench.yaml.`;
    case 'weaker phase':
      return `${listed(note.feeds.map((feed) => `${feed.name}: ${strengthSays(feed)}`))}.`;
    case 'cool ammonium':
      return `Below 15 °C media turn ammonium into nitrate slowly, and it can build up: ${listed(note.feeds.map(({ name, share }) => `${name} (${percent(share)} of its nitrogen is ammonium or urea)`))}; in ${listed(note.months.map((month) => MONTH_NAMES[month - 1]!))}.`;
    default:
      return note satisfies never;
  }
}

/** How a powder is kept, in cells of a table: what it draws water at, and whether it feeds fire. */
export function storageSays({ draws, oxidiser, form }: Storage): string[] {
  const water =
    form === 'liquid'
      ? 'a liquid'
      : draws === null
        ? 'not known'
        : `about ${figure(draws.humidity)} % (${draws.isBlend ? 'blends in general' : draws.by})`;
  const fire =
    oxidiser === null ? '' : `${oxidiser.may ? 'perhaps, by its salts' : 'yes'} (${oxidiser.codes.join(', ')})`;
  return [water, fire];
}

/** An example of a jar that has drawn water, g. */
const [DRY, DAMP] = [500, 520];

/** What holds for every jar. */
export const KEEPING: readonly string[] = [
  'Closed, dry, cool, out of the sun and of the reach of children and animals, each in its own jar with its name, the figures of its label and the day it was opened (common practice, no source).',
  'What feeds fire stands apart from paper, sawdust, sulfur, fuel and oil, and is never swept up with them.',
  'A powder draws water where the air is damper than its figure; the figures hold at 30 °C and fall as it gets warmer, and impurities lower them.',
  `Write the weight of the closed jar on it, less the jar. What it weighs more the next time, with nothing taken out, is water: of a powder that weighed ${DRY} g and weighs ${DAMP} g, weigh ${figure(dampGrams(1, DRY, DAMP))} g for each gram; or write ${figure(100 / dampGrams(1, DRY, DAMP))} % in column purity of a pure salt, and every dose follows. Spoons tell nothing of a damp powder.`,
  'How long an opened jar keeps no source that was read tells. Lumps, a wet film or a changed colour: weigh it anew, or do without.',
];
