import type { Added, Because, Cause, Doing, PlannedBatch, RemedyProof } from '../../meter/index.js';
import { formatDigits, formatNumber } from '../../units/index.js';
import { gallonOf } from '../../meter/marks.js';
import { causeNames } from './cause.js';
import { limitSays } from './limits.js';

/** What hands do, in order: pour off, add, part, fill up, stir. */
export function stepLines(doing: Doing): string[] {
  return [...stepsInBrief(doing, true), 'Stir, wait a minute and read again.'];
}

/** The same without the last stir; in as few lines as hands need, or a line for each dose. */
export function stepsInBrief(doing: Doing, each = false): string[] {
  return doingClauses(doing, each).map((clause) => `${clause.charAt(0).toUpperCase()}${clause.slice(1)}.`);
}

/** What hands do, as clauses. */
export function doingClauses(doing: Doing, each = false): string[] {
  const { pourTo, pourLitres, jugs, fillTo, waters, nameWaters, add, mark } = doing;
  const measured = add.map((item) => `${measureSays(item)} ${item.name}`);
  const doses = each ? measured : measured.length > 0 ? [measured.join(' and ')] : [];
  const water = nameWaters ? waters.map(({ name }) => name).join(' and ') : 'water';
  const poured =
    pourTo === null
      ? []
      : [
          `pour off about ${jugText(pourLitres, mark)}, down to the ${jugText(pourTo, mark)} mark, onto the ground or into the drain as local rules allow`,
        ];
  const filled =
    fillTo === null
      ? waters.map(({ name, litres }) => `add ${jugText(litres, mark)} of ${nameWaters ? name : 'water'}`)
      : [`fill ${jugs === 2 ? 'both ' : ''}up with ${water} to the ${jugText(fillTo / jugs, mark)} mark`];
  return [
    ...poured,
    ...doses.map((dose) => `add ${dose}, stirring until it is clear`),
    ...(jugs === 2 ? ['pour half into a second jug'] : []),
    ...filled,
  ];
}

/** A volume as the marks of a jug tell it: `4.25 L`, `1 1/4 US gal`; beside a mark, the nearest one. */
export function jugText(litres: number, mark: number): string {
  const gallon = gallonOf(mark);
  const marks = Math.max(1, Math.round(litres / mark));
  if (gallon === undefined) return litresText(formatNumber(marks * mark, 4));
  const [whole, quarters] = [Math.floor(marks / 4), marks % 4];
  const part = ['', '1/4', '1/2', '3/4'][quarters]!;
  return `${[whole > 0 ? `${whole}` : '', part].filter(Boolean).join(' ')} ${gallon.name}`;
}

const litresText = (litres: string): string =>
  Number(litres) < 1 ? `${formatNumber(1000 * Number(litres), 3)} mL` : `${litres} L`;

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
  `the best remedy of the program is one of these: as cautious a one wastes no less than ${formatDigits(bound, 3)}, and it found ${formatDigits(found, 3)} (litres poured off, and water and products in parts of a litre); the one told is that or a simpler one, by marks and measures, that saves about as many`;

const figure = (x: number): string => formatNumber(x, 3);
