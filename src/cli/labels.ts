import { labelsOf } from '../desk/labels.js';
import { type Problem, problem } from '../problem.js';
import { labelsJson } from '../report/json/labels.js';
import { labelsSheet } from '../report/labels.js';
import { benchTexts } from './bench-texts.js';
import type { Command, Given } from './command.js';
import { FEED_OPTIONS } from './feed-options.js';
import { wishesOf } from './wishes.js';

/** What each label means in mg/L, and what is wrong with it. */
export const labelsCommand: Command = {
  name: 'labels',
  summary: 'what each label means in mg/L, and what is wrong with it',
  examples: [
    { line: 'velamen labels --shelf shelf.csv', says: 'every product of a shelf' },
    { line: 'velamen labels --catalog quillmere-balanced', says: 'one product of the catalog' },
  ],
  about: [
    'Every mistake in the file is told with its line (exit code 2). What a label leaves open is shown as a range, by the salts that it names or by every plausible counter-ion. A minimum counts on what is stated alone; a cap allows for the most.',
  ],
  operands: { name: 'ID…', says: 'products to show (default: all)', most: 100 },
  options: {
    bench: FEED_OPTIONS.bench!,
    shelf: FEED_OPTIONS.shelf!,
    catalog: { says: 'the products and salts that come with the program, instead of a shelf' },
  },
  async run(given, io) {
    const files = given.flag('catalog') ? { problems: twoShelves(given) } : benchTexts(given, io);
    const wishes = { ...wishesOf(given), products: given.operands };
    const { result, warnings } = await labelsOf(files, wishes);
    return { exit: 0, json: labelsJson(result), sheets: [labelsSheet(result)], warnings };
  },
};

function twoShelves(given: Given): Problem[] {
  const others = ['bench', 'shelf'].filter((name) => given.text(name) !== undefined);
  return others.map((name) =>
    problem('two-shelves', { field: `--${name}` }, `--catalog and --${name}`, 'one of them', 'Leave the other out.'),
  );
}
