import Parser from 'yargs-parser';
import { dashed, spelled } from '../desk/options/option.js';
import { type OptionKey, optionNamed, type Words } from '../desk/options/table.js';
import { nearest, type Problem, problem, Refusal } from '../problem.js';
import type { Command, Given } from './command.js';
import type { Io } from './io.js';
import { SHEET_FORMS } from './forms.js';
import { readOutputs } from './outputs.js';
import { fileAfterForm, renamed, retiredOf } from './retired.js';

/**
 * Reads a command's arguments by the table of options.
 * @throws Refusal with every unknown, old, repeated, empty or clashing option, and every file that may not be written
 */
export function readArguments(command: Command, argv: readonly string[], io?: Io): Given {
  const keys = new Map(takenBy(command).map((key) => [spelled(key), key]));
  const { words: written, loose } = tellSigns(argv, keys, retiredOf(command.name));
  const parsed = parse(written, keys, retiredOf(command.name));
  const problems: Problem[] = [];
  const words: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(parsed)) {
    if (name === '_' || name === 'h' || value === undefined) continue;
    const values: unknown[] = Array.isArray(value) ? value : [value];
    const key = keys.get(name);
    if (value === false) continue;
    if (key !== undefined) {
      problems.push(...valueProblems(key, values));
      words[key] = said(key, values);
    } else if (retiredOf(command.name).includes(name)) {
      problems.push(renamed(command.name, name, String(values[0] ?? '')));
    } else problems.push(unknownOption(name, argv, [...keys.keys()], command.name));
  }
  const operands = [...(parsed._ ?? []).map(String), ...loose];
  const files = filesAfterForms(argv, operands, keys);
  problems.push(...files.problems, ...operandProblems(command, files.operands));
  const able = command.forms?.(words as Words, operands) ?? SHEET_FORMS;
  const { outputs, problems: unable } = readOutputs(words as Words, able, io);
  problems.push(...unable);
  if (problems.length > 0) throw new Refusal(problems);
  return { words: words as Words, operands, outputs };
}

/** The options of a command with that of every command, in the order of its help. */
export const takenBy = (command: Command): OptionKey[] => [...command.options, 'help'];

/** A text, a list of texts, or true. */
function said(key: OptionKey, values: readonly unknown[]): unknown {
  const { value, repeatable } = optionNamed(key);
  return value === undefined ? values[0] === true : repeatable ? values : values[0];
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

function unknownOption(key: string, argv: readonly string[], known: readonly string[], command: string): Problem {
  const found = key.length > 1 ? `--${key}` : (argv.find((a) => /^-[^-]/.test(a) && a.includes(key)) ?? `-${key}`);
  const guess = nearest(found.replace(/^-+/, ''), known, 1)[0];
  const fix = guess === undefined ? `\`velamen ${command} -h\` lists them.` : `Did you mean --${guess}?`;
  return problem('unknown-option', { field: found }, found, `an option of \`velamen ${command}\``, fix);
}

function valueProblems(key: OptionKey, given: readonly unknown[]): Problem[] {
  const field = dashed(key);
  const { value: needed, repeatable } = optionNamed(key);
  const problems: Problem[] = [];
  if (needed !== undefined && given.some((value) => typeof value !== 'string' || value.trim() === '')) {
    problems.push(
      problem(
        'option-without-value',
        { field },
        `${field} with nothing after it`,
        `${field} ${needed}`,
        `Write ${field} ${needed}.`,
      ),
    );
  }
  if (given.length > 1 && !repeatable) {
    problems.push(
      problem('option-given-twice', { field }, `${field} ${given.length} times`, 'it once', 'Keep the one you mean.'),
    );
  }
  return problems;
}

/** `--html sheet.html`, as files were named of old: the file is then no operand. */
function filesAfterForms(
  argv: readonly string[],
  operands: readonly string[],
  keys: ReadonlyMap<string, OptionKey>,
): { operands: string[]; problems: Problem[] } {
  const pairs = argv.flatMap((word, i) => {
    const [form = '', joined] = word.replace(/^--/, '').split('=', 2);
    const file = joined ?? argv[i + 1];
    const isForm = word.startsWith('--') && ['html', 'csv', 'svg', 'json'].includes(form) && keys.has(form);
    return isForm && file !== undefined && /\.(html?|csv|svg|json|txt|pdf)$/i.test(file) ? [{ form, file }] : [];
  });
  return {
    operands: operands.filter((operand) => !pairs.some(({ file }) => file === operand)),
    problems: pairs.map(({ form, file }) => fileAfterForm(form, file)),
  };
}

function operandProblems(command: Command, operands: readonly string[]): Problem[] {
  const most = command.operands?.most ?? 0;
  if (operands.length <= most) return [];
  const extra = operands.slice(most).join(' ');
  const expected = most === 0 ? 'options only' : `at most ${most} ${command.operands?.name}`;
  return [
    problem(
      'stray-word',
      {},
      `"${extra}"`,
      expected,
      'A value of several words needs quotes around it; an option starts with --.',
    ),
  ];
}
