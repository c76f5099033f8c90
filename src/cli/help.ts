import { wrap } from '../report/wrap.js';
import { dashed } from '../desk/options/option.js';
import { type OptionKey, optionNamed } from '../desk/options/table.js';
import { takenBy } from './arguments.js';
import type { Command } from './command.js';
import { commandLines, twoColumns } from './help-lines.js';

/** Help for one command, led by an example that can be copied. */
export function commandHelp(command: Command): string {
  const options = takenBy(command).map((key): [string, string] => [written(key), meaning(key)]);
  const operand: [string, string][] = command.operands ? [[command.operands.name, command.operands.says]] : [];
  return [
    ...command.examples.flatMap(({ line, says }) => [
      ...commandLines(line),
      ...wrap(says, 72).map((l) => `      ${l}`),
    ]),
    '',
    ...command.about.flatMap((paragraph) => [...wrap(paragraph, 80), '']),
    ...twoColumns([...operand, ...options]),
    '',
  ].join('\n');
}

/** `--mix AMOUNT`. */
export function written(key: OptionKey): string {
  const { value } = optionNamed(key);
  return value === undefined ? dashed(key) : `${dashed(key)} ${value}`;
}

/** What an option asks for, with what is taken where it is not said. */
export function meaning(key: OptionKey): string {
  const { says, usual, repeatable } = optionNamed(key);
  return [
    says,
    ...(usual === undefined ? [] : [`(default: ${usual})`]),
    ...(repeatable ? ['(may be repeated)'] : []),
  ].join(' ');
}
