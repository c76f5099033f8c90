import { spelled } from '../desk/options/option.js';
import { type OptionKey, optionNamed, type Words } from '../desk/options/table.js';
import { type Problem, Refusal } from '../problem.js';
import { filesAfterForms, operandProblems, unknownOption, valueProblems } from './argument-problems.js';
import type { Command, Given } from './command.js';
import { SHEET_FORMS } from './forms.js';
import type { Io } from './io.js';
import { readOutputs } from './outputs.js';
import { renamed, retiredOf } from './retired.js';
import { switchValues, takenApart } from './taken-apart.js';

/**
 * Reads a command's arguments by the table of options.
 * @throws Refusal with every unknown, old, repeated, empty or clashing option, and every file that may not be written
 */
export function readArguments(command: Command, argv: readonly string[], io?: Io): Given {
  const keys = new Map(takenBy(command).map((key) => [spelled(key), key]));
  const { parsed, loose } = takenApart(argv, keys, retiredOf(command.name));
  const problems: Problem[] = switchValues(argv, keys);
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
