import type { Option, Said } from './option.js';
import { parsePaper } from './paper.js';
import { WISH_OPTIONS } from './wishes-table.js';

/** Where texts come from. */
const FILE_OPTIONS = {
  bench: {
    value: 'DIR',
    says: 'the bench: a folder with bench.yaml and shelf.csv',
    usual: 'the current folder',
  },
  shelf: { value: 'FILE', says: 'products on hand', usual: 'shelf.csv of the bench' },
  market: { value: 'FILE', says: 'what is for sale, in the columns of shelf.csv', usual: 'the catalog' },
  against: { value: 'DIR', says: 'another bench, or a shelf file, to set beside this one for the same feed' },
} as const satisfies Record<string, Option>;

/** Which job of a command is meant. */
const JOB_OPTIONS = {
  frontier: {
    says: 'what nearness costs instead: the feeds of `--near` from the nearest share to the cheapest, where they change',
  },
  programmes: { says: 'list the programmes (plants, medium, phase) instead' },
  calibrate: {
    says: 'weigh a spoon with the pen: --product, --spoon, --count, --before, --after, --measured',
  },
} as const satisfies Record<string, Option>;

/** What the answer is written as, and where to. */
const FORM_OPTIONS = {
  jugLabel: { says: 'the label for the jug instead of the sheet' },
  paper: {
    value: 'PAPER',
    says: 'a4, letter or a6, for a page or a PDF',
    usual: 'the printer’s own; a4 for a PDF',
    read: parsePaper,
    choices: ['a4', 'letter', 'a6'],
  },
  full: { says: 'everything, not only the first screen' },
  json: { says: 'one JSON object instead of text (shape: velamen schema COMMAND)' },
  csv: { says: 'the tables as CSV instead of text' },
  html: { says: 'a page for the browser or the printer instead of text' },
  svg: { says: 'a drawing instead of text' },
  to: {
    value: 'FILE',
    says: 'write it into this file as well, in the form of its ending: .txt .json .csv .html, .svg, .pdf or .ics, as the command can',
    repeatable: true,
  },
  open: { says: 'show the page in the browser of this machine, once it is written' },
  replace: { says: 'let --to write over a file that velamen did not write' },
  help: { says: 'this help (-h)' },
} as const satisfies Record<string, Option>;

/** Every option of every command, once. */
export const OPTIONS = { ...FILE_OPTIONS, ...WISH_OPTIONS, ...JOB_OPTIONS, ...FORM_OPTIONS };

/** The word of an option as the program says it: `atMost`. */
export type OptionKey = keyof typeof OPTIONS;

/** What a command line says, each value as it was written. */
export type Words = Said<typeof OPTIONS>;

/** One option by its word, seen as any other. */
export const optionNamed = (key: OptionKey): Option => OPTIONS[key];
