import type { Clouding } from '../can/clouding.js';
import { cloudingSays } from '../can/clouding-words.js';
import { formatNumber } from '../units/format.js';
import { EXACT_UP_TO } from './assign.js';
import type { ConcentrateRequest } from './concentrate-request.js';
import type { ApartItem, ConcentrateResult, LargestLine, TankSheet } from './concentrate-result.js';
import { ceilingByConvention, type StockItem } from './tank.js';
import { isOrganic, ml } from './tank-sheet.js';

/** How the stocks become feed. */
export function useOf(tanks: readonly TankSheet[], apart: readonly ApartItem[], request: ConcentrateRequest): string[] {
  const dose = 1000 / request.ratio;
  const batch = request.feed?.batchLitres ?? null;
  const forCan = batch === null ? '' : ` (${ml(dose * batch)} for ${formatNumber(batch, 3)} L)`;
  const [first, second] = tanks;
  return [
    'Fill the can with the water first; never pour a stock into an empty can.',
    ...apart.map((item) => `Before the stocks: ${perLitre(item)} of ${item.name} in each litre; stir well.`),
    second
      ? `${ml(dose)} of stock ${first!.name} in each litre${forCan}; stir well.`
      : `${ml(dose)} of the stock in each litre${forCan}; stir well.`,
    ...(second
      ? [
          `Then ${ml(dose)} of stock ${second.name} in each litre${forCan}; stir well.`,
          `Never mix ${first!.name} and ${second.name} undiluted, and rinse the measure between them.`,
        ]
      : []),
  ];
}

/** How long a jug lasts. */
export function lastsOf({ jugMillilitres, ratio, feed, weeklyLitres }: ConcentrateRequest): ConcentrateResult['lasts'] {
  const feedLitres = (jugMillilitres * ratio) / 1000;
  const batch = feed?.batchLitres ?? null;
  return {
    feedLitres,
    batches: batch === null ? null : feedLitres / batch,
    weeks: weeklyLitres === null || weeklyLitres <= 0 ? null : feedLitres / weeklyLitres,
  };
}

/** Storage, and whether a jug is used up before it is too old. Common practice, no source. */
export function keepingOf(
  tanks: readonly TankSheet[],
  lasts: ConcentrateResult['lasts'],
  { jugMillilitres, coldestCelsius }: ConcentrateRequest,
): string[] {
  const keeps = Math.min(...tanks.map((tank) => tank.keepsWeeks));
  const weeks = lasts?.weeks ?? null;
  const lines = [
    `Dark, cool and free of frost, never below ${formatNumber(coldestCelsius, 3)} °C: colder, salts crystallise and need warmth and stirring to dissolve again.`,
    'In a closed, opaque bottle that never held food or drink; light breaks down iron chelates.',
    `Keeps about ${keeps} weeks (common practice, no source). Throw it away when it turns cloudy, slimy or smells; never on soil near water.`,
  ];
  if (weeks !== null && weeks > keeps) {
    lines.push(
      `A jug lasts ${formatNumber(weeks, 2)} weeks, longer than it keeps: make ${ml(roundDown((jugMillilitres * keeps) / weeks))} at a time.`,
    );
  }
  return lines;
}

export const JAR_TEST: readonly string[] = [
  'First a tenth of the jug, in a clear jar with a lid, by the same steps.',
  'Leave it closed for a day at its coldest place: no cloud, no crystals, nothing on the bottom.',
  'Then the dose in a litre of your own water: clear after a day.',
];

/** What the reader should know about this very answer. */
export function notesOf(told: {
  request: ConcentrateRequest;
  exact: boolean;
  stocked: readonly StockItem[];
  can: Clouding | null;
  largest: readonly LargestLine[];
  made: boolean;
}): string[] {
  const { request, exact, stocked, can, largest, made } = told;
  const notes = [
    ...(request.remark === null ? [] : [request.remark]),
    `1:${formatNumber(request.ratio, 4)} means ${ml(1000 / request.ratio)} of each stock in a litre of finished feed.`,
  ];
  if (!exact)
    notes.push(
      `More than ${EXACT_UP_TO} items that matter: the ${EXACT_UP_TO} heaviest were tried in every way, the rest follow the rule (calcium apart).`,
    );
  const guessed = stocked.filter(({ product }) => product.form === 'powder' && isGuessed(product));
  if (guessed.length > 0)
    notes.push(
      `The make-up of ${names(guessed)} is not known: at most 100 g in a litre of stock was allowed; the jar test decides.`,
    );
  const liquids = stocked.filter(({ product }) => product.form === 'liquid');
  if (liquids.length > 0)
    notes.push(
      `${names(liquids)}: liquids are diluted in the stock; what keeps them clear in their own bottle may be missing here, so do the jar test.`,
    );
  const organic = stocked.filter(({ product }) => isOrganic(product));
  if (organic.length > 0)
    notes.push(`${names(organic)}: organic matter spoils a stock within two weeks; better dosed by itself.`);
  const open = stocked.filter(({ brings }) => brings.most);
  if (open.length > 0)
    notes.push(
      `${names(open)}: the label leaves sulfate or alkalinity open; the bottles are judged by the most it may hold.`,
    );
  notes.push(...shortOf(request), ...smallOf(request));
  if (can && can.verdict !== 'clear')
    notes.push(
      `The finished can itself: ${can.minerals
        .filter((m) => m.verdict !== 'clear')
        .map(cloudingSays)
        .join(' ')}`,
    );
  if (made)
    notes.push(
      'The bottles stay clear at the pH they have by themselves: add nothing alkaline to them (hard water, silicate).',
    );
  if (largest.some((line) => line.limitedBy.some((why) => why.includes('phosphate (brushite)'))))
    notes.push(
      'pH decides how much phosphate stands beside calcium: the more acid, the more. Acidifying a stock is for trained hands, by the label of the acid; no recipe for it here.',
    );
  return notes;
}

/** Stock on hand against one jug. */
function shortOf({ items, ratio, jugMillilitres }: ConcentrateRequest): string[] {
  return items.flatMap(({ product, perLitre }) => {
    const needed = (perLitre * ratio * jugMillilitres) / 1000;
    if (product.onHand === undefined || product.onHand >= needed) return [];
    const unit = product.form === 'powder' ? 'g' : 'mL';
    return [
      `A jug takes ${formatNumber(needed, 3)} ${unit} of ${product.name}; there are ${formatNumber(product.onHand, 3)} ${unit} on hand.`,
    ];
  });
}

/** Ten steps of a scale are 10 %; less is no weighing. */
function smallOf({ items, ratio, jugMillilitres, scaleStepGrams }: ConcentrateRequest): string[] {
  if (scaleStepGrams === null) return [];
  const small = items.filter(({ product, perLitre }) => {
    const grams = (perLitre * ratio * jugMillilitres) / 1000;
    return product.form === 'powder' && grams > 0 && grams < 10 * scaleStepGrams;
  });
  if (small.length === 0) return [];
  const what = small.map(({ product }) => product.name).join(', ');
  return [
    `${what}: less in a jug than a scale with steps of ${formatNumber(scaleStepGrams, 3)} g weighs well; make a larger jug.`,
  ];
}

const isGuessed = (product: StockItem['product']): boolean => !ceilingByConvention(product).known;
const names = (items: readonly StockItem[]): string => items.map(({ product }) => product.name).join(', ');

const perLitre = (item: ApartItem): string =>
  item.gramsPerLitre === undefined ? ml(item.millilitresPerLitre ?? 0) : `${formatNumber(item.gramsPerLitre, 3)} g`;

/** To 50 mL, or 10 mL where that is much. */
function roundDown(millilitres: number): number {
  const step = millilitres >= 100 ? 50 : 10;
  return Math.max(step, Math.floor(millilitres / step) * step);
}
