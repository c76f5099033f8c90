import { spelled } from '../desk/options/option.js';
import { type OptionKey, optionNamed } from '../desk/options/table.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';
import { takenBy } from './arguments.js';
import type { Command } from './command.js';
import { COMMANDS } from './commands.js';
import { feedsOf } from './feeds-of.js';
import type { Io } from './io.js';
import { ASKS, saidByYargs, shellOf, type Yargs } from './shell.js';

/**
 * The words that may follow on a command line, as a shell shows them.
 * @param line the words so far with `velamen` first, the last one as far as it is typed
 */
export async function completions(line: readonly string[], io: Io): Promise<string[]> {
  const listed = COMMANDS.find(({ name }) => name === line[1]);
  const command = await listed?.load();
  const before = command && optionBefore(command, line);
  // a file or an amount: the shell knows its files, and nobody knows the amount
  if (before !== undefined && optionNamed(before).value !== undefined && !optionNamed(before).choices) return [];
  const text = await saidByYargs([ASKS, ...line], shellOf(io.env.SHELL ?? 'bash', false), (parser) => {
    for (const { name, summary } of COMMANDS) {
      parser.command(
        name,
        summary,
        (own) => (name === command?.name ? withOptions(own, command, line, io) : own),
        () => {},
      );
    }
    return parser;
  });
  return [...operandsOf(command, line), ...text.split('\n').filter((word) => word !== '')];
}

/** The words that may stand behind the command, where its first one is being typed. */
function operandsOf(command: Command | undefined, line: readonly string[]): string[] {
  const typed = line.at(-1) ?? '';
  return line.length === 3 ? (command?.operands?.choices ?? []).filter((word) => word.startsWith(typed)) : [];
}

function optionBefore(command: Command, line: readonly string[]): OptionKey | undefined {
  const word = line.at(-2) ?? '';
  return takenBy(command).find((key) => word === `--${spelled(key)}`);
}

function withOptions(parser: Yargs, command: Command, line: readonly string[], io: Io): Yargs {
  for (const key of takenBy(command)) {
    const { says, value } = optionNamed(key);
    const choices = line.at(-2) === `--${spelled(key)}` ? choicesOf(key, line, io) : undefined;
    parser.option(spelled(key), {
      type: value === undefined ? 'boolean' : 'string',
      describe: says,
      ...(choices === undefined ? {} : { choices }),
    });
  }
  return parser;
}

function choicesOf(key: OptionKey, line: readonly string[], io: Io): readonly string[] | undefined {
  const { choices } = optionNamed(key);
  if (typeof choices !== 'string') return choices;
  const catalog = shippedCatalog();
  if (choices === 'feeds') return feedsOf(catalog, line, io);
  return (choices === 'products' ? [...catalog.products, ...catalog.salts] : catalog[choices]).map(({ id }) => id);
}
