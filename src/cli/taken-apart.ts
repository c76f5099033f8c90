import Parser from 'yargs-parser';
import { type OptionKey, optionNamed } from '../desk/options/table.js';
import { type Problem, problem } from '../problem.js';

/** A command line by its options and operands, judged by nobody yet; words with a sign that belong to no option are loose. */
export function takenApart(
  argv: readonly string[],
  keys: ReadonlyMap<string, OptionKey>,
  retired: readonly string[],
): { parsed: ReturnType<typeof parse>; loose: string[] } {
  const { words, loose } = tellSigns(argv, keys, retired);
  return { parsed: parse(words, keys, retired), loose };
}

/** The words as yargs takes them apart; judging is left to us. */
function parse(words: readonly string[], keys: ReadonlyMap<string, OptionKey>, retired: readonly string[]) {
  const names = [...keys].map(([name, key]) => ({ name, isSwitch: optionNamed(key).value === undefined }));
  return Parser([...words], {
    alias: { help: ['h'] },
    boolean: names.filter(({ isSwitch }) => isSwitch).map(({ name }) => name),
    string: [...names.filter(({ isSwitch }) => !isSwitch).map(({ name }) => name), ...retired],
    configuration: {
      'boolean-negation': false,
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'duplicate-arguments-array': true,
    },
  });
}

/** A word such as `-4 L` is a value with a sign, not an option: it goes to the option before it, or stands on its own. */
function tellSigns(
  argv: readonly string[],
  keys: ReadonlyMap<string, OptionKey>,
  retired: readonly string[],
): { words: string[]; loose: string[] } {
  const words: string[] = [];
  const loose: string[] = [];
  const takesValue = (name: string): boolean => {
    const key = keys.get(name);
    return retired.includes(name) || (key !== undefined && optionNamed(key).value !== undefined);
  };
  for (const word of argv) {
    const before = words.at(-1);
    if (!/^[-−][.,]?\d/.test(word)) words.push(word);
    else if (before?.startsWith('--') && takesValue(before.slice(2))) words[words.length - 1] = `${before}=${word}`;
    else loose.push(word);
  }
  return { words, loose };
}

/** Switches that were given a value, as in `--json=x`: what was meant by it nobody knows. */
export const switchValues = (argv: readonly string[], keys: ReadonlyMap<string, OptionKey>): Problem[] =>
  argv.flatMap((word) => {
    const name = /^--([\w-]+)=/.exec(word)?.[1];
    const key = name === undefined ? undefined : keys.get(name);
    if (key === undefined || optionNamed(key).value !== undefined) return [];
    return [problem('switch-value', { field: `--${name}` }, word.slice(0, 60), `--${name} alone`, `Write --${name}.`)];
  });
