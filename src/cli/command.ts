import type { Problem } from '../problem.js';
import type { Sheet } from '../report/sheet.js';
import type { Io } from './io.js';

/** One command: its own help and its own work. */
export interface Command {
  name: string;
  /** One line for the list of commands. */
  summary: string;
  /** Whole command lines that work as they stand, the plainest first. */
  examples: { line: string; says: string }[];
  /** What to know besides the options; short paragraphs. */
  about: string[];
  /** What may stand without a dash, if anything. */
  operands?: { name: string; says: string; most: number };
  options: Record<string, OptionSpec>;
  /** False where the command has one form of its own and takes no --json, --csv or --html. */
  formats?: false;
  run: (given: Given, io: Io) => Promise<Outcome>;
}

/** An option takes a value when it names one; otherwise it is a switch. */
export interface OptionSpec {
  value?: string;
  says: string;
  repeatable?: boolean;
}

/** The command line, read and checked against the command's options. */
export interface Given {
  /** The value of an option, undefined where not given. */
  text: (name: string) => string | undefined;
  /** Every value of a repeatable option. */
  texts: (name: string) => string[];
  flag: (name: string) => boolean;
  /** Whether the command has an option of that name at all. */
  takes: (name: string) => boolean;
  /** Names of the options that were given. */
  named: () => string[];
  operands: string[];
}

/** What a command found: sheets with the object for --json, or finished text. Exit 3: it cannot be met, and the result says why. */
export type Outcome = { exit: 0 | 3; warnings: readonly Problem[] } & (
  | { json: object; sheets: Sheet[] }
  | { text: string }
);

/** The forms a result can take besides text. */
export const FORMAT_OPTIONS: Record<string, OptionSpec> = {
  json: { says: 'one JSON object instead of text (shape: velamen schema COMMAND)' },
  csv: { says: 'the tables as CSV instead of text' },
  html: { says: 'a page for the browser or the printer instead of text' },
};
