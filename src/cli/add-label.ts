import { labelsOf } from '../desk/labels.js';
import { labelOnShelf } from '../desk/start/add-label.js';
import { changeText, isThere } from '../files/index.js';
import { type Problem, problem, Refusal } from '../problem.js';
import { labelsJson } from '../report/json/labels.js';
import { labelsSheet } from '../report/labels.js';
import { benchTexts, shelfPath } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';
import { textOf } from './text-of.js';

/** `labels --add`: the label goes on the shelf as one more row, all else in the file as it was; then it is shown as any other. */
export async function addLabel(given: Given, add: string, already: readonly Problem[], io: Io): Promise<Outcome> {
  const path = shelfPath(given.words);
  const there = isThere(path, io.cwd);
  const files = benchTexts(given, io, [...already, ...(there ? [] : [noShelf(path)])]);
  if ((files.problems ?? []).length > 0) throw new Refusal(files.problems!);
  const text = textOf(add, io);
  let made: ReturnType<typeof labelOnShelf> | undefined;
  const change = (shelf: string): string => {
    made = labelOnShelf({ name: path, text: shelf }, text);
    return made.text;
  };
  changeText(path, change, io.cwd);
  const { text: now, label, doubts } = made!;
  const { result, warnings } = await labelsOf({ ...files, shelf: { name: path, text: now } }, { products: [label.id] });
  const { id, understood } = label;
  const leftOver = [...label.leftOver, ...label.assumed.flatMap((one) => (one.of === 'pack' ? one.leftOut : []))];
  const told = { ...result, printed: { understood, leftOver }, added: { id, file: path } };
  return { exit: 0, forms: ofSheets(labelsJson(told), [labelsSheet(told)]), warnings: [...doubts, ...warnings] };
}

const noShelf = (path: string): Problem =>
  problem(
    'no-shelf',
    { file: path },
    'no shelf.csv',
    'a shelf to add to',
    '`velamen start` makes one; --bench or --shelf names another.',
  );
