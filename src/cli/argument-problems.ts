import { dashed } from '../desk/options/option.js';
import { type OptionKey, optionNamed } from '../desk/options/table.js';
import { nearest, type Problem, problem } from '../problem.js';
import type { Command } from './command.js';
import { fileAfterForm } from './retired.js';

/** An option that the command does not take, with the nearest that it does. */
export function unknownOption(
  key: string,
  argv: readonly string[],
  known: readonly string[],
  command: string,
): Problem {
  // the parser writes this one name otherwise
  const name = key === '___proto___' ? '__proto__' : key;
  const found = key.length > 1 ? `--${name}` : (argv.find((a) => /^-[^-]/.test(a) && a.includes(key)) ?? `-${key}`);
  const guess = nearest(found.replace(/^-+/, ''), known, 1)[0];
  const fix = guess === undefined ? `\`velamen ${command} -h\` lists them.` : `Did you mean --${guess}?`;
  return problem('unknown-option', { field: found }, found, `an option of \`velamen ${command}\``, fix);
}

/** Options without their value, or given twice. */
export function valueProblems(key: OptionKey, given: readonly unknown[]): Problem[] {
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
export function filesAfterForms(
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

/** Words that are neither option nor value. */
export function operandProblems(command: Command, operands: readonly string[]): Problem[] {
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
