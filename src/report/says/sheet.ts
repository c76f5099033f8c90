import { atDoor } from '../../door.js';
import type { DropNote, LeftOut, MixingSheet, NoSheet, SheetStep } from '../../sheet/sheet-types.js';
import type { Unseen } from '../../sheet/unseen.js';
import { formatNumber } from '../../units/format.js';
import { surenessLines } from './sureness.js';
import { doseNoteSays } from './doses.js';
import { grams } from './measures.js';
import { blendNoteSays } from './blend.js';

/** `Rain water`, or `Rain water 60 %, tap water 40 %`; less than half a percent is not worth a name. */
export function waterNames({ parts }: MixingSheet['water']): string {
  const told = parts.filter(({ share }) => share >= 0.005);
  if (told.length === 1) return told[0]!.name;
  return told.map(({ name, share }) => `${name} ${Math.round(100 * share)} %`).join(', ');
}

/** `the blend wants 0.196 g: 2 % more` */
export function effectSays({ wanted, measures }: Pick<SheetStep, 'wanted' | 'measures'>): string {
  const { amount, unit } = measures[0];
  const off = amount / wanted - 1;
  const by =
    Math.abs(off) < 0.0005 ? 'exact' : `${formatNumber(Math.abs(100 * off), 2)} % ${off > 0 ? 'more' : 'less'}`;
  return `the blend wants ${unit === 'g' ? grams(wanted) : `${formatNumber(wanted, 3)} mL`}: ${by}`;
}

/** What the pen cannot see. */
export function unseenSays(unseen: Unseen): string {
  switch (unseen.kind) {
    case 'salt':
      return 'Which salt it is: a pen counts all ions together.';
    case 'urea':
      return `Urea, which carries no charge: ${formatNumber(unseen.mgPerLitre, 2)} of the ${formatNumber(unseen.nitrogen, 3)} mg/L of nitrogen here.`;
    case 'organic matter':
      return 'Organic matter (kelp, fish, humic matter) and its nitrogen.';
    case 'items':
      return `${unseen.products.join(', ')}: forgotten or taken twice, the reading stays within its tolerance. Tick it off as it goes in.`;
    case 'traces':
      return 'Iron, boron and the other traces: far too little of them to show.';
    default:
      return unseen satisfies never;
  }
}

/** The items that it cannot see, in one line beside the last reading; null where there are none. */
export function tickOffSays(unseen: readonly Unseen[]): string | null {
  const names = unseen.flatMap((one) => (one.kind === 'items' ? one.products : []));
  if (names.length === 0) return null;
  return names.length === 1
    ? `The pen will not notice this: ${names[0]}. Tick it off as it goes in.`
    : `The pen will not notice these: ${names.join(', ')}. Tick them off as they go in.`;
}

/** Notes on the doses, on counting drops and on the blend, in this order. */
export const notesSay = ({
  notes: { doses, drops, blend, undeclared },
  feed,
}: Pick<MixingSheet, 'notes' | 'feed'>): string[] => [
  ...undeclaredSays(undeclared),
  ...doses.map(doseNoteSays),
  ...(drops === null ? [] : [dropNoteSays(drops)]),
  ...blend.map((note) => blendNoteSays(note, feed.currency)),
];

/** One line, whatever the number of products. */
export const undeclaredSays = (names: readonly string[]): string[] =>
  names.length === 0
    ? []
    : [
        `The readings are wide because ${names.length === 1 ? `the label of ${names[0]} names` : `the labels of ${names.join(', ')} name`} no salts: put what stands after "derived from" on the jar under derived_from in the shelf.`,
      ];

/** A drop hangs on the liquid as well as on the dropper. */
const dropNoteSays = ({ products, perMillilitre }: DropNote): string =>
  `${products.join(', ')}: ${perMillilitre} drops are taken as 1 mL, as the kit says. Count the drops of this liquid that fill 1 mL, and write that under dropper.`;

/** How sure the doses are; of doses that violate a limit by design there is nothing to be sure of. */
export function surenessSays(sheet: MixingSheet): string[] {
  const { sure, sureness, elements } = sheet;
  const violates = sheet.status !== 'kept' && sheet.violations.length > 0;
  return sureness === null || violates ? [] : surenessLines(sureness, elements, sure);
}

/** Items of the blend that are not measured out. */
export const leftOutSays = ({ name, id }: LeftOut): string =>
  `${name || id}: left out; the blend wants less of it than your tools measure.`;

/** Where it is told why a shelf has no right feed. */
export const WHY = atDoor({
  typed: '`velamen blend` says why, and what would help.',
  page: 'Feed says why, and what would help.',
});

/** Why there is no sheet. */
export function noSheetSays({ why }: NoSheet): string {
  switch (why.kind) {
    case 'no feed':
      return `NOTHING TO MIX: no feed from this shelf keeps every limit, and the nearest to it is the bare water. ${WHY}`;
    case 'no nearest':
      return `NOTHING TO MIX: no feed from this shelf keeps every limit, and none nearest to it was found. ${WHY}`;
    case 'not proved':
      return 'NOTHING TO MIX: no engine’s answer passed its check.';
    case 'water alone':
      return 'NOTHING TO MIX: the water by itself keeps every limit.';
    case 'too little to measure':
      return 'NOTHING TO MIX: your tools can measure no item of this batch.';
    default:
      return why satisfies never;
  }
}
