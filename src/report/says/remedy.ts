import type { Added, Because, Cause, Doing, PlannedBatch, RemedyProof } from '../../meter/index.js';
import { formatDigits, formatNumber } from '../../units/index.js';
import { causeNames } from './cause.js';
import { limitSays } from './limits.js';

/** What hands do, in order: pour off, top up, add, stir. */
export function stepLines(doing: Doing): string[] {
  const { pourLitres, keepShare, waterLitres, waters, nameWaters, add, finalLitres } = doing;
  const water = waters.map(({ name, litres }) => `${figure(litres)} L of ${nameWaters ? name : 'water'}`).join(' and ');
  return [
    ...(keepShare < 1
      ? [
          `Pour off ${figure(pourLitres)} L (${figure(100 * (1 - keepShare))} % of the can): onto the ground or into the drain as local rules allow.`,
        ]
      : []),
    ...(waterLitres > 0 ? [`Add ${water}, to about ${figure(finalLitres)} L.`] : []),
    ...add.map((item) => `Add ${measureSays(item)} ${item.name}; stir until it is clear.`),
    'Stir, wait a minute and read again.',
  ];
}

/** The same in as few lines as hands need, without the last stir: all doses in one. */
export function stepsInBrief(doing: Doing): string[] {
  return doingClauses(doing).map((clause) => `${clause.charAt(0).toUpperCase()}${clause.slice(1)}.`);
}

/** What hands do, as clauses. */
export function doingClauses({
  pourLitres,
  keepShare,
  waterLitres,
  waters,
  nameWaters,
  add,
  finalLitres,
}: Doing): string[] {
  const water = waters.map(({ name, litres }) => `${figure(litres)} L of ${nameWaters ? name : 'water'}`).join(' and ');
  return [
    ...(keepShare < 1
      ? [`pour off ${figure(pourLitres)} L, onto the ground or into the drain as local rules allow`]
      : []),
    ...(waterLitres > 0 ? [`add ${water}, to about ${figure(finalLitres)} L`] : []),
    ...(add.length > 0
      ? [`add ${add.map((item) => `${measureSays(item)} ${item.name}`).join(' and ')}, stirring until it is clear`]
      : []),
  ];
}

/** `2 level 1/4 tsp`, or plain grams or millilitres with what has to be borrowed for them. */
export function measureSays({ amount, unit, by }: Added): string {
  if (by.kind === 'measure') return by.words;
  const borrow = by.borrow === null ? '' : ` (your kit has nothing for it: borrow a ${by.borrow})`;
  return `${formatNumber(amount, 6)} ${unit}${borrow}`;
}

/** Why this remedy, and what it rests on. */
export function becauseSays(because: Because, causes: readonly Cause[], batch: PlannedBatch): string {
  const named = (keys: readonly string[]): string => causeNames(keys, causes, batch).join('; ');
  switch (because.kind) {
    case 'other volume':
      return `The doses were for ${figure(because.plannedLitres)} L, and ${figure(because.litres)} L were measured.`;
    case 'thins out':
      return 'It thins out what is too much and makes up the others, so that the proportions come right.';
    case 'right under':
      return `It is right under each of these: ${named(because.causes)}.`;
    case 'good under':
      return `The can is good under each of these: ${named(because.causes)}.`;
    case 'not right under':
      return `It would not be right if it was this instead: ${named(because.causes)}.`;
    case 'plan violates':
      return `The plan itself does not keep these, so they count as kept where they are no further off than it leaves them: ${because.limits.map(limitSays).join('; ')}.`;
    default:
      return because satisfies never;
  }
}

/** Without a full stop. */
export const remedyProofSays = ({ bound, found }: RemedyProof): string =>
  `as cautious a remedy wastes no less than ${formatDigits(bound, 3)}, and this program found ${formatDigits(found, 3)} (litres poured off, and water and products in parts of a litre); rounded to your kit, and moved by its steps where that saves more cans`;

const figure = (x: number): string => formatNumber(x, 3);
