import type { Brings, CloudingLine, Mineral, Pair } from '../../can/clouding.js';

/** `gypsum, from cal with base: will cloud.`, with the mineral as a grower would say it. */
export function cloudingSays(line: CloudingLine): string {
  const mineral = mineralName(line.mineral);
  if (line.verdict === 'clear') return `${mineral}: stays clear.`;
  const who = line.between === null ? '' : `, from ${pairNames(line.between)}`;
  if (line.by === 'label')
    return `${mineral}${who}: clear by what is stated, but what the labels leave open could cloud it.`;
  const when = line.by === 'standing' ? ' after standing open to the air' : '';
  return line.verdict === 'borderline'
    ? `${mineral}${who}: borderline${when}; use it the same day.`
    : `${mineral}${who}: will cloud${when}.`;
}

/** `cal with base`, or the one that brings both. */
export const pairNames = ([a, b]: Pair): string => (a.id === b.id ? nameOf(a) : `${nameOf(a)} with ${nameOf(b)}`);

const nameOf = ({ kind, name }: Brings): string =>
  kind === 'product' ? name : name === '' ? 'the water' : `the water (${name})`;

const SPELLED: Readonly<Record<Mineral, string>> = {
  gypsum: 'calcium sulfate (gypsum)',
  brushite: 'calcium phosphate (brushite)',
  calcite: 'lime (calcite)',
  struvite: 'magnesium ammonium phosphate (struvite)',
};

/** The mineral as a grower would say it. */
export const mineralName = (mineral: Mineral): string => SPELLED[mineral];
