import { labelsJson } from '../report/json/labels.js';
import { labelsOf } from '../desk/labels.js';
import { type Problem, problem } from '../problem.js';
import { labelsSheet } from '../report/labels.js';
import { addLabel } from './add-label.js';
import { benchTexts } from './bench-texts.js';
import { type Command, type Given, OUT } from './command.js';
import { ofSheets } from './forms.js';
import { textOf } from './text-of.js';
import { wishesOf } from './wishes.js';

/** What each label means in mg/L, and what is wrong with it. */
export const labelsCommand: Command = {
  name: 'labels',
  examples: [
    { line: 'velamen labels --shelf shelf.csv', says: 'every product of a shelf' },
    { line: 'velamen labels --catalog sample-balanced', says: 'one product of the catalog' },
    { line: 'velamen labels --add "Epsom salt"', says: 'one product more on the shelf' },
    { line: 'velamen labels --text "Total Nitrogen (N) 12%, Soluble Potash (K2O) 8%"', says: 'a printed label' },
  ],
  about: [
    'Every mistake in the file is told with its line (exit code 2). What a label leaves open is shown as a range, by the salts that it names or by every plausible counter-ion. A minimum counts on what is stated alone; a cap allows for the most.',
  ],
  operands: { name: 'ID…', says: 'products to show (default: all)', most: 100 },
  options: ['bench', 'shelf', 'catalog', 'text', 'add', 'full', ...OUT],
  async run(given, io) {
    const { catalog, text, add } = given.words;
    if (add !== undefined) return addLabel(given, add, twoShelves(given), io);
    const own = catalog || text !== undefined;
    const files = own ? { problems: twoShelves(given) } : benchTexts(given, io);
    const printed = text === undefined ? {} : { text: textOf(text, io) };
    const wishes = { ...wishesOf(given), ...printed, products: given.operands };
    const { result, warnings } = await labelsOf(files, wishes);
    return { exit: 0, forms: ofSheets(labelsJson(result), [labelsSheet(result)]), warnings };
  },
};

function twoShelves({ words }: Given): Problem[] {
  const one = words.add !== undefined ? 'add' : words.text === undefined ? 'catalog' : 'text';
  const rest = {
    add: ['text', 'catalog'] as const,
    text: ['catalog', 'bench', 'shelf'] as const,
    catalog: ['bench', 'shelf'] as const,
  }[one];
  const others = rest.filter((name) => words[name] !== undefined);
  return others.map((name) =>
    problem('two-shelves', { field: `--${name}` }, `--${one} and --${name}`, 'one of them', 'Leave the other out.'),
  );
}
