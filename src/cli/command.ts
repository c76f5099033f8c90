import type { OptionKey, Words } from '../desk/options/table.js';
import type { Problem } from '../problem.js';
import type { Io } from './io.js';
import type { Form, Forms, Outputs } from './forms.js';

/** One command: its own help and its own work. */
export interface Command {
  name: string;
  /** Whole command lines that work as they stand, the plainest first. */
  examples: { line: string; says: string }[];
  /** What to know besides the options; short paragraphs. */
  about: string[];
  /** What may stand without a dash, if anything. */
  operands?: { name: string; says: string; most: number; choices?: readonly string[] };
  /** The options it takes, in the order of its help; what they mean stands in the table. */
  options: readonly OptionKey[];
  /** The forms that its answer has for these words, the first where none is asked for; without it, those of any sheet. */
  forms?: (words: Words, operands: readonly string[]) => readonly Form[];
  run: (given: Given, io: Io) => Promise<Outcome>;
}

/** The command line, read and checked against the command's options. */
export interface Given {
  /** Each option as it was written, in the order given; what was not said is not there. */
  words: Words;
  operands: readonly string[];
  /** What is to be printed, and what written. */
  outputs: Outputs;
}

/** What a command found, in every form that it can take. Exit 3: it cannot be met, and the result says why. */
export interface Outcome {
  exit: 0 | 3;
  warnings: readonly Problem[];
  forms: Forms;
  /** What is done once everything is written and printed; it gives what went wrong with it. */
  afterwards?: () => Promise<readonly Problem[]>;
}

/** How every command is asked for a form, and for files. */
export const OUT = ['json', 'csv', 'html', 'to', 'replace'] as const;
