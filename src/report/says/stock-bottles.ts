import type { ApartItem, StocksMade, TankItem, TankSheet } from '../../stock/concentrate-result.js';
import { FEW_FILLS, fillsOf } from '../../stock/usual-ratio.js';
import { formatNumber } from '../../units/format.js';
import { atToolPrecision } from '../at-tool.js';
import { volumeText } from '../volume.js';
import { dilutionHazardsSay } from './cautions.js';
import { grams, ml } from './measures.js';
import { fillingSays } from './stock-limits.js';

/** How one bottle is made, step by step. */
export function tankSteps({ items }: TankSheet, { jugMillilitres, fill, scaleStepGrams }: StocksMade): string[] {
  return [
    `Fill the jug to three quarters with ${ml(0.75 * jugMillilitres)} of hand-warm water (30 to 40 °C): ${fillingSays(fill)}.`,
    ...items.map((item, i) => {
      const what = `${perJugSays(item, scaleStepGrams)} of ${item.name}`;
      const verb = item.gramsPerJug === undefined ? 'Pour in' : 'Stir in';
      return i < items.length - 1
        ? `${verb} ${what}; wait until it is wholly clear before the next.`
        : `${verb} ${what}; stir until it is wholly clear.`;
    }),
    `Let it cool, then fill up to ${ml(jugMillilitres)}.`,
    'Where it stays cloudy, or crystals show after a night at its coldest place, it is too strong: add water and a larger dose.',
  ];
}

/** What stands on the bottle. */
export function tankLabel({ name, items, hazards, keepsWeeks, calcium }: TankSheet, made: StocksMade): string[] {
  const feed = made.feed?.name ?? 'feed';
  const other = name === 'A' ? 'B' : 'A';
  const dose = `${doseSays(made)} in each litre of water`;
  const ratio = `1:${formatNumber(made.ratio, 4)}`;
  return [
    name === 'stock' ? `${feed}: STOCK SOLUTION ${ratio}` : `${feed}: STOCK ${name} ${ratio}`,
    `In ${ml(made.jugMillilitres)}: ${items.map((item) => `${perJugSays(item, made.scaleStepGrams)} ${item.name}`).join(', ')}.`,
    name === 'stock'
      ? `Dose: ${dose}.`
      : name === 'A'
        ? `Dose: ${dose}, stir, then as much of ${other}.`
        : `Dose: ${dose}, after ${other} has been stirred in.`,
    ...(name === 'stock'
      ? []
      : [`NEVER undiluted together with ${other}${calcium ? ' (calcium falls out with sulfate and phosphate)' : ''}.`]),
    `Made on: ____________   Use within ${keepsWeeks} weeks.`,
    dilutionHazardsSay(hazards),
    'PLANT FEED, CONCENTRATED. NOT FOR DRINKING. Keep from children and pets. Splash in the eyes: rinse long with water, see a doctor.',
  ];
}

/** `10 mL`, or for feeds that share a mix `10 mL (moss) or 5 mL (winter)`. */
const doseSays = ({ ratio, shares }: Pick<StocksMade, 'ratio' | 'shares'>): string =>
  shares === undefined
    ? ml(1000 / ratio)
    : shares.map(({ feed, parts }) => `${ml((1000 * parts.share) / ratio)} (${feed})`).join(' or ');

/** How the stocks become feed. */
export function useSays({ tanks, apart, ratio, feed, shares, syringeMillilitres }: StocksMade): string[] {
  const dose = doseSays({ ratio, ...(shares === undefined ? {} : { shares }) });
  const batch = shares === undefined ? (feed?.batchLitres ?? null) : null;
  const perCan = batch === null ? 0 : (1000 / ratio) * batch;
  const fills = batch === null || syringeMillilitres === null ? 0 : fillsOf(batch, ratio, syringeMillilitres);
  const counted = fills > 1 && fills <= FEW_FILLS ? `, ${fills} fills of the ${ml(syringeMillilitres!)} syringe` : '';
  const forCan = batch === null ? '' : ` (${ml(perCan)} for ${volumeText(batch)}${counted})`;
  const [first, second] = tanks;
  return [
    ...(fills > FEW_FILLS
      ? [
          `A larger measure first: ${ml(perCan)} a can would be ${fills} fills of the ${ml(syringeMillilitres!)} syringe. A measuring cup or cylinder of ${ml(cupFor(perCan))} takes it in one or two goes.`,
        ]
      : []),
    'Fill the can with the water first; never pour a stock into an empty can.',
    ...apart.map(
      (item) => `Before the stocks: ${perLitre(item)} of ${item.name} in each litre${weaker(shares)}; stir well.`,
    ),
    second
      ? `${dose} of stock ${first!.name} in each litre${forCan}; stir well.`
      : `${dose} of the stock in each litre${forCan}; stir well.`,
    ...(second
      ? [
          `Then ${dose} of stock ${second.name} in each litre${forCan}; stir well.`,
          `Never mix ${first!.name} and ${second.name} undiluted, and rinse the measure between them.`,
        ]
      : []),
  ];
}

/** mL of measures that are sold; common practice, no source. */
const CUPS = [25, 50, 100, 250, 500];
const cupFor = (perCan: number): number => CUPS.find((cup) => 2 * cup >= perCan) ?? 1000;

/** What goes in by itself is for a litre of the mix, so less of it into a feed that is weaker. */
function weaker(shares: StocksMade['shares']): string {
  const less = shares?.filter(({ parts }) => parts.share < 1) ?? [];
  if (less.length === 0) return '';
  return ` of the strongest (${less.map(({ feed, parts }) => `${formatNumber(100 * parts.share, 3)} % of it for ${feed}`).join(', ')})`;
}

/** Storage, and whether a jug is used up before it is too old. Common practice, no source. */
export function keepingSays({ tanks, lasts, jugMillilitres, coldestCelsius }: StocksMade): string[] {
  const keeps = Math.min(...tanks.map((tank) => tank.keepsWeeks));
  const { weeks } = lasts;
  const lines = [
    `Dark, cool and free of frost, never below ${formatNumber(coldestCelsius, 3)} °C: colder, salts crystallise and need warmth and stirring to dissolve again.`,
    'In a closed, opaque bottle that never held food or drink; light breaks down iron chelates.',
    `Keeps about ${keeps} weeks (common practice, no source). Throw it away when it turns cloudy, slimy or smells; never on soil near water.`,
  ];
  if (weeks === null || weeks <= keeps) return lines;
  const smaller = ml(roundDown((jugMillilitres * keeps) / weeks));
  return [...lines, `A jug lasts ${formatNumber(weeks, 2)} weeks, longer than it keeps: make ${smaller} at a time.`];
}

export const JAR_TEST: readonly string[] = [
  'First a tenth of the jug, in a clear jar with a lid, by the same steps.',
  'Leave it closed for a day at its coldest place: no cloud, no crystals, nothing on the bottom.',
  'Then the dose in a litre of your own water: clear after a day.',
];

/** `12.4 g`, at the step of the scale where it is known. */
export function perJugSays(
  { gramsPerJug, millilitresPerJug = 0 }: Pick<TankItem, 'gramsPerJug' | 'millilitresPerJug'>,
  scaleStepGrams: number | null,
): string {
  if (gramsPerJug === undefined) return ml(millilitresPerJug);
  return scaleStepGrams === null ? grams(gramsPerJug) : atToolPrecision(gramsPerJug, 'g', scaleStepGrams);
}

const perLitre = ({ gramsPerLitre, millilitresPerLitre = 0 }: ApartItem): string =>
  gramsPerLitre === undefined ? ml(millilitresPerLitre) : `${formatNumber(gramsPerLitre, 3)} g`;

/** To 50 mL, or 10 mL where that is much. */
function roundDown(millilitres: number): number {
  const step = millilitres >= 100 ? 50 : 10;
  return Math.max(step, Math.floor(millilitres / step) * step);
}
