import type { Checked, Where } from '../../problem.js';

/** One option: the same word, value and meaning in every command that takes it. */
export interface Option {
  /** What stands for its value in help, `AMOUNT`; a switch has none. */
  value?: string;
  /** What it asks for, in one line. */
  says: string;
  /** What is taken where it is not said. */
  usual?: string;
  /** May be given more than once. */
  repeatable?: true;
  /** What a bare number is in. */
  unit?: string;
  /** The key of bench.yaml that says the same, read by the same reader: `feeds.*.batch`. */
  bench?: string;
  /** What its words mean, or every Problem at `where`. `beside` is what they can't be read without: the catalog, the shelf, the pen. */
  read?: (text: string, where: Where, beside: never) => Checked<unknown>;
  /** What may stand there, for the shell: the words themselves, or which names to look up. */
  choices?: readonly string[] | 'plants' | 'media' | 'phases' | 'waters' | 'products' | 'feeds';
}

/** The values of options as they were written: a text, a list of texts, or true for a switch. */
export type Said<Table> = {
  -readonly [K in keyof Table]?: Table[K] extends { value: string }
    ? Table[K] extends { repeatable: true }
      ? readonly string[]
      : string
    : boolean;
};

/** `atMost` as it is written on a command line: `at-most`. */
export const spelled = (key: string): string => key.replace(/[A-Z]/g, (big) => `-${big.toLowerCase()}`);

/** An option as a person writes it: `--at-most`. */
export const dashed = (key: string): string => `--${spelled(key)}`;
