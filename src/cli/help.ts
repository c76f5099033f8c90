import { wrap } from '../report/wrap.js';
import { dashed } from '../desk/options/option.js';
import { type OptionKey, optionNamed } from '../desk/options/table.js';
import { takenBy } from './arguments.js';
import type { Command } from './command.js';
import type { Listed } from './commands.js';

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

/** The list of commands. */
export function overview(commands: readonly Listed[], version: string): string {
  return [
    ...commandLines('velamen blend --plants phalaenopsis --medium sphagnum --shelf shelf.csv --mix "4 L"'),
    '      the cheapest feed for moth orchids in moss from what stands on your shelf',
    '',
    `velamen ${version} turns what fertilizer labels say into the cheapest proved feed for`,
    'potted epiphytes. Commands:',
    '',
    ...twoColumns(commands.map((command) => [command.name, command.summary])),
    '',
    ...wrap(
      '`velamen COMMAND -h` shows an example and the options of a command. A bench is a folder with bench.yaml (water, kit, feeds) and shelf.csv; --bench names it, the current folder is the default.',
      80,
    ),
    '',
    ...wrap(
      'Exit codes: 0 done; 1 a fault of ours; 2 something given is refused, with what is wrong and how to mend it; 3 what was asked cannot be met, and the result says why.',
      80,
    ),
    '',
  ].join('\n');
}

/** A command line that can be copied; a long one goes on after a backslash. */
function commandLines(line: string): string[] {
  const lines: string[] = [];
  for (const part of line.split(/ (?=--)/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + part.length + 1 <= 74) lines[lines.length - 1] = `${last} ${part}`;
    else lines.push(part);
  }
  return lines.map((part, i) => `  ${i > 0 ? '  ' : ''}${part}${i < lines.length - 1 ? ' \\' : ''}`);
}

function twoColumns(rows: readonly (readonly [string, string])[]): string[] {
  const gutter = Math.min(28, Math.max(...rows.map(([name]) => name.length)) + 4);
  return rows.flatMap(([name, says]) => {
    const lines = wrap(says, 80 - gutter);
    const first = `  ${name}`;
    if (first.length > gutter - 2) return [first, ...lines.map((line) => ' '.repeat(gutter) + line)];
    return lines.map((line, i) => (i === 0 ? first : '').padEnd(gutter) + line);
  });
}
